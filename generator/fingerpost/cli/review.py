"""Compares two states of a course as music: what changed for the player, how far it reaches, what did not change."""

from __future__ import annotations

import argparse
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

from fingerpost.cli.answer import FINE, FOUND_ERRORS, QuestionError

if TYPE_CHECKING:
    from fingerpost.course.comparison.courses import Side
    from fingerpost.report.review import Review
    from fingerpost.report.review_html import Draw
    from fingerpost.workspace.both_sides import CommitCourse

NAME = "review"
SUMMARY = "what a branch changes for the player"
EXAMPLES = """\
COMMITS is BASE..HEAD; HEAD may be left out. The comparison begins where the two parted (BASE...HEAD is the same).
Only commits are read, nothing is checked out, and nothing that they hold is run. The exit code is 1 if HEAD has
errors that were not there before, and 2 if there is nothing to compare.

examples:
  fingerpost review main..
  fingerpost review main..new-lesson --format html --out review.html
  fingerpost review main..HEAD --format markdown"""

FORMS = ("text", "markdown", "html", "json")


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Adds the arguments of `review`."""
    parser.add_argument("commits", metavar="COMMITS", help="BASE..HEAD, such as main..HEAD")
    parser.add_argument("--format", choices=FORMS, default="text", help="how the review is written (text by default)")
    parser.add_argument("--out", default="-", metavar="FILE", help="where it goes (- for standard output)")
    parser.add_argument("--course", default=".", metavar="DIR", help="the course's folder (the current one by default)")


def run(args: argparse.Namespace) -> int:
    """Writes the review; the exit code is 1 if the change brings errors with it."""
    review, before, after = _review(Path(args.course), args.commits)
    text = "".join(f"{line}\n" for line in _written(args.format, review, before, after))
    if args.out == "-":
        print(text, end="")
    else:
        _save(Path(args.out), text)
    return FOUND_ERRORS if review.errors_new else FINE


def _review(course: Path, commits: str) -> tuple[Review, CommitCourse, CommitCourse]:
    from fingerpost.course.comparison.courses import compare
    from fingerpost.report.review import Review, only_after
    from fingerpost.report.visible import visible
    from fingerpost.workspace.both_sides import both_sides
    from fingerpost.workspace.course_folder import CourseUnreadableError
    from fingerpost.workspace.git_folder import GitError

    try:
        sides = both_sides(course, commits)
    except (GitError, CourseUnreadableError) as problem:
        raise QuestionError(visible(problem.message), visible(problem.fix)) from problem
    before, after = sides.before, sides.after
    review = Review(
        sides.base,
        before.commit,
        after.commit,
        after.docs,
        compare(_side(before), _side(after)),
        only_after(before.findings, after.findings),
        only_after(after.findings, before.findings),
        after.settings_file,
    )
    return review, before, after


def _side(course: CommitCourse) -> Side:
    from fingerpost.course.comparison.courses import Side
    from fingerpost.course.comparison.doubt import doubts
    from fingerpost.course.comparison.prose import prose_of

    in_doubt = doubts((page.syntax for page in course.checked.pages), course.checked.findings)
    pages = {page.file: page.text for page in course.sources.pages}
    prose = {page.syntax.file: prose_of(pages[page.syntax.file], page) for page in course.checked.pages}
    read = [block for page in course.checked.pages for block in page.syntax.blocks]
    blocks = {block.id.text: block.source for block in read if block.id is not None}
    settings, text = course.checked.settings, course.sources.settings_text
    return Side(course.checked.course, settings, pages, blocks, in_doubt, prose, course.files, text)


def _written(form: str, review: Review, before: CommitCourse, after: CommitCourse) -> Iterator[str]:
    from fingerpost.report import review_html, review_json, review_markdown, review_text

    if form == "html":
        return review_html.write(review, _pictures(before), _pictures(after))
    write = {"text": review_text.write, "json": review_json.write, "markdown": review_markdown.write}[form]
    return write(review)


def _pictures(course: CommitCourse) -> Draw:
    """How the steps of one side are drawn."""
    from fingerpost.render.figure import figure_svg, step_picture
    from fingerpost.render.look import Look

    look = Look.of(course.checked.settings)
    return lambda step, board, ident: figure_svg(step_picture(step, board, look), ident, turnable=False)


def _save(path: Path, text: str) -> None:
    try:
        path.write_text(text, encoding="utf-8", newline="\n")
    except OSError as problem:
        reason = (problem.strerror or str(problem)).lower()
        raise QuestionError(
            f"{path} can't be written: {reason}", "another file, or a folder that is there"
        ) from problem
