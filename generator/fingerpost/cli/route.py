"""Finds the shortest, then easiest, way from one shape or chord to another, one finger at a time."""

from __future__ import annotations

import argparse
from collections.abc import Iterator
from itertools import islice
from typing import TYPE_CHECKING

from fingerpost.cli import instrument, route_arguments
from fingerpost.cli.answer import FINE, FOUND_ERRORS, QuestionError, answer_each, each

if TYPE_CHECKING:
    from fingerpost.cli.route_question import Asked

NAME = "route"
SUMMARY = "the way from shape to shape, one finger at a time"
EXAMPLES = """\
A and B are shapes (x32010, with fingers x32010/-32-1-) or chords (Am, G7). Of a chord the route takes the shape that
is nearest, and of those the easiest. Each step is one finger's move, written as in a lesson; the last one may say
which strings are struck from then on. With - the questions are read from standard input, A and B on a line.

examples:
  fingerpost route C Am
  fingerpost route 320003 x32010 --no-bar
  fingerpost route C G --named --key G
  fingerpost route Em Am --position 5-9 --alternatives 3
  fingerpost route C Am --taught my-course
  fingerpost route --json x32010/-32-1- x02210/--231-"""


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Adds the arguments of `route`."""
    parser.add_argument(
        "ends", nargs="+", metavar="A B", help="two shapes or chords, or several pairs, or - for standard input"
    )
    parser.add_argument("--json", action="store_true", help="one JSON object a line")
    route_arguments.add_arguments(parser)
    instrument.add_arguments(parser)


def run(args: argparse.Namespace) -> int:
    """Answers each pair: exit code 1 where there is no route, 2 where a question could not be read."""
    from fingerpost.cli import route_options

    asked = route_options.read(args)
    codes = [FINE]

    def answer(pair: str) -> None:
        start, end = pair.split()
        codes.append(_answer(asked, start, end, args.json))

    wrong = answer_each(_pairs(args.ends), answer)
    return wrong or max(codes)


def _pairs(ends: list[str]) -> Iterator[str]:
    """The arguments two by two. A line of standard input may hold both, or each has a line of its own."""
    words = (word for line in each(ends) for word in line.split())
    for first in words:
        second = next(words, None)
        if second is None:
            raise QuestionError(f"{first!r} is only one end of a route", f"`fingerpost route {first} Am`")
        yield f"{first} {second}"


def _answer(asked: Asked, start: str, end: str, json: bool) -> int:
    from fingerpost.cli import route_said
    from fingerpost.music.routes.answer import different_routes
    from fingerpost.music.routes.relaxed import loosen
    from fingerpost.music.routes.search import SearchBoundError

    question, routes, settled = asked.question(start, end), [], True
    try:
        for route in islice(different_routes(question, asked.atlas), asked.alternatives):
            routes.append(route)
    except SearchBoundError:
        settled = False
    if routes:
        (route_said.routes_as_json if json else route_said.routes_as_text)(question, routes, asked)
        return FINE
    loosening = loosen(question, asked.atlas)
    (route_said.none_as_json if json else route_said.none_as_text)(question, loosening, settled)
    return FOUND_ERRORS
