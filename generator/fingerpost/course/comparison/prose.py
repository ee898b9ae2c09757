"""What stands on a page outside its blocks: whether its words changed, which links, images and HTML are new there."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from fingerpost.course.comparison.difference import FileChange, PageWords
from fingerpost.course.comparison.step_difference import How
from fingerpost.source.fences import lines_of
from fingerpost.source.page import BYTE_ORDER_MARK, PageRead

_TAG = re.compile(r"<[A-Za-z/!?][^<>]*>")


@dataclass(frozen=True)
class Prose:
    """The words of a page, however they are broken into lines; targets of links and of images; tags of HTML."""

    words: str
    links: tuple[str, ...] = ()
    images: tuple[str, ...] = ()
    tags: tuple[str, ...] = ()


def prose_of(text: str, page: PageRead) -> Prose:
    """What stands outside the blocks, front matter included."""
    inside = {line for fence in page.fences for line in range(fence.first_line, fence.last_line + 1)}
    lines = enumerate(lines_of(text.removeprefix(BYTE_ORDER_MARK)), 1)
    outside = "\n".join(line for number, line in lines if number not in inside)
    links, images = (
        tuple(link.target.text for link in page.links if link.defined and link.image is wanted)
        for wanted in (False, True)
    )
    return Prose(" ".join(outside.split()), links, images, tuple(_TAG.findall(outside)))


def prose_changes(
    before: Mapping[str, Prose], after: Mapping[str, Prose], renamed: Mapping[str, str]
) -> Iterator[PageWords]:
    """The pages that were there before and have other words now; of a page that is new there is nothing to compare."""
    once = {renamed.get(file, file): prose for file, prose in before.items()}
    for file, prose in after.items():
        old = once.get(file)
        if old is not None and old != prose:
            new = (_more(old.links, prose.links), _more(old.images, prose.images), _more(old.tags, prose.tags))
            yield PageWords(file, *new)


def _more(before: Iterable[str], after: Iterable[str]) -> tuple[str, ...]:
    return tuple((Counter(after) - Counter(before)).elements())


def file_changes(before: Mapping[str, str], after: Mapping[str, str]) -> Iterator[FileChange]:
    """The files besides the pages whose content, known by a digest, is another."""
    for file in sorted({*before, *after}):
        old, new = before.get(file), after.get(file)
        if old != new:
            yield FileChange(file, How.ADDED if old is None else How.GONE if new is None else How.CHANGED)
