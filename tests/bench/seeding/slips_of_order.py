"""Slips in what a course is made of: a lesson in another place, a block that is lost, an entry of the navigation."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping

from .places import CourseKind, Page, Slip

TEACHES = re.compile(r"^teaches: \[(.*)\]$", re.M)
TECHNIQUES = frozenset(("bar", "hinge", "slide", "mute", "capo", "thumb"))
ID = re.compile(r"^id: (\S+)$", re.M)


def lesson_moved(pages: Mapping[str, str]) -> Iterator[Slip]:
    """A lesson behind others that follow it: told where they use what it teaches."""
    files = list(pages)
    for at, file in enumerate(files):
        for to in sorted({at + 1, (at + 1 + len(files)) // 2, len(files) - 1} - {at}):
            if at < to < len(files):
                overtaken = files[at + 1 : to + 1]
                order = (*files[:at], *overtaken, file, *files[to + 1 :])
                also = tuple(_uses(pages, overtaken, _names(pages[file])))
                # The order is no line of a page; what is told stands at the uses alone.
                yield Slip("lesson moved", file, 0, (0, 0), tuple(pages[file].split("\n")), (), also, order)


def block_lost(pages: Mapping[str, str]) -> Iterator[Slip]:
    """A block that is gone from its page: told below it, or where what it taught or its id is used."""
    files = list(pages)
    for file, text in pages.items():
        page = Page.of(file, text)
        for first, end in page.blocks():
            lines = (*page.lines[:first], *page.lines[end:])
            names = _names("\n".join(page.lines[first:end]))
            also = tuple(_uses(pages, files[files.index(file) + 1 :], names))
            below = tuple(range(first + 1, len(lines) + 1))
            yield Slip("block lost", file, first + 1, (0, len(lines[first])), lines, below, also)


def _names(text: str) -> frozenset[str]:
    """The ids of a text's blocks, and what they teach."""
    return frozenset((*ID.findall(text), *(word for words in TEACHES.findall(text) for word in words.split(", "))))


def _uses(pages: Mapping[str, str], files: list[str], names: frozenset[str]) -> Iterator[tuple[str, int]]:
    """The lines of pages that name one of these words; a technique is used without its name, by any move."""
    for file in files:
        for number, line in enumerate(pages[file].split("\n"), 1):
            words = set(re.split(r"[\s,\[\]`]+", line))
            if names & words or (names & TECHNIQUES and line.startswith(("- ", "start: "))):
                yield file, number


OF_ORDER: tuple[CourseKind, ...] = (lesson_moved, block_lost)
