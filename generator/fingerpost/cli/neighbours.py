"""Lists every shape that one finger's move leads to, the easiest first."""

from __future__ import annotations

import argparse
from typing import Any

from fingerpost.cli import instrument
from fingerpost.cli.answer import answer_each, say_json
from fingerpost.music.fretboard import Fretboard
from fingerpost.music.shape import Shape

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
    from fingerpost.cli.sound import fingered
    from fingerpost.music.shape_text import write_shape

    board = instrument.fretboard(args)

    def answer(text: str) -> None:
        shape = fingered(text, board)
        found = _neighbours(shape, board)
        if args.json:
            for neighbour in found:
                say_json({"from": write_shape(shape), **neighbour})
        else:
            _say(write_shape(shape), found)

    return answer_each(args.shapes, answer)


def _neighbours(shape: Shape, board: Fretboard) -> list[dict[str, Any]]:
    from fingerpost.cli.sound import names_of
    from fingerpost.music.hand import Hand
    from fingerpost.music.neighbours import neighbours
    from fingerpost.music.shape_text import write_shape

    return [
        {
            "move": found.move_text,
            "kind": found.kind.value,
            "shape": write_shape(found.shape),
            "cost": round(found.cost, 3),
            "symbol": next((name.symbol for name in names_of(found.shape, board)), None),
        }
        for found in neighbours(shape, board, Hand())
    ]


def _say(start: str, found: list[dict[str, Any]]) -> None:
    print(f"{len(found)} shapes are one finger away from {start}")
    moves = max((len(item["move"]) for item in found), default=0)
    shapes = max((len(item["shape"]) for item in found), default=0)
    for item in found:
        symbol = item["symbol"] or "(silent)"
        print(f"  {item['move']:<{moves}}  {item['shape']:<{shapes}}  {item['cost']:>6.2f}  {symbol}")
    print()
