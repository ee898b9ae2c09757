"""Which block or mention of the course stands where in a text that is about to become a page."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from fingerpost.course.model import Block, BrokenBlock, Lesson, MentionMeaning
from fingerpost.source.fences import Scan, scan
from fingerpost.source.page import PageRead
from fingerpost.source.syntax import Fence, Mention

Shown = Block | BrokenBlock


@dataclass(frozen=True, slots=True)
class Located:
    """What stands in a text; fences and mentions count its lines from 1. None: the course says nothing about it."""

    fences: tuple[tuple[Fence, Shown | None], ...]
    mentions: tuple[tuple[Mention, MentionMeaning | None], ...]


def locate(text: str, read: PageRead, lesson: Lesson | None) -> Located | None:
    """Finds the blocks and mentions of a lesson in a text; None where they are not those of the course.

    read is the page as the course was built from it. The text may be the end of the file or may have been changed
    around its blocks by others, so what stands in it is told by its order and its words, not by its line.
    """
    found = scan(read.syntax.file, text)
    if _bodies(found.fences) != _bodies(read.fences) or _words(found.mentions) != _words(read.syntax.mentions):
        return None
    return Located(_shown(found, read, lesson), _meant(found, lesson))


def _bodies(fences: Sequence[Fence]) -> list[list[str]]:
    # Tabs and the blanks at the end of a line may have been put straight on the way here.
    return [[line.expandtabs(4).rstrip() for line in fence.body] for fence in fences]


def _words(mentions: Sequence[Mention]) -> list[tuple[str, ...]]:
    return [(mention.kind, *(word.text for word in mention.words)) for mention in mentions]


def _shown(found: Scan, read: PageRead, lesson: Lesson | None) -> tuple[tuple[Fence, Shown | None], ...]:
    shown: tuple[Shown, ...] = (*lesson.blocks, *lesson.broken) if lesson else ()
    by_line = {block.span.line: block for block in shown}
    return tuple((here, by_line.get(there.first_line)) for here, there in zip(found.fences, read.fences, strict=True))


def _meant(found: Scan, lesson: Lesson | None) -> tuple[tuple[Mention, MentionMeaning | None], ...]:
    meanings = {meaning.ordinal: meaning for meaning in lesson.mentions} if lesson else {}
    return tuple((mention, meanings.get(mention.ordinal)) for mention in found.mentions)
