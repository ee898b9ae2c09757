"""Checking a whole course from its sources: every finding of every page at once, and the model that came of it."""

from __future__ import annotations

import dataclasses
import posixpath
from collections.abc import Callable, Collection, Iterable, Iterator, Sequence
from dataclasses import dataclass

from fingerpost.course.acceptance import Settled, settle
from fingerpost.course.build import build
from fingerpost.course.extras import refusal
from fingerpost.course.memory import Memory
from fingerpost.course.model import Course
from fingerpost.course.option_values import Problem
from fingerpost.course.settings import Settings
from fingerpost.diagnostics import Code, Diagnostic, Edit, Severity, Span
from fingerpost.source.page import PageRead, read_page
from fingerpost.source.syntax import PageSyntax
from fingerpost.workspace.course_folder import CourseSources
from fingerpost.workspace.links import link_faults, redirect_faults
from fingerpost.workspace.nav import unplaced_findings
from fingerpost.workspace.own_options import place_of_option


@dataclass(frozen=True)
class Checked:
    """A course with its settings and all findings in the order of their places; pages as they were read.

    accepted: what its authors let be, by a comment in its place; not among the findings.
    """

    course: Course
    settings: Settings
    pages: tuple[PageRead, ...]
    findings: tuple[Diagnostic, ...]
    accepted: tuple[Diagnostic, ...] = ()


def check(
    sources: CourseSources,
    for_pages: bool = True,
    memory: Memory | None = None,
    read: Callable[[str, str], PageRead] = read_page,
) -> Checked:
    """Reads every page and builds the model. With `sources.only`, findings are those of that page.

    for_pages: False leaves out of the model what no finding needs. memory and read: what an editor keeps of the last
    check, so that a changed page costs only itself.
    """
    settings, problems = Settings.from_mapping(sources.options)
    pages = tuple(read(page.file, page.text) for page in sources.pages)
    course, of_course = build(pages, settings, memory, for_pages, frozenset(sources.unplaced))
    redirects = redirect_faults(pages, course, settings, sources.files, lambda old: _place(f"redirects.{old}", sources))
    unplaced = unplaced_findings(pages, sources.unplaced, sources.nav_place or _place("", sources))
    besides = [*sources.findings, *setting_findings(problems, sources), *of_course, *redirects, *unplaced]
    all_known = sources.settings_name is not None
    settled = judged(pages, course, settings, sources.files, besides, all_known)
    standing, accepted = (
        tuple(finding for finding in part if sources.only in (None, finding.span.file))
        for part in (settled.standing, settled.accepted)
    )
    return Checked(course, settings, pages, standing, accepted)


def judged(
    pages: Sequence[PageRead],
    course: Course,
    settings: Settings,
    files: Collection[str],
    besides: Iterable[Diagnostic],
    all_known: bool = True,
) -> Settled:
    """All findings, settled: those of reading the pages, of their images and links, and what was found besides.

    files: all files of the sources. all_known: whether they are all that a link may lead to.
    """
    found = [
        *besides,
        *(finding for page in pages for finding in page.findings),
        *(finding for page in pages for finding in missing_images(page.syntax, files.__contains__)),
        *link_faults(pages, course, settings, files, all_known),
    ]
    return settle(found, (accepted for page in pages for accepted in page.acceptances))


def setting_findings(problems: Iterable[Problem], sources: CourseSources) -> Iterator[Diagnostic]:
    """A finding for each option that could not be taken, at its place in mkdocs.yml."""
    for problem in problems:
        span = _place(problem.key, sources)
        fix = f"`{problem.nearest}`" if problem.nearest else ""
        yield Diagnostic(span, Severity.ERROR, Code.BAD_SETTING, problem.sentence, problem.expected, fix)


def _place(key: str, sources: CourseSources) -> Span:
    return place_of_option(key, sources.option_places, sources.settings_name or "mkdocs.yml")


def missing_images(page: PageSyntax, is_there: Callable[[str], bool]) -> Iterator[Diagnostic]:
    """A finding for each image of a step that is no file of the sources. is_there takes a path from their folder.

    Images from elsewhere are refused by the course already.
    """
    for image in (step.image for block in page.blocks for step in block.steps if step.image):
        path = posixpath.normpath(posixpath.join(posixpath.dirname(page.file), image.file.text))
        if refusal(image.file.text, page.file) is None and not is_there(path):
            yield Diagnostic(
                image.file.span,
                Severity.ERROR,
                Code.MISSING_IMAGE,
                f"There is no image {image.file.text}",
                "a file of the course, its path written from this page",
                f"put the file at {path}",
            )


def moved(finding: Diagnostic, folder: str) -> Diagnostic:
    """The finding with its file named from elsewhere: `folder` is put before it."""
    edits = tuple(Edit(_moved(edit.span, folder), edit.text) for edit in finding.edits)
    return dataclasses.replace(finding, span=_moved(finding.span, folder), edits=edits)


def _moved(span: Span, folder: str) -> Span:
    return dataclasses.replace(span, file=posixpath.join(folder, span.file) if folder else span.file)
