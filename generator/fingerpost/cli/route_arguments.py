"""The arguments of `route` by which it is told what to keep to; what they mean is read when the command runs."""

from __future__ import annotations

import argparse


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Adds what a route can be asked to keep to, how long it may be, and how many are wanted."""
    parser.add_argument("--at-most", metavar="N", help="at most so many moves")
    parser.add_argument("--alternatives", metavar="K", default="1", help="so many routes that really differ")
    add_conditions(parser)


def add_conditions(parser: argparse.ArgumentParser) -> None:
    """Adds what every shape can be asked to keep to, and whose shapes a chord means."""
    if parser.get_default("alternatives") is None:
        parser.set_defaults(at_most=None, alternatives="1")
    parser.add_argument("--position", metavar="FRETS", help="`open`, or the lowest and highest fret, such as 5-9")
    parser.add_argument("--named", action="store_true", help="every shape on the way has a plain name")
    parser.add_argument("--no-bar", action="store_true", help="no finger bars")
    parser.add_argument("--no-muted-inner", action="store_true", help="no silent string between struck ones")
    parser.add_argument(
        "--keep-ringing", metavar="STRING", action="append", default=[],
        help="a string, by number or letter, that sounds all the way",
    )  # fmt: skip
    parser.add_argument("--key", metavar="KEY", help="only notes of this key sound, such as G or Em")
    parser.add_argument(
        "--avoid", metavar="SHAPE", nargs="+", action="extend", default=[],
        help="shapes not to be met; with fingers, only so",
    )  # fmt: skip
    parser.add_argument(
        "--taught", metavar="PATH", nargs="?", const=".",
        help="a chord means the shapes that this course teaches; its tuning and its hand are used (write it last)",
    )  # fmt: skip
    parser.add_argument("--only-taught", action="store_true", help="the shapes on the way are taught there too")
