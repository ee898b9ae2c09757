"""The arguments that `plan` and `lay-out` share."""

from __future__ import annotations

import argparse

from fingerpost.cli import instrument, route_arguments


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Adds the chords, where to begin, and what every shape keeps to."""
    parser.add_argument(
        "chords", nargs="+", metavar="CHORD", help="chords such as Am, or shapes; or - for standard input"
    )
    parser.add_argument("--start", metavar="CHORD", help="the chord or shape that comes first")
    parser.add_argument("--hardest", metavar="POINTS", help="no shape that costs more points to hold")
    route_arguments.add_conditions(parser)
    instrument.add_arguments(parser)
