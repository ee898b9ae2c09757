"""Lists every shape that one finger's move leads to, the easiest first."""

from __future__ import annotations

import argparse
from typing import Any

from fingerpost.cli import instrument
from fingerpost.cli.answer import QuestionError, answer_each, say_json

NAME = "neighbours"
SUMMARY = "every shape one finger away from a shape"
EXAMPLES = """\
Fingers after a slash are kept; without them the likeliest fingering is taken. Moves are written as in a lesson.

examples:
  fingerpost neighbours x32010
  fingerpost neighbours x32010/-32-1-
  fingerpost neighbours --json xx0232 | head"""


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Adds the arguments of `neighbours`."""
    parser.add_argument("shapes", nargs="+", metavar="SHAPE", help="a shape, or - for standard input")
    parser.add_argument("--json", action="store_true", help="one JSON object a line")
    instrument.add_arguments(parser)


def run(args: argparse.Namespace) -> int:
    """Lists the neighbours of each shape; the exit code is 2 if any shape could not be read."""
    from fingerpost.music.shape_text import write_shape

    board = instrument.fretboard(args)

    def answer(text: str) -> None:
        shape = _fingered(text, board)
        found = _neighbours(shape, board)
        if args.json:
            for neighbour in found:
                say_json({"from": write_shape(shape, hidden=False), **neighbour})
        else:
            _say(write_shape(shape), found)

    return answer_each(args.shapes, answer)


def _fingered(text: str, board: Any) -> Any:
    """The shape with a finger for every press. Raises QuestionError where no hand can hold it."""
    from fingerpost.music.fingering import fingerings
    from fingerpost.music.hand import Hand

    shape = instrument.shape(text, board)
    if shape.has_fingers:
        return shape
    found = fingerings(shape, board, Hand())
    if not found:
        raise QuestionError(f"No hand can hold {text!r}", "a shape that four fingers reach")
    return found[0]


def _neighbours(shape: Any, board: Any) -> list[dict[str, Any]]:
    from fingerpost.music.hand import Hand
    from fingerpost.music.neighbours import neighbours
    from fingerpost.music.shape_text import write_shape

    return [
        {
            "move": found.move_text,
            "kind": found.kind.value,
            "shape": write_shape(found.shape, hidden=False),
            "cost": round(found.cost, 3),
            "symbol": _symbol(found.shape, board),
        }
        for found in neighbours(shape, board, Hand())
    ]


def _symbol(shape: Any, board: Any) -> str | None:
    from fingerpost.music.chord_name import names

    heard = [board.sounding_midi(string, shape.fret(string)) for string in shape.sounding_strings]
    if not heard:
        return None
    return names(frozenset(midi % 12 for midi in heard), min(heard) % 12)[0].symbol


def _say(start: str, found: list[dict[str, Any]]) -> None:
    print(f"{len(found)} shapes are one finger away from {start}")
    moves = max((len(item["move"]) for item in found), default=0)
    shapes = max((len(item["shape"]) for item in found), default=0)
    for item in found:
        symbol = item["symbol"] or "(silent)"
        print(f"  {item['move']:<{moves}}  {item['shape']:<{shapes}}  {item['cost']:>6.2f}  {symbol}")
    print()
