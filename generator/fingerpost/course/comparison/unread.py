"""Blocks of which nothing can be made out, before and after: only their texts can be compared."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from fingerpost.course.comparison.difference import Unread
from fingerpost.course.comparison.step_difference import How
from fingerpost.course.model import BrokenBlock, Course


@dataclass(frozen=True)
class UnreadBlock:
    """Such a block in its place; key: the same for the same block on both sides, as far as that can be told."""

    file: str
    block: BrokenBlock
    key: tuple[str, ...]


def unread_blocks(course: Course, renamed: Mapping[str, str]) -> tuple[UnreadBlock, ...]:
    """Those whose start is not known, and those without an id. renamed: what their pages are called now.

    A block without an id goes by the place that it has among those of its page.
    """
    out: list[UnreadBlock] = []
    for lesson in course.lessons:
        nameless = 0
        file = renamed.get(lesson.file, lesson.file)
        for broken in lesson.broken:
            if broken.id is None:
                nameless += 1
                out.append(UnreadBlock(lesson.file, broken, ("", file, str(nameless))))
            elif broken.partial is None:
                out.append(UnreadBlock(lesson.file, broken, (broken.id,)))
    return tuple(out)


def ids_of(blocks: Iterable[UnreadBlock]) -> frozenset[str]:
    """The ids of those that have one."""
    return frozenset(unread.block.id for unread in blocks if unread.block.id is not None)


def unread_changes(
    before: Sequence[UnreadBlock], after: Sequence[UnreadBlock], read: Iterable[str]
) -> Iterator[Unread]:
    """Those that came, went, or have another text; read: ids of blocks that can be read on one of the sides."""
    known = {(ident,) for ident in read}
    once = {unread.key: unread for unread in before if unread.key not in known}
    now = {unread.key: unread for unread in after if unread.key not in known}
    for key, unread in now.items():
        old = once.get(key)
        if old is None or old.block.source != unread.block.source:
            yield _told(unread, How.ADDED if old is None else How.CHANGED)
    yield from (_told(unread, How.GONE) for key, unread in once.items() if key not in now)


def _told(unread: UnreadBlock, how: How) -> Unread:
    return Unread(unread.file, unread.block.id, unread.block.span.line, how)
