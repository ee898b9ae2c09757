"""Lists every shape that one finger's move leads to, by what becomes of the sound, the easiest first."""

from __future__ import annotations

import argparse
from collections.abc import Sequence
from typing import TYPE_CHECKING

from fingerpost.cli import instrument
from fingerpost.cli.answer import answer_each, say_json
from fingerpost.music.fretboard import Fretboard
from fingerpost.music.shape import Shape

if TYPE_CHECKING:
    from fingerpost.music.neighbours import Neighbour

NAME = "neighbours"
SUMMARY = "every shape one finger away from a shape"
EXAMPLES = """\
Fingers after a slash are kept; without them the likeliest fingering is taken. Moves are written as in a lesson. The
number before a name says how hard the change is, in points; the octave of a note and which one is lowest play no part
in what counts as the same chord. With --json the easiest come first, whatever becomes of the sound.

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
    from fingerpost.cli.sound import fingered
    from fingerpost.music.hand import Hand
    from fingerpost.music.neighbours import neighbours

    board = instrument.fretboard(args)

    def answer(text: str) -> None:
        shape = fingered(text, board)
        found = neighbours(shape, board, Hand())
        if args.json:
            _say_json(shape, found, board)
        else:
            _say(shape, found, board)

    return answer_each(args.shapes, answer)


def _symbol(shape: Shape, board: Fretboard) -> str | None:
    from fingerpost.cli.sound import names_of

    return next((name.symbol for name in names_of(shape, board)), None)


def _say_json(start: Shape, found: Sequence[Neighbour], board: Fretboard) -> None:
    from fingerpost.music.shape_text import write_shape

    for neighbour in found:
        say_json(
            {
                "from": write_shape(start),
                "move": neighbour.move_text,
                "kind": neighbour.kind.value,
                "shape": write_shape(neighbour.shape),
                "cost": round(neighbour.cost, 3),
                "symbol": _symbol(neighbour.shape, board),
            }
        )


def _say(start: Shape, found: Sequence[Neighbour], board: Fretboard) -> None:
    """Group by group: the move, the shape, how hard the change is, and the name."""
    from fingerpost.music.shape_text import write_shape
    from fingerpost.music.sound_change import SoundChange, sound_change

    print(f"{len(found)} shapes are one finger away from {write_shape(start)}, {_symbol(start, board) or 'silent'}")
    moves = max((len(item.move_text) for item in found), default=0)
    shapes = max((len(write_shape(item.shape)) for item in found), default=0)
    for change in SoundChange:
        group = [item for item in found if sound_change(start, item.shape, board) is change]
        if group:
            print(f"\n{change.capitalize()} ({len(group)})")
        for item in group:
            name = _symbol(item.shape, board) or "(silent)"
            print(f"  {item.move_text:<{moves}}  {write_shape(item.shape):<{shapes}}  {item.cost:>6.2f}  {name}")
    print()
