"""Suggested better ways as a person reads them, and as JSON."""

from __future__ import annotations

import re
from pathlib import Path

from fingerpost.cli.answer import say_json
from fingerpost.cli.improvements import Improvements
from fingerpost.course.better_ways import BetterWay
from fingerpost.course.model import Step
from fingerpost.music.chord_symbol import write as write_chord
from fingerpost.music.shape_text import write_shape


def as_json(path: Path, way: BetterWay, found: Improvements) -> None:
    """One object: where, between which chords, what is and what could be."""
    start, steps = _steps(way, found)
    say_json(
        {
            "file": str(path),
            "line": way.span.line,
            "block": way.block,
            "from": _name(start),
            "to": _name(steps[-1]),
            "now": {"length": len(steps), "cost": way.now, "moves": list(map(_move, steps))},
            "instead": {
                "length": len(way.moves),
                "cost": round(way.then, 3),
                "moves": list(way.moves),
                "shapes": [write_shape(shape) for shape in way.shapes],
            },
            "words": way.has_words,
        }
    )


def as_text(path: Path, way: BetterWay, found: Improvements) -> None:
    """The reason with its figures, then the moves that are and those that could be."""
    start, steps = _steps(way, found)
    print(f"{path}:{way.span.line}: from {_name(start)} to {_name(steps[-1])} there is {_reason(way)}")
    print(f"  now, {_figures(len(steps), way.now)}:")
    for step in steps:
        print(f"    - {_move(step):<20} {write_shape(step.shape)}  {_name(step)}")
    print(f"  instead, {_figures(len(way.moves), way.then)}:")
    for move, shape in zip(way.moves, way.shapes, strict=True):
        print(f"    - {move:<20} {write_shape(shape)}")
    if way.has_words:
        print("  What is said or shown there may speak of the old move: change it by hand.")
    print()


def summary(path: Path, found: Improvements, made: tuple[BetterWay, ...], write: bool) -> str:
    """What was found, and what was done."""
    if not found.ways:
        return f"{path}: no shorter or easier way was found."
    ways = f"{len(found.ways)} better way{'s' * (len(found.ways) != 1)}"
    done = f"{len(made)} of them written" if write else "nothing was changed; --write puts them in"
    return f"{path}: {ways}; {done}."


def _steps(way: BetterWay, found: Improvements) -> tuple[Step, tuple[Step, ...]]:
    steps = found.blocks[way.block].steps
    return steps[way.first - 1], steps[way.first : way.last + 1]


def _move(step: Step) -> str:
    """The move alone, without what is claimed of it."""
    return re.split(r" (?:[=~@]|passing|silent)", step.move_text)[0]


def _name(step: Step) -> str:
    return write_shape(step.shape) if step.naming.shown is None else write_chord(step.naming.shown)


def _reason(way: BetterWay) -> str:
    if way.fewer:
        return f"a way that is {way.fewer} move{'s' * (way.fewer != 1)} shorter"
    return f"an easier way of as many moves, by {way.now - way.then:.2f} points"


def _figures(moves: int, points: float) -> str:
    return f"{moves} move{'s' * (moves != 1)}, {points:.2f} points"
