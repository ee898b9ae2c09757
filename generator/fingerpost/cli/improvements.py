"""The better ways of one page: found, tried in memory on the whole course, and written where that was asked for."""

from __future__ import annotations

import os
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from fingerpost.cli import fix
from fingerpost.cli.answer import QuestionError
from fingerpost.course.better_ways import BetterWay, better_ways
from fingerpost.course.model import Block
from fingerpost.diagnostics import Diagnostic, Edit, Severity
from fingerpost.music.routes.question import Atlas
from fingerpost.workspace.checked import Checked, check
from fingerpost.workspace.course_folder import CourseSources, CourseUnreadableError, load
from fingerpost.workspace.edits import edited
from fingerpost.workspace.fixing import BYTE_ORDER_MARK, Rewritten


@dataclass(frozen=True)
class Improvements:
    """file: the page as the course calls it. ways: in the order of their places, none touching another."""

    path: Path
    file: str
    sources: CourseSources
    blocks: dict[str, Block]
    ways: tuple[BetterWay, ...]


def of(path: Path) -> Improvements:
    """All that can be improved in a page. Raises QuestionError where it is none, or has errors."""
    if path.is_dir():
        raise QuestionError(f"{path} is a folder; expected one page of a course", f"{path / 'page.md'}")
    try:
        sources = load(path)
    except CourseUnreadableError as problem:
        raise QuestionError(problem.message, problem.fix) from problem
    file = sources.only or sources.pages[0].file
    checked = check(sources, for_pages=False)
    if any(finding.severity is Severity.ERROR for finding in checked.findings):
        raise QuestionError(f"{path} has errors, so its hand is a guess", f"`fingerpost check {path}`")
    lesson = checked.course.lesson(file)
    blocks = {block.id: block for block in lesson.blocks} if lesson else {}
    ways: list[BetterWay] = []
    for way in sorted(_found(checked, file, blocks), key=lambda way: (-way.fewer, way.then - way.now, way.first)):
        if not any(_touch(way, other) for other in ways) and _is_sound(way, sources, checked):
            ways.append(way)
    return Improvements(path, file, sources, blocks, tuple(sorted(ways, key=lambda way: way.span)))


def _found(checked: Checked, file: str, blocks: dict[str, Block]) -> Iterator[BetterWay]:
    atlas = Atlas()
    for page in checked.pages:
        for syntax in page.syntax.blocks if page.syntax.file == file else ():
            if syntax.id is not None and syntax.id.text in blocks:
                yield from better_ways(blocks[syntax.id.text], syntax, checked.settings.hand, atlas)


def _touch(one: BetterWay, other: BetterWay) -> bool:
    return one.block == other.block and one.first <= other.last and other.first <= one.last


def _is_sound(way: BetterWay, sources: CourseSources, before: Checked) -> bool:
    """Whether the check finds nothing new in the course with this way."""
    changed = check(with_edits(sources, way.span.file, way.edits), for_pages=False)
    return _weighty(changed.findings) <= _weighty(before.findings)


def _weighty(findings: Sequence[Diagnostic]) -> int:
    return sum(finding.severity is not Severity.NOTE for finding in findings)


def with_edits(sources: CourseSources, file: str, edits: Sequence[Edit]) -> CourseSources:
    """The course with a page edited, in memory."""
    pages = (replace(page, text=edited(page.text, edits)) if page.file == file else page for page in sources.pages)
    return replace(sources, pages=tuple(pages))


def write(found: Improvements) -> tuple[BetterWay, ...]:
    """Puts into the page what can be put there without a look at its words; what was. Raises QuestionError."""
    ways = tuple(way for way in found.ways if not way.has_words)
    if not ways:
        return ()
    try:
        if os.path.islink(found.path):
            raise OSError(None, "it is a link")
        data = found.path.read_bytes()
        mark = BYTE_ORDER_MARK if data.startswith(BYTE_ORDER_MARK) else b""
        text = edited(data.removeprefix(mark).decode("utf-8"), [edit for way in ways for edit in way.edits])
        fix.replace(Rewritten(found.path, data, mark + text.encode("utf-8")))
    except (OSError, UnicodeDecodeError) as problem:
        reason = (getattr(problem, "strerror", None) or "it is not UTF-8 text").lower()
        raise QuestionError(f"{found.path} can't be written: {reason}; it was left as it is") from problem
    return ways
