"""The course as the plugin has it: read once from all pages in order, then seen page by page."""

from __future__ import annotations

import posixpath
from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from urllib.parse import quote

from mkdocs.structure.files import File, Files

from fingerpost.course.build import build
from fingerpost.course.curve import LessonLoad, loads
from fingerpost.course.memory import Memory
from fingerpost.course.model import Course
from fingerpost.course.rules.dead_link import to_practise
from fingerpost.course.settings import Settings
from fingerpost.diagnostics import Diagnostic
from fingerpost.render.lesson_way import lesson_way
from fingerpost.render.look import Links, Look
from fingerpost.site.located import Shown
from fingerpost.site.page_view import PageView, draw
from fingerpost.source.page import PageRead, read_page
from fingerpost.workspace.checked import judged
from fingerpost.workspace.page_text import decode


@dataclass
class Kept:
    """What a build of one course leaves for the next, so that in `mkdocs serve` an unchanged lesson costs nothing.

    settings_file: that of the course, since MkDocs has one plugin for all courses that a process builds.
    """

    settings_file: str | None
    course: Memory = field(default_factory=Memory)
    pages: Memory = field(default_factory=Memory)

    def by(self, settings_file: str | None) -> Kept:
        """What is kept for a course: this, or nothing yet where it is another course's."""
        return self if self.settings_file == settings_file else Kept(settings_file)


@dataclass(frozen=True)
class CourseModel:
    """A course, how each of its pages was read, and everything that is wrong with them.

    loads: how hard the changes of each lesson are, by its file. practised: the anchors of links that begin to practise;
    no element has them, and our own findings judge them.
    """

    course: Course
    settings: Settings
    reads: Mapping[str, PageRead]
    findings: tuple[Diagnostic, ...]
    loads: Mapping[str, LessonLoad] = field(default_factory=dict)
    practised: frozenset[str] = frozenset()


def course_model(
    pages: Sequence[File], files: Files, settings: Settings, kept: Kept, unplaced: Collection[str] = ()
) -> CourseModel:
    """Builds the model from pages in the order in which they are taught. unplaced: those that a `nav` leaves out."""
    kept.pages.turn(settings)
    texts = [decode(page.src_uri, page.content_bytes) for page in pages]
    reads = [_read(text.file, text.text, kept) for text, _ in texts]
    course, of_course = build(reads, settings, kept.course, unplaced=unplaced)
    of_bytes = (finding for _, findings in texts for finding in findings)
    settled = judged(reads, course, settings, files.src_uris, [*of_bytes, *of_course])
    by_file = {load.file: load for load in loads(course, settings)}
    by_page = {read.syntax.file: read for read in reads}
    return CourseModel(course, settings, by_page, settled.standing, by_file, _practised(reads))


def _practised(reads: Iterable[PageRead]) -> frozenset[str]:
    targets = (link.target.text for read in reads for link in read.links)
    return frozenset(target.partition("#")[2] for target in targets if to_practise(target))


def _read(file: str, text: str, kept: Kept) -> PageRead:
    return kept.pages.recall(("read", file, text), lambda: read_page(file, text))


def view_of(page: File, model: CourseModel, files: Files, language: str, kept: Kept) -> PageView | None:
    """What the course knows of a page; None where it was not built from it."""
    read = model.reads.get(page.src_uri)
    if read is None:
        return None

    def drawn(shown: Shown, look: Look) -> str:
        key = ("drawn", page.src_uri, page.url, shown.id, shown.span.line)
        asked = (shown, model.settings, language)
        return kept.pages.recall(key, lambda: (asked, draw(shown, look)), lambda had: had[0] == asked)[1]

    look = look_of(page, model, files, language)
    return PageView(read, model.course.lesson(page.src_uri), model.settings, look, drawn)


def way_through(page: File, model: CourseModel, files: Files, language: str) -> str:
    """What stands at the end of a lesson: its map and its curve; "" for any other page."""
    lesson = model.course.lesson(page.src_uri)
    if lesson is None:
        return ""
    return lesson_way(lesson, model.loads.get(lesson.file), look_of(page, model, files, language))


def look_of(page: File, model: CourseModel, files: Files, language: str) -> Look:
    """How a page looks, with addresses as seen from it."""
    return Look.of(model.settings, language, _links(page, files))


def _links(page: File, files: Files) -> Links:
    """Addresses as seen from a page of the site."""

    def step(lesson: str, block: str, step: str) -> str:
        target = files.get_file_from_path(lesson)
        there = "" if target is None or target is page else target.url_relative_to(page)
        return f"{there}#{quote(step or block)}"

    def image(written: str) -> str:
        target = files.get_file_from_path(posixpath.normpath(posixpath.join(posixpath.dirname(page.src_uri), written)))
        return written if target is None else target.url_relative_to(page)

    def other(file: str) -> str:
        target = files.get_file_from_path(file)
        return file if target is None else target.url_relative_to(page)

    return Links(step, image, other)
