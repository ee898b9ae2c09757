"""Looks where a lesson takes more moves than it need, or harder ones; suggests better ones, changes nothing unasked."""

from __future__ import annotations

import argparse
from pathlib import Path

from fingerpost.cli.answer import FINE, WRONG_USAGE, QuestionError, complain

NAME = "improve"
SUMMARY = "shorter and easier ways between the chords of a lesson"
EXAMPLES = """\
FILE is one page of a course. Looked for are shorter ways between two chords with only passing shapes between them,
and easier ways through a chord that could be held otherwise. What is suggested keeps every chord that the lesson
names, and the check finds nothing new in it. Nothing is changed without --write; and that leaves alone steps whose
words, cues or pictures may speak of the old move.

examples:
  fingerpost improve course/the-water-rises.md
  fingerpost improve --write course/the-water-rises.md"""


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Adds the arguments of `improve`."""
    parser.add_argument("files", nargs="+", metavar="FILE", help="a page of a course")
    parser.add_argument("--write", action="store_true", help="put the suggestions into the page")
    parser.add_argument("--json", action="store_true", help="one JSON object a suggestion")


def run(args: argparse.Namespace) -> int:
    """Prints the suggestions for each page; exit code 2 if one can't be read or written."""
    code = FINE
    for file in args.files:
        try:
            _improve(Path(file), args.write, args.json)
        except QuestionError as problem:
            complain(problem.message, problem.fix)
            code = WRONG_USAGE
    return code


def _improve(path: Path, write: bool, json: bool) -> None:
    from fingerpost.cli import improvements, improvements_said

    found = improvements.of(path)
    for improvement in found.ways:
        (improvements_said.as_json if json else improvements_said.as_text)(path, improvement, found)
    made = improvements.write(found) if write else ()
    if not json:
        print(improvements_said.summary(path, found, made, write))
