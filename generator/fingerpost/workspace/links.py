"""Where the links of a course may lead: its files, the pages that the build adds, and the anchors of them all."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence

from fingerpost.course.model import Block, Course
from fingerpost.course.rules.blocked_by_policy import blocked_by_policy
from fingerpost.course.rules.dead_link import Targets, dead_links
from fingerpost.course.rules.dead_redirect import dead_redirects
from fingerpost.course.rules.duplicate_id import ids_of_headings
from fingerpost.course.rules.unused_id import unused_ids
from fingerpost.course.settings import Settings
from fingerpost.diagnostics import Diagnostic, Span
from fingerpost.source.headings import ids_in_html, slug
from fingerpost.source.page import PageRead

INDEX = "chords.md"
ADDED = (
    INDEX,
    "course-map.md",
    "reading-the-pictures.md",
    "tuner.md",
    "staying-unhurt.md",
    "how-difficulty-is-reckoned.md",
)
"""The pages that the build adds. What makes them is imported only for a link into one, so the check starts quickly."""


def link_faults(
    pages: Sequence[PageRead], course: Course, settings: Settings, files: Iterable[str], all_known: bool = True
) -> Iterator[Diagnostic]:
    """What is wrong with the links and the anchors of a course. files: those among the sources."""
    targets = targets_of(pages, course, settings, files, all_known)
    for page in pages:
        yield from ids_of_headings(page)
        yield from dead_links(page, targets)
        yield from blocked_by_policy(page)
    if all_known:
        yield from unused_ids(pages, course, settings.redirects)


def redirect_faults(
    pages: Sequence[PageRead], course: Course, settings: Settings, files: Iterable[str], place: Callable[[str], Span]
) -> Iterator[Diagnostic]:
    """What is wrong with the redirects of a course. place: where that of an old page is written."""
    if settings.redirects:
        yield from dead_redirects(targets_of(pages, course, settings, files), place)


def targets_of(
    pages: Sequence[PageRead], course: Course, settings: Settings, files: Iterable[str], all_known: bool = True
) -> Targets:
    """What links may lead to. Anchors of a page are gathered when the first link asks for them."""
    own = {page.syntax.file: page for page in pages}
    known: dict[str, frozenset[str] | None] = {}

    def anchors(file: str) -> frozenset[str] | None:
        if file not in known:
            known[file] = _anchors(file, own, course, settings)
        return known[file]

    def steps(file: str) -> frozenset[str]:
        return frozenset(_steps_of(own[file], course)) if file in own else frozenset()

    return Targets(frozenset((*files, *own, *ADDED)), anchors, steps, dict(settings.redirects), all_known)


def _anchors(file: str, own: Mapping[str, PageRead], course: Course, settings: Settings) -> frozenset[str] | None:
    if file in own and any(block.id is None for block in own[file].syntax.blocks):
        return None  # an id is lost there, and any anchor may be meant for it
    if file in own:
        return frozenset(_of_page(own[file], course))
    return _of_made(file, course, settings) if file in ADDED else None


def _of_page(page: PageRead, course: Course) -> Iterator[str]:
    yield from page.ids
    for heading in page.headings:
        yield from heading.anchors
    yield from (block.id for block in _blocks_of(page, course))
    yield from (block.id.text for block in page.syntax.blocks if block.id)
    yield from _steps_of(page, course)


def _steps_of(page: PageRead, course: Course) -> Iterator[str]:
    yield from (step.id for block in _blocks_of(page, course) for step in block.steps)
    yield from (step.id.text for block in page.syntax.blocks for step in block.steps if step.id)


def _blocks_of(page: PageRead, course: Course) -> Iterator[Block]:
    """The blocks of a page, those among them that are in error as far as they can be read."""
    if lesson := course.lesson(page.syntax.file):
        yield from lesson.blocks
        yield from (broken.partial for broken in lesson.broken if broken.partial)


def _of_made(file: str, course: Course, settings: Settings) -> frozenset[str]:
    from fingerpost.render.course_pages import MAKERS, index_ids
    from fingerpost.render.look import Look

    look = Look.of(settings)
    if file == INDEX:
        return frozenset((slug(look.words.say("index.title")), *index_ids(course, look)))
    page = MAKERS[file](course, settings, look)
    return frozenset((slug(page.title), *ids_in_html(page.html)))
