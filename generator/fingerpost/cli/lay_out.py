"""Makes lessons of a plan: pages whose move blocks pass the check, ready for your words; never over a file of yours."""

from __future__ import annotations

import argparse
from typing import TYPE_CHECKING

from fingerpost.cli import plan_arguments
from fingerpost.cli.answer import FINE, FOUND_ERRORS, WRONG_USAGE, complain

if TYPE_CHECKING:
    from fingerpost.course.lesson_draft import Draft

NAME = "lay-out"
SUMMARY = "lessons made of a plan, ready for your words"
EXAMPLES = """\
The plan is that of `fingerpost plan` for the same chords and options; with - it is read from standard input, as
`fingerpost plan --json` writes it, or chords, one a line. It is cut into lessons of at most --steps moves, as even in
difficulty as may be; each ends with a rest. All files are written or none.

examples:
  fingerpost lay-out C Am F G7 Dm --into course
  fingerpost plan --json C Am F G7 Dm | fingerpost lay-out - --into course --called winter
  fingerpost lay-out C Am F G7 Dm --steps 5 --show"""


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Adds the arguments of `lay-out`."""
    plan_arguments.add_arguments(parser)
    parser.add_argument("--steps", metavar="N", default="8", help="at most so many moves a lesson (8 by default)")
    parser.add_argument("--called", metavar="NAME", default="lesson", help="what files and blocks are called")
    parser.add_argument("--into", metavar="DIR", default=".", help="the folder for the pages (this one by default)")
    parser.add_argument("--show", action="store_true", help="print the pages instead of writing them")


def run(args: argparse.Namespace) -> int:
    """Writes the lessons: exit code 1 where there is no plan, 2 where nothing could be written."""
    from fingerpost.cli.laid_out import NoPlanError, laid_out

    try:
        lessons = laid_out(args)
    except NoPlanError as none:
        complain(str(none), "fewer chords or options; `fingerpost plan` says more")
        return FOUND_ERRORS
    if args.show:
        print("\n".join(lesson.text for lesson in lessons), end="")
        return FINE
    return _written(args.into, lessons)


def _written(folder: str, lessons: tuple[Draft, ...]) -> int:
    from pathlib import Path

    from fingerpost.cli.new_files import write_new

    paths = [Path(folder) / lesson.file for lesson in lessons]
    try:
        write_new(Path(folder), {lesson.file: lesson.text for lesson in lessons})
    except FileExistsError:
        there = next((path for path in paths if path.exists()), Path(folder))
        complain(f"{there} is there already; nothing was written", "another --called, or another --into")
        return WRONG_USAGE
    except OSError as problem:
        complain(f"Nothing was written into {folder}: {(problem.strerror or str(problem)).lower()}", "another --into")
        return WRONG_USAGE
    for path, lesson in zip(paths, lessons, strict=True):
        steps = f"{lesson.steps} step{'s' * (lesson.steps != 1)}"
        print(f"{path}: {', '.join(lesson.chords)}; {steps}, {lesson.points:.2f} points")
    return FINE
