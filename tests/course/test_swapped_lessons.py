"""Neighbouring lessons of the demo course swapped: exactly those findings come that the bare text predicts.

The prediction shares nothing with the tool: it reads `teaches`, `capo` and `start` from the text, and takes what is
played from the second opinion, which replays the moves by itself.
"""

from __future__ import annotations

import dataclasses
import re
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from itertools import pairwise
from pathlib import Path

import pytest
from fingerpost.diagnostics import Code
from fingerpost.workspace.checked import check
from fingerpost.workspace.course_folder import load

from .played_by_hand import Played, play
from .test_demo import COURSE, ROOT, _lesson_files

BLOCK = re.compile(r"^```moves\n(.*?)^```", re.M | re.S)
Expected = set[tuple[Code, str, str]]
"""What is found: the code, the page, and the word that the message quotes."""


@dataclass(frozen=True)
class Written:
    """A block as its text has it: what it says it teaches, the chord it starts from `as taught`, and what it uses."""

    file: str
    teaches: frozenset[str]
    as_taught: str | None
    goes_on: bool
    chords: tuple[str, ...]
    techniques: frozenset[str]


@cache
def _played() -> dict[str, list[Played]]:
    """The lines of each block as they are played in the course's own order; a start `as taught` needs that."""
    out: dict[str, list[Played]] = {}
    for line in play(_lesson_files()):
        out.setdefault(line.block, []).append(line)
    return out


def _written(path: Path) -> Iterator[Written]:
    for text in BLOCK.findall(path.read_text(encoding="utf-8")):
        lines = _played()[re.search(r"^id: (\S+)$", text, re.M)[1]]  # type: ignore[index]
        teaches = re.search(r"^teaches: \[(.*)\]$", text, re.M)
        start = re.search(r"^start: as taught (\S+)$", text, re.M)
        chords = [line.name for line in lines if line.name and not line.passing and not line.rest]
        yield Written(
            path.name,
            frozenset(re.split(r",\s*", teaches[1]) if teaches else ()),
            start[1] if start else None,
            "start: previous" in text,
            tuple(dict.fromkeys([*([start[1]] if start else []), *chords])),
            frozenset(_techniques(text, lines)),
        )


def _techniques(text: str, lines: list[Played]) -> Iterator[str]:
    """Bars, slides along a string, hinges, dampings and the capo, by what the hand does from line to line."""
    if re.search(r"^capo:", text, re.M):
        yield "capo"
    if re.search(r"\bmute \w", text):
        yield "mute"
    for line in lines:
        if any(len(strings) > 1 for _, strings in line.fingers.values()):
            yield "bar"
    for before, after in pairwise(lines):
        for finger, (fret, strings) in after.fingers.items():
            old_fret, old_strings = before.fingers.get(finger, (None, frozenset()))
            if old_fret is not None and not (before.rest or after.rest):
                if old_strings == strings and old_fret != fret:
                    yield "slide"
                if old_fret == fret and old_strings != strings and old_strings & strings:
                    yield "hinge"


def _predicted(order: list[Written]) -> Expected:
    known: set[str] = set()
    shown: set[str] = set()
    out: Expected = set()
    lost = False
    for block in order:
        known |= block.teaches
        lost = lost and block.goes_on
        if block.as_taught is not None and block.as_taught not in shown:
            out.add((Code.UNRESOLVED_START, block.file, block.as_taught))
            lost = True
        if not lost:
            out |= {(Code.USED_BEFORE_TAUGHT, block.file, word) for word in {*block.chords, *block.techniques} - known}
            shown |= set(block.chords)
    return out


PAIRS = list(pairwise(path.name for path in _lesson_files()))


@pytest.mark.parametrize(("first", "second"), PAIRS)
def test_swapping_neighbours_finds_exactly_what_the_text_predicts(first: str, second: str) -> None:
    places = {first: second, second: first}
    lessons = [places.get(path.name, path.name) for path in _lesson_files()]
    sources = load(ROOT)
    pages = {page.file: page for page in sources.pages}
    found = check(dataclasses.replace(sources, pages=tuple(pages[places.get(f, f)] for f in pages)), for_pages=False)
    got = {(f.code, f.span.file, re.search("`([^`]+)`", f.message)[1]) for f in found.findings}  # type: ignore[index]
    assert got == _predicted([block for name in lessons for block in _written(COURSE / name)])
    assert len(got) == len(found.findings)


def test_the_prediction_is_silent_on_the_course_as_it_is_and_finds_some_swaps() -> None:
    lessons = [list(_written(path)) for path in _lesson_files()]
    assert _predicted([block for blocks in lessons for block in blocks]) == set()
    swaps = [[*lessons[:i], lessons[i + 1], lessons[i], *lessons[i + 2 :]] for i in range(len(lessons) - 1)]
    telling = [swap for swap in swaps if _predicted([block for blocks in swap for block in blocks])]
    assert len(telling) >= 3
