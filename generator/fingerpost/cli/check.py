"""Finds everything that is wrong in a course at once: its place, what is wrong, what was expected, the nearest fix."""

from __future__ import annotations

import argparse
import os
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

from fingerpost.cli.answer import FINE, FOUND_ERRORS, WRONG_USAGE, complain

if TYPE_CHECKING:
    from fingerpost.diagnostics import Diagnostic
    from fingerpost.workspace.course_folder import CourseSources

NAME = "check"
SUMMARY = "every problem in a course"
EXAMPLES = """\
PATH is a course's folder (the one that holds mkdocs.yml; the current one by default) or one of its pages. Nothing
that mkdocs.yml names is run. Errors make the exit code 1; warnings and notes do not.

examples:
  fingerpost check
  fingerpost check my-course
  fingerpost check my-course/course/the-water-rises.md
  fingerpost check --format json > findings.jsonl"""


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Adds the arguments of `check`."""
    parser.add_argument("path", nargs="?", default=".", metavar="PATH", help="a course's folder or one of its pages")
    parser.add_argument("--format", choices=("text", "json"), default="text", help="how findings are written")


def run(args: argparse.Namespace) -> int:
    """Checks the course; the exit code is 1 if there are errors, 2 if there is no course to read."""
    from fingerpost.workspace.checked import check
    from fingerpost.workspace.course_folder import CourseUnreadableError, load

    try:
        sources = load(Path(args.path))
    except CourseUnreadableError as problem:
        complain(problem.message, problem.fix)
        return WRONG_USAGE
    findings = [_shown(finding, sources) for finding in check(sources).findings]
    lines = _json(findings) if args.format == "json" else _text(findings, sources)
    for line in lines:
        print(line)
    return FOUND_ERRORS if any(finding.severity == "error" for finding in findings) else FINE


def _shown(finding: Diagnostic, sources: CourseSources) -> Diagnostic:
    """The finding with its file as a person would name it from where the command runs."""
    from fingerpost.workspace.checked import moved

    folder = sources.root if finding.span.file == sources.settings_name else sources.docs
    return moved(finding, _from_here(folder))


def _from_here(folder: Path) -> str:
    path = (
        os.path.relpath(folder) if Path(os.path.abspath(folder)).is_relative_to(Path.cwd()) else os.path.abspath(folder)
    )
    return "" if path == "." else Path(path).as_posix()


def _json(findings: list[Diagnostic]) -> Iterator[str]:
    from fingerpost.report import json

    return json.write(findings)


def _text(findings: list[Diagnostic], sources: CourseSources) -> Iterator[str]:
    from fingerpost.report import text

    docs, root = _from_here(sources.docs), _from_here(sources.root)
    lines = {f"{docs}/{page.file}".lstrip("/") if docs else page.file: page.text.split("\n") for page in sources.pages}
    if sources.settings_name:
        lines[os.path.join(root, sources.settings_name)] = sources.settings_text.splitlines()

    def line_of(file: str, line: int) -> str | None:
        known = lines.get(file, [])
        return known[line - 1] if 0 < line <= len(known) else None

    return text.write(findings, line_of, 1 if sources.only else len(sources.pages))
