"""Plays a move block without the tool: a second opinion on what sounds, for the tests of the demo course.

It knows only the moves that the demo course uses, and trusts its input; nothing here is imported from the package.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path

# Open strings as MIDI numbers, string 6 first (standards.md, "Pitch and the fretboard"; DADGAD is common practice).
OPEN = {"standard": (40, 45, 50, 55, 59, 64), "DADGAD": (38, 45, 50, 55, 57, 62)}
LETTERS = "EADGBe"


@dataclass
class Hand:
    """Where each finger is, as (fret, strings); which strings are struck and which are damped by which finger."""

    fingers: dict[str, tuple[int, frozenset[int]]] = field(default_factory=dict)
    struck: frozenset[int] = frozenset(range(1, 7))
    damped: dict[int, str] = field(default_factory=dict)

    def sounds(self, tuning: str) -> dict[int, int]:
        """The MIDI number that each sounding string gives, without a capo."""
        out = {}
        for string in self.struck - set(self.damped):
            frets = [fret for fret, strings in self.fingers.values() if string in strings]
            out[string] = OPEN[tuning][6 - string] + max(frets, default=0)
        return out


@dataclass(frozen=True)
class Played:
    """One line of a block after it was played: the name given, whether it was claimed with `=`, and what sounds."""

    page: str
    block: str
    text: str
    name: str | None
    strict: bool
    sounding: dict[int, int]
    fingers: dict[str, tuple[int, frozenset[int]]]
    fingers_moved: int
    passing: bool
    rest: bool


def _string(word: str) -> int:
    return int(word) if word.isdigit() else 6 - LETTERS.index(word)


def _strings(words: str) -> frozenset[int]:
    out: set[int] = set()
    for word in words.split():
        ends = [_string(end) for end in word.split("-")]
        out |= set(range(min(ends), max(ends) + 1))
    return frozenset(out)


def _spots(place: str) -> tuple[int, frozenset[int]]:
    spots = [re.fullmatch(r"(?:([A-Ga-g])|(\d):)(\d+)", spot) for spot in place.split("-")]
    strings = [_string(spot[1] or spot[2]) for spot in spots if spot]
    frets = {int(spot[3]) for spot in spots if spot}
    assert len(strings) == len(spots), place
    assert len(frets) == 1, place
    return frets.pop(), frozenset(range(min(strings), max(strings) + 1))


def _act(hand: Hand, action: str) -> int:
    """Does one action; returns how many fingers it moved."""
    if put := re.fullmatch(r"([1-4]) (?:to )?(\S+)", action):
        if put[2] == "off":
            del hand.fingers[put[1]]
        else:
            hand.fingers[put[1]] = _spots(put[2])
        hand.damped = {string: finger for string, finger in hand.damped.items() if finger != put[1]}
        return 1
    if change := re.fullmatch(r"([1-4]) for ([1-4])", action):
        hand.fingers[change[1]] = hand.fingers.pop(change[2])
        return 1
    if strum := re.fullmatch(r"strum (.+)", action):
        hand.struck = _strings(strum[1])
        return 0
    if mute := re.fullmatch(r"mute (\S) by ([1-4])", action):
        hand.damped[_string(mute[1])] = mute[2]
        return 0
    if action in ("hold", "rest", "back"):
        return 0
    raise AssertionError(f"the second opinion knows no {action!r}")


def _fields(body: str) -> tuple[dict[str, str], list[dict[str, str]]]:
    head: dict[str, str] = {}
    steps: list[dict[str, str]] = []
    for line in body.splitlines():
        if line.startswith("- "):
            text = line[2:]
            steps.append({"move": text[6:]} if text.startswith("move: ") else {"move": text})
        elif line.startswith("  "):
            key, _, value = line.strip().partition(": ")
            steps[-1][key] = value
        elif line != "steps:":
            key, _, value = line.partition(": ")
            head[key] = value
    return head, steps


def play(pages: list[Path]) -> Iterator[Played]:
    """Every line of every block of the pages, in order."""
    ends: dict[str, Hand] = {}
    taught: dict[str, Hand] = {}
    for page in pages:
        for body in re.findall(r"^```moves\n(.*?)^```$", page.read_text(encoding="utf-8"), re.M | re.S):
            yield from _block(page.name, body, ends, taught)


def _copy(hand: Hand) -> Hand:
    return Hand(dict(hand.fingers), hand.struck, dict(hand.damped))


def _block(page: str, body: str, ends: dict[str, Hand], taught: dict[str, Hand]) -> Iterator[Played]:
    head, steps = _fields(body)
    tuning = head.get("tuning", "standard")
    hand = Hand(struck=_strings(head["strum"])) if "strum" in head else Hand()
    form, _, claim = head["start"].partition(" = ")
    if form == "previous":
        hand = _copy(ends[page])
    elif form.startswith("as taught "):
        claim = form.removeprefix("as taught ")
        hand = _copy(taught[claim])
    elif form != "open":
        for action in form.split(", "):
            _act(hand, action)
    last = _copy(hand)
    for step in [{"move": form, "name": claim or None}, *steps]:
        if step["move"] == form:
            line, moved = form, 0
        else:
            line = re.sub(r" (@\S+|silent|passing)(?= |$)", "", step["move"])
            line = re.split(r" [=~] ", line)[0]
            moved = sum([_act(hand, action) for action in line.split(", ")])
        found = re.search(r" ([=~]) (\S+)", step["move"])
        name = step.get("name") or step.get("taught_as") or (found[2] if found else None)
        strict = not ("taught_as" in step or (found and found[1] == "~"))
        if name and strict:
            taught.setdefault(name, _copy(hand))
        rest = line == "rest"
        yield Played(
            page, head["id"], step["move"], name, strict, hand.sounds(tuning), dict(hand.fingers), moved,
            "passing" in step["move"], rest,
        )  # fmt: skip
        last = _copy(hand)
    ends[page] = last
