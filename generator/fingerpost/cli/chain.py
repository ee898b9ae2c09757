"""Finds a long chain of chords, no two the same, each one finger's move from the one before."""

from __future__ import annotations

import argparse
from typing import TYPE_CHECKING

from fingerpost.cli import instrument, route_arguments
from fingerpost.cli.answer import FINE, FOUND_ERRORS, QuestionError, complain

if TYPE_CHECKING:
    from fingerpost.cli.chain_options import Asked
    from fingerpost.music.plans.long_chain import LongChain

NAME = "chain"
SUMMARY = "a long chain of chords, each one finger from the last"
EXAMPLES = """\
Every shape is a chord in common use over its root, and no chord comes twice. The same strings are struck all the way:
those of --strum, else those of --start, else all. Where the choice is small, the answer is the longest chain there is
up to --length, and the easiest of these; else it says how long any chain could be.

examples:
  fingerpost chain --length 8 --start Am
  fingerpost chain --length 12 --start G --key G --no-bar
  fingerpost chain --length 20 --strum D-e --hardest 5 --position open
  fingerpost chain --json --length 6"""


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Adds the arguments of `chain`."""
    parser.add_argument("--length", required=True, metavar="N", help="how many chords, the first included")
    parser.add_argument("--json", action="store_true", help="one JSON object on one line")
    parser.add_argument("--start", metavar="CHORD", help="the chord or shape that comes first")
    parser.add_argument("--strum", metavar="STRINGS", help="which strings are struck, such as A-e or 5-1")
    parser.add_argument("--hardest", metavar="POINTS", help="no shape that costs more points to hold")
    route_arguments.add_conditions(parser)
    instrument.add_arguments(parser)


def run(args: argparse.Namespace) -> int:
    """Prints the chain: exit code 1 where it is shorter than was asked for, 130 if interrupted."""
    from fingerpost.cli import chain_said
    from fingerpost.cli.chain_options import read

    asked = read(args)
    found, stopped = _searched(asked)
    if found is None:
        raise QuestionError(*asked.no_beginning)
    (chain_said.as_json if args.json else chain_said.as_text)(asked, found)
    return 130 if stopped else FINE if found.chords == asked.length else FOUND_ERRORS


def _searched(asked: Asked) -> tuple[LongChain | None, bool]:
    """The chain, and whether the search was interrupted."""
    from fingerpost.cli.progress import bar
    from fingerpost.music.plans.long_chain import longest

    best: list[LongChain] = []

    def tell(count: int, chain: LongChain) -> None:
        best[:] = [max([chain, *best], key=lambda one: one.chords)]
        shown.show(count / asked.length, f"{count} so far")

    try:
        with bar(f"{asked.length} chords") as shown:
            return longest(asked.graph, asked.starts, asked.length, asked.begins, tell=tell), False
    except KeyboardInterrupt:
        complain("Stopped before the end of the search; this is the longest so far")
        return (best[0] if best else None), True
