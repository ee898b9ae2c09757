"""Writes pictures as files, for slides and hand-outs: of steps of a course, or of any shape."""

from __future__ import annotations

import argparse
import dataclasses
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

from fingerpost.cli import instrument
from fingerpost.cli.answer import FINE, WRONG_USAGE, QuestionError, complain, each

if TYPE_CHECKING:
    from fingerpost.course.model import Course
    from fingerpost.course.settings import Settings
    from fingerpost.render.look import Look

NAME = "export"
SUMMARY = "pictures as files, for slides"
EXAMPLES = """\
A step is named by its id, as it stands in the address of a link to it; the id of a block stands for all its steps.
PNG needs an extra: pip install 'fingerpost[png]'. SVG needs nothing.

examples:
  fingerpost export svg --shape x32010
  fingerpost export svg --shape x32010 --out - > c.svg
  fingerpost export png --step gates --out slides --width 1600
  fingerpost export svg --course my-course --step gates --left-handed --view player"""


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Adds the arguments of `export`."""
    parser.add_argument("form", choices=("svg", "png"), help="the kind of file")
    parser.add_argument(
        "--step", nargs="+", default=[], metavar="ID", help="ids of steps or blocks; - for standard input"
    )
    parser.add_argument("--shape", nargs="+", default=[], metavar="SHAPE", help="shapes, or -")
    parser.add_argument("--course", default=".", metavar="DIR", help="the course's folder (the current one by default)")
    parser.add_argument("--out", default=".", metavar="DIR", help="where the files go; - writes to standard output")
    parser.add_argument("--view", choices=("upright", "player"), help="the neck upright, or as the player sees it")
    parser.add_argument("--left-handed", action="store_true", help="mirrored, numerals upright")
    parser.add_argument("--heading", action="store_true", help="with the chord's name above the picture")
    parser.add_argument("--notes", action="store_true", help="with notes and intervals below the strings")
    parser.add_argument("--width", type=int, default=1200, metavar="PIXELS", help="of a PNG (1200 by default)")
    instrument.add_arguments(parser)


def run(args: argparse.Namespace) -> int:
    """Writes each picture and says where; the exit code is 2 if one could not be made."""
    if not args.step and not args.shape:
        raise QuestionError("Nothing to draw was named", "--step ID or --shape SHAPE; see `fingerpost export --help`")
    code = FINE
    for source in (*_steps(args), *_shapes(args)):
        try:
            for name, svg in source:
                _write(args, name, _file(args, svg))
        except QuestionError as problem:
            complain(problem.message, problem.fix)
            code = WRONG_USAGE
    return code


Drawn = Iterator[tuple[str, str]]


def _shapes(args: argparse.Namespace) -> Iterator[Drawn]:
    from fingerpost.course.settings import Settings

    settings = Settings()
    for text in each(args.shape):
        yield _shape(text, args, settings)


def _shape(text: str, args: argparse.Namespace, settings: Settings) -> Drawn:
    from fingerpost.cli.sound import fingered, names_of
    from fingerpost.course.model import Naming
    from fingerpost.render.standalone import shape_file

    board = instrument.fretboard(args)
    shape = fingered(text, board)
    naming = Naming(next((name.chord for name in names_of(shape, board)), None))
    drawn = shape_file(shape, board, _look(args, settings), naming, rows=args.notes, named=args.heading)
    yield text.replace("/", "_"), drawn


def _steps(args: argparse.Namespace) -> Iterator[Drawn]:
    if not args.step:
        return
    from fingerpost.workspace.checked import check
    from fingerpost.workspace.course_folder import CourseUnreadableError, load

    try:
        checked = check(load(Path(args.course)))
    except CourseUnreadableError as problem:
        raise QuestionError(problem.message, problem.fix) from problem
    for ident in each(args.step):
        yield _steps_called(ident, checked.course, _look(args, checked.settings), args)


def _steps_called(ident: str, course: Course, look: Look, args: argparse.Namespace) -> Drawn:
    from fingerpost.course.option_values import nearest
    from fingerpost.render.plain import html_id
    from fingerpost.render.standalone import step_file

    known: list[str] = []
    for block in (block for lesson in course.lessons for block in lesson.blocks):
        known += [block.id, *(step.id for step in block.steps)]
        for step in block.steps:
            if ident in (block.id, step.id, html_id(step.id)):
                drawn = step_file(step, block.fretboard, look, rows=args.notes, named=args.heading)
                yield html_id(step.id), drawn
    if ident not in known and ident not in map(html_id, known):
        near = nearest(ident, known)
        raise QuestionError(f"No step or block of this course is called {ident!r}", near and f"`--step {near}`")


def _look(args: argparse.Namespace, settings: Settings) -> Look:
    from fingerpost.render.look import Look

    handed = "left" if args.left_handed else settings.handed
    return Look.of(dataclasses.replace(settings, view=args.view or settings.view, handed=handed))


def _file(args: argparse.Namespace, svg: str) -> bytes:
    from fingerpost.export.picture import PngUnavailable, png

    if args.form == "svg":
        return svg.encode("utf-8")
    try:
        return png(svg, args.width)
    except (PngUnavailable, ValueError) as problem:
        raise QuestionError(f"No PNG could be made: {problem}") from problem


def _write(args: argparse.Namespace, name: str, data: bytes) -> None:
    if args.out == "-":
        sys.stdout.buffer.write(data)
        return
    path = Path(args.out) / f"{name}.{args.form}"
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(data)
    except OSError as problem:
        raise QuestionError(f"{path} can't be written: {(problem.strerror or str(problem)).lower()}") from problem
    print(path)
