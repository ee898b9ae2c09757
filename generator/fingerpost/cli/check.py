"""Finds everything that is wrong in a course at once: its place, what is wrong, what was expected, the nearest fix."""

from __future__ import annotations

import argparse
import os
import sys
from collections.abc import Callable, Iterable, Mapping, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from fingerpost.cli.answer import FINE, FOUND_ERRORS, WRONG_USAGE, complain

if TYPE_CHECKING:
    from fingerpost.cli.places import Places
    from fingerpost.diagnostics import Diagnostic
    from fingerpost.workspace.course_folder import CourseSources

NAME = "check"
SUMMARY = "every problem in a course"
EXAMPLES = """\
PATH is a course's folder (the one that holds mkdocs.yml; the current one by default) or one of its pages. Nothing
that mkdocs.yml names is run. Errors make the exit code 1; warnings and notes do not.

--fix makes those fixes that are safe to make without asking, says what it did, and then checks what is left. Comments,
order and line endings of your pages stay as they are.

examples:
  fingerpost check
  fingerpost check my-course
  fingerpost check my-course/course/the-water-rises.md
  fingerpost check --fix
  fingerpost check --format json > findings.jsonl
  fingerpost check --format sarif > findings.sarif"""


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Adds the arguments of `check`."""
    parser.add_argument("path", nargs="?", default=".", metavar="PATH", help="a course's folder or one of its pages")
    parser.add_argument("--format", choices=tuple(FORMATS), default="text", help="how findings are written")
    parser.add_argument("--fix", action="store_true", help="first make the fixes that are safe, and say which")


def run(args: argparse.Namespace) -> int:
    """Checks the course; the exit code is 1 if there are errors, 2 if there is no course, or a page that is none."""
    from fingerpost.cli.places import Places
    from fingerpost.workspace.checked import check
    from fingerpost.workspace.course_folder import CourseUnreadableError, load

    try:
        sources = load(Path(args.path))
    except CourseUnreadableError as problem:
        complain(problem.message, problem.fix)
        return WRONG_USAGE
    unread = not sources.docs.is_dir() or (bool(sources.no_text) and sources.only in (None, *sources.no_text))
    absolute = os.path.isabs(args.path) and args.format != "sarif"
    refused = _fix(sources, Places.of(sources, absolute), args.format) if args.fix and not unread else False
    sources = load(Path(args.path)) if args.fix else sources
    places = Places.of(sources, absolute)
    checked = check(sources, for_pages=False)
    findings = [places.shown(finding) for finding in checked.findings]
    for line in FORMATS[args.format](findings, places, 1 if sources.only else len(sources.pages)):
        print(line)
    if args.format == "text" and checked.accepted:
        from fingerpost.report.text import accepted

        print(accepted(len(checked.accepted)))
    if refused or unread:
        return WRONG_USAGE
    return FOUND_ERRORS if any(finding.severity == "error" for finding in findings) else FINE


def _fix(sources: CourseSources, places: Places, form: str) -> bool:
    """Makes the safe fixes and says so, beside the report where that is for a program; whether a page was refused."""
    from fingerpost.cli import fix
    from fingerpost.workspace.fixing import fix as fixed_course

    fixed = fixed_course(sources)
    refused = fix.write(fixed)
    for_a_person = form == "text"
    said = "\n".join(fix.told(fixed, places))
    print(said, end="\n\n" if for_a_person else "\n", file=sys.stdout if for_a_person else sys.stderr)
    for sentence in refused:
        complain(sentence)
    return bool(refused)


def _text(findings: Sequence[Diagnostic], places: Places, pages: int) -> Iterable[str]:
    from fingerpost.report import paint, text

    return text.write(findings, places.line_of, pages, paint.coloured if _colour() else paint.plain)


def _colour() -> bool:
    """Whether a person sees the output on a terminal with colours, and has not asked for none (NO_COLOR)."""
    return sys.stdout.isatty() and not os.environ.get("NO_COLOR") and os.environ.get("TERM") != "dumb"


def _json(findings: Sequence[Diagnostic], places: Places, pages: int) -> Iterable[str]:
    from fingerpost.report import json

    return json.write(findings)


def _sarif(findings: Sequence[Diagnostic], places: Places, pages: int) -> Iterable[str]:
    from fingerpost.report import sarif

    return (sarif.write(findings),)


def _annotations(findings: Sequence[Diagnostic], places: Places, pages: int) -> Iterable[str]:
    from fingerpost.report import annotations

    return annotations.write(findings, pages)


FORMATS: Mapping[str, Callable[[Sequence[Diagnostic], Places, int], Iterable[str]]] = {
    "text": _text,
    "json": _json,
    "sarif": _sarif,
    "annotations": _annotations,
}
