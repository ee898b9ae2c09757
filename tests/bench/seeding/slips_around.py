"""Slips around the moves: in starts, in keys of a block, in fences, mentions and list marks."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace
from itertools import combinations

from .places import Kind, Page, Slip

PUT = re.compile(r"(?<=[ ,])([1-4T]) ([EADGBe]|\d:)(\d+)(?=[ ,]|$)")
MENTION = re.compile(r"`(now|chord|step): ([^`]+)`")
KEPT_BY_A_LINE = ("tuning", "strum", "capo")


def _starts(page: Page) -> Iterator[tuple[int, list[re.Match[str]]]]:
    """The starts that put fingers down, each with its placements."""
    for at in sorted(page.inside):
        if page.lines[at].startswith("start: ") and (put := list(PUT.finditer(page.lines[at]))):
            yield at, put


def start_fingers_swapped(page: Page) -> Iterator[Slip]:
    """Two fingers of a start that have taken each other's place."""
    for at, put in _starts(page):
        line = page.lines[at]
        for one, other in combinations(put, 2):
            new = line[: one.start(1)] + other[1] + line[one.end(1) : other.start(1)] + one[1] + line[other.end(1) :]
            slip = page.changed("start: two swapped", at, 0, len(line), new)
            yield replace(slip, token=(one.start(1), other.end(1)))


def start_finger_left_out(page: Page) -> Iterator[Slip]:
    """A finger of a start that is not written."""
    for at, put in _starts(page):
        line = page.lines[at]
        for one in put if len(put) > 1 else ():
            new = line[: one.start()] + line[one.end() :].removeprefix(", ")
            new = re.sub(r", ?(?= =|$)", "", new)
            yield replace(page.changed("start: one left out", at, 0, len(line), new), token=(7, len(new)))


def key_lost(page: Page) -> Iterator[Slip]:
    """The line of a block that says its tuning, its strings or its capo is not there; told in the block's head."""
    for at in sorted(page.inside):
        key = page.lines[at].partition(":")[0]
        if key in KEPT_BY_A_LINE:
            first, end = next(block for block in page.blocks() if block[0] < at < block[1])
            lines = (*page.lines[:at], *page.lines[at + 1 :])
            steps = next(n for n in range(first, end) if lines[n].startswith(("steps:", "- ")))
            head = tuple(range(first + 1, steps + 1))
            yield Slip(f"{key} line lost", page.file, at + 1, (0, len(lines[at])), lines, head)


def fence_misspelt(page: Page) -> Iterator[Slip]:
    """The word that makes a fence a block of moves, written otherwise or not at all."""
    for first, _ in page.blocks():
        for fence in ("```move", "```Moves", "```mvoes", "```", "``moves"):
            slip = page.changed("fence misspelt", first, 0, len("```moves"), fence)
            yield replace(slip, token=(0, len(fence)))


def mention_misspelt(page: Page) -> Iterator[Slip]:
    """The word that makes a code span a mention, written otherwise: it stays code."""
    for at, line in enumerate(page.lines):
        for found in MENTION.finditer(line) if at not in page.inside else ():
            word, rest = found[1], found[2]
            turned = word[1] + word[0] + word[2:]
            for other in (f"{word}:{rest}", f"{word.title()}: {rest}", f"{turned}: {rest}", f"{word} {rest}"):
                yield page.changed("mention misspelt", at, found.start() + 1, found.end() - 1, other)


def list_mark_lost(page: Page) -> Iterator[Slip]:
    """The hyphen of a step is missing, sticks to the move, or is another mark."""
    for at, _ in page.steps():
        if not re.match(r"- [a-z_]+:", page.lines[at]):
            for mark in ("", "-", "* "):
                slip = page.changed("list mark lost", at, 0, 2, mark)
                yield replace(slip, token=(0, len(slip.lines[at])))


AROUND: tuple[Kind, ...] = (
    start_fingers_swapped, start_finger_left_out, key_lost, fence_misspelt, mention_misspelt, list_mark_lost,
)  # fmt: skip
