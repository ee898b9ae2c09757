"""Slips in a lesson's text: each kind, put in at every place where it can be put."""

from __future__ import annotations

import re
import zlib
from collections.abc import Iterator, Mapping
from dataclasses import replace
from itertools import pairwise

from .places import Kind, Page, Slip
from .slips_around import AROUND
from .slips_of_order import OF_ORDER

STRINGS = "EADGBe"
MOVE = re.compile(r"^(- (?:move: )?)([1-4])( (?:to|off|for)\b.*)$")
TARGET = re.compile(r"\bto ([EADGBe]|\d:)(\d+)(?=[ ,]|$)")
PUT = re.compile(r"(?<=[ ,])([1-4]) ([EADGBe])(\d+)(?=[ ,]|$)")
NAME = re.compile(r"(?:^  name: | = )(\S+)")
WORD = re.compile(r"[^\s,\[\]=~-][^\s,\[\]=~]*")
SHORT_STEP = re.compile(r"^- (?!move:)")
CUE = re.compile(r"(?:@|cue: )(\d+:\d\d)")
KEYS = frozenset(
    "title start teaches steps strum tuning capo key move name say cue beats pattern taught_as image".split()
)


def wrong_string(page: Page) -> Iterator[Slip]:
    """The string beside the one that is meant."""
    for at in sorted(page.inside):
        found = TARGET.search(page.lines[at])
        if found and found[1] in STRINGS:
            here = STRINGS.index(found[1])
            for other in (here - 1, here + 1):
                if 0 <= other < len(STRINGS):
                    yield page.changed("wrong string", at, *found.span(1), STRINGS[other])


def wrong_fret(page: Page) -> Iterator[Slip]:
    """One fret too low or too high."""
    for at in sorted(page.inside):
        if found := TARGET.search(page.lines[at]):
            for fret in (int(found[2]) - 1, int(found[2]) + 1):
                if fret:
                    yield page.changed("wrong fret", at, *found.span(2), str(fret))


def wrong_finger(page: Page) -> Iterator[Slip]:
    """Another finger."""
    for at in sorted(page.inside):
        if found := MOVE.match(page.lines[at]):
            for other in "1234":
                if other != found[2]:
                    yield page.changed("wrong finger", at, *found.span(2), other)


def off_made_to(page: Page) -> Iterator[Slip]:
    """A finger that should lift is put down."""
    for at in sorted(page.inside):
        line = page.lines[at]
        if MOVE.match(line) and (found := re.search(r"\boff\b", line)):
            yield page.changed(
                "off made to", at, *found.span(), "to G2" if "3:" not in "".join(page.lines) else "to 3:2"
            )


def to_made_off(page: Page) -> Iterator[Slip]:
    """A finger that should be put down lifts."""
    for at in sorted(page.inside):
        line = page.lines[at]
        if MOVE.match(line) and (found := re.search(r"\bto [^ ,]+", line)):
            yield page.changed("to made off", at, *found.span(), "off")


def start_changed(page: Page) -> Iterator[Slip]:
    """A wrong finger, string or fret in a start."""
    for at in sorted(page.inside):
        if not page.lines[at].startswith("start: "):
            continue
        for found in PUT.finditer(page.lines[at]):
            for other in "1234":
                if other != found[1] and f" {other} " not in page.lines[at].replace(",", " "):
                    yield page.changed("start: finger", at, *found.span(1), other)
            here = STRINGS.index(found[2])
            for near in (here - 1, here + 1):
                if 0 <= near < len(STRINGS):
                    yield page.changed("start: string", at, *found.span(2), STRINGS[near])
            for fret in (int(found[3]) - 1, int(found[3]) + 1):
                if fret:
                    yield page.changed("start: fret", at, *found.span(3), str(fret))


def step_deleted(page: Page) -> Iterator[Slip]:
    """A step left out; it is told at the line above the gap or below it."""
    steps = page.steps()
    for first, after in steps:
        lines = (*page.lines[:first], *page.lines[after:])
        above = next((start for start, end in steps if end == first), first - 1)
        near = tuple(range(above + 1, first + 3))
        yield Slip("step left out", page.file, first + 1, (0, len(lines[first])), lines, near)


def steps_swapped(page: Page) -> Iterator[Slip]:
    """Two neighbouring steps in the wrong order; told at either of them."""
    steps = page.steps()
    for (first, middle), (other, after) in pairwise(steps):
        if middle == other:
            one, two = page.lines[first:middle], page.lines[middle:after]
            lines = (*page.lines[:first], *two, *one, *page.lines[after:])
            yield Slip(
                "steps swapped", page.file, first + 1, (0, len(lines[first])), lines, tuple(range(first + 1, after + 1))
            )


def step_doubled(page: Page) -> Iterator[Slip]:
    """A step written twice; told at either of them."""
    for first, after in page.steps():
        lines = (*page.lines[:after], *page.lines[first:after], *page.lines[after:])
        yield Slip("step written twice", page.file, after + 1, (0, len(lines[after])), lines,
                   tuple(range(first + 1, 2 * after - first + 1)))  # fmt: skip


def near_names(name: str) -> Iterator[str]:
    """Names that differ in a sign or two, as fingers type them."""
    yield name[:-1] if name.endswith("7") else name + "7"
    yield "E" if name != "E" else "A"
    yield name.replace("m", "", 1) if "m" in name and "maj" not in name else name[0] + "m" + name[1:]


def name_changed(page: Page) -> Iterator[Slip]:
    """A near name."""
    for at in sorted(page.inside):
        if found := NAME.search(page.lines[at]):
            for other in near_names(found[1]):
                if other != found[1] and not other.endswith(("77", "/")):
                    yield page.changed("name changed", at, *found.span(1), other)


def claim_softened(page: Page) -> Iterator[Slip]:
    """`=` made `~`, and the other way round."""
    for at in sorted(page.inside):
        if found := re.search(r"(?<= )[=~](?= \S)", page.lines[at]):
            kind = "= made ~" if found[0] == "=" else "~ made ="
            yield page.changed(kind, at, *found.span(), "~" if found[0] == "=" else "=")


def strum_changed(page: Page) -> Iterator[Slip]:
    """One string more or less at the low end of what is struck."""
    for at in sorted(page.inside):
        for found in re.finditer(r"strum:? ([EADG])-e\b", page.lines[at]):
            for other in {"E": "A", "A": "ED", "D": "A", "G": "D"}[found[1]]:
                yield page.changed("strum changed", at, *found.span(1), other)


def cue_reversed(page: Page) -> Iterator[Slip]:
    """A cue earlier than the one before it, or later than the one after it; of two alone either may be told."""
    for first, end in page.blocks():
        cues = [(at, found) for at in range(first, end) if (found := CUE.search(page.lines[at]))]
        for (at, one), (other, two) in pairwise(cues):
            for wrong, found, time, beside in ((other, two, "0:01", at), (at, one, "9:59", other)):
                slip = page.changed("cue reversed", wrong, *found.span(1), time)
                yield replace(slip, near=(beside + 1,) if len(cues) == 2 else ())


def taught(page: Page) -> Iterator[Slip]:
    """An entry of `teaches` left out, or misspelt."""
    for at in sorted(page.inside):
        line = page.lines[at]
        if line.startswith("teaches: ["):
            entries = line[10:-1].split(", ")
            for number, entry in enumerate(entries):
                column = 10 + sum(len(other) + 2 for other in entries[:number])
                left = f"teaches: [{', '.join(entries[:number] + entries[number + 1 :])}]"
                # The use of what nobody teaches is told where it is used, in this block.
                lines = (*page.lines[:at], left, *page.lines[at + 1 :])
                block = _whole_block(page, at)
                yield Slip("teaches: left out", page.file, at + 1, (0, len(left)), lines, block)
                yield page.changed("teaches: misspelt", at, column, column + len(entry), entry + "x")


def _whole_block(page: Page, at: int) -> tuple[int, ...]:
    """The lines, from 1, of the block in which a line, from 0, stands."""
    first = next(n for n in range(at, -1, -1) if page.lines[n] == "```moves")
    end = next(n for n in range(at, len(page.lines)) if page.lines[n] == "```")
    return tuple(range(first + 2, end + 1))


def key_misspelt(page: Page) -> Iterator[Slip]:
    """A key of a block or a step with two letters turned."""
    for at in sorted(page.inside):
        found = re.match(r"(?:- |  )?([a-z_]{3,}):(?= |$)", page.lines[at])
        if found and found[1] in KEYS:
            word = found[1][1] + found[1][0] + found[1][2:]
            yield page.changed("key misspelt", at, *found.span(1), word)


def id_doubled(page: Page) -> Iterator[Slip]:
    """The id of another block, the second of the page made the first's."""
    ids = [at for at in sorted(page.inside) if page.lines[at].startswith("id: ")]
    for one, other in pairwise(ids):
        yield page.changed("id doubled", other, 4, len(page.lines[other]), page.lines[one][4:])


def mention_outdated(page: Page) -> Iterator[Slip]:
    """A mention in the prose that says another chord, or another step."""
    for at, line in enumerate(page.lines):
        if at in page.inside:
            continue
        for found in re.finditer(r"`(now|chord|step): ([^`]+)`", line):
            start = found.start(2) + (found[2].rfind(" ") + 1)
            word = line[start : found.end(2)]
            for other in {"now": ("E", word + "7"), "chord": ("Ebm",), "step": ("E", "Ebm")}[found[1]]:
                if other != word:
                    yield page.changed(f"`{found[1]}:` outdated", at, start, found.end(2), other)


def typed(page: Page) -> Iterator[Slip]:
    """One slip of the fingers in each word that is not prose or an id: a letter twice, one left out, or two turned."""
    for at in sorted(page.inside):
        line = page.lines[at]
        if re.match(r"\s*(?:id|say|title|image|```)", line):
            continue
        for found in WORD.finditer(line):
            chance = zlib.crc32(f"{page.file} {at} {found.start()}".encode())
            kind, typo = _typo(found[0], chance)
            if typo != found[0]:
                slip = page.changed(kind, at, *found.span(), typo)
                # What is no longer taught is told where it is used.
                near = _whole_block(page, at) if line.startswith("teaches") else ()
                yield replace(slip, near=near)


def _typo(word: str, chance: int) -> tuple[str, str]:
    place = chance // 3 % len(word)
    if chance % 3 == 0:
        return "typed: a letter twice", word[:place] + word[place] + word[place:]
    if chance % 3 == 1 and len(word) > 1:
        return "typed: one left out", word[:place] + word[place + 1 :]
    place = min(place, max(len(word) - 2, 0))
    return "typed: two turned", word[:place] + word[place : place + 2][::-1] + word[place + 2 :]


KINDS: tuple[Kind, ...] = (
    wrong_finger, wrong_string, wrong_fret, off_made_to, to_made_off, start_changed, step_deleted, steps_swapped,
    step_doubled, name_changed, claim_softened, strum_changed, cue_reversed, taught, key_misspelt, id_doubled,
    mention_outdated, typed, *AROUND,
)  # fmt: skip


def slips(pages: Mapping[str, str]) -> Iterator[Slip]:
    """Every slip of every kind at every place, page by page."""
    for file, text in pages.items():
        page = Page.of(file, text)
        for kind in KINDS:
            yield from kind(page)
    for of_course in OF_ORDER:
        yield from of_course(pages)
