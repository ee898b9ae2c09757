"""Whether a course contradicts itself, told from its text: it is played line by line, and every word held against it.

Nothing of the check is used. Of the package only what a chord symbol means (`music.chord_symbol`) and which tones
custom leaves out (`music.chord_fit`, tested against music21 elsewhere). A slip after which nothing here objects has
made another right course; whoever has nothing but the text can't know of it.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from functools import lru_cache

from fingerpost.music import chord_symbol
from fingerpost.music.chord import Chord
from fingerpost.music.chord_fit import fit

from .hand import OPEN, Denied, Hand, played, strings_of

PART = re.compile(r"^```moves\n(.*?)^```$|`(now|chord|step): ([^`]+)`", re.M | re.S)
HEAD = frozenset(("id", "title", "start", "teaches", "steps", "strum", "tuning", "capo", "key"))
STEP = frozenset(("move", "name", "taught_as", "say", "cue", "beats", "pattern", "or", "image"))
MENTIONS = ("now", "chord", "step")
TECHNIQUES = frozenset(("bar", "hinge", "slide", "mute", "capo", "thumb"))


@dataclass(frozen=True)
class Shown:
    """A shape under a name, and whether the block that shows it teaches that name."""

    block: str
    name: str
    hand: Hand
    taught_here: bool


@dataclass
class Played:
    """What has been played of a course so far."""

    ids: list[str] = field(default_factory=list)
    ends: dict[str, Hand] = field(default_factory=dict)
    shown: list[Shown] = field(default_factory=list)
    taught: set[str] = field(default_factory=set)
    called: dict[tuple[frozenset[int], int], str] = field(default_factory=dict)
    mentions: list[tuple[str, str]] = field(default_factory=list)
    on_page: str = ""


def contradiction(texts: Mapping[str, str], ties: frozenset[str] = frozenset()) -> str:
    """The first thing in which the course contradicts itself, in words; "" where there is none.

    ties: names that the course's options prefer to others for the same notes.
    """
    course = Played()
    try:
        for file, text in texts.items():
            _page(file, text, course, ties)
        for kind, words in course.mentions:
            _resolves(kind, words.split(), course)
    except Denied as denied:
        return str(denied)
    return ""


def _page(file: str, text: str, course: Played, ties: frozenset[str]) -> None:
    course.on_page = ""
    _says_nothing_else(file, text)
    for part in PART.finditer(text.replace("\r\n", "\n")):
        if part[1] is not None:
            _block(part[1], course, ties)
        elif part[2] == "now":
            hand = course.ends.get(course.on_page)
            if hand is None or hand.resting is not None or not _holds(part[3], hand):
                raise Denied(f"{file}: now {part[3]}")
        else:
            course.mentions.append((part[2], part[3]))


def _says_nothing_else(file: str, text: str) -> None:
    """No other fence holds a block, and no code span is nearly a mention."""
    for fence in re.finditer(r"^`{2,3}(.*)\n(?:id: \S+\n)", text, re.M):
        if fence[0].split("\n")[0] != "```moves":
            raise Denied(f"{file}: fence {fence[1]}")
    prose = re.sub(r"^```moves\n.*?^```$", "", text, flags=re.M | re.S)
    for span in re.finditer(r"`([A-Za-z]+)(: ?| )[^`\n]+`", prose):
        nearly = any(sorted(span[1].casefold()) == sorted(word) for word in MENTIONS)
        if nearly and (span[1] not in MENTIONS or span[2] != ": "):
            raise Denied(f"{file}: mention {span[0]}")


def _resolves(kind: str, words: list[str], course: Played) -> None:
    within = [one for one in course.shown if kind == "chord" or one.block == words[0]]
    if not within or ((words[-1] != words[0] or kind == "chord") and not any(one.name == words[-1] for one in within)):
        raise Denied(f"{kind} {words}")


def _fields(body: str) -> tuple[dict[str, str], list[dict[str, str]]]:
    head, steps = dict[str, str](), list[dict[str, str]]()
    for line in body.splitlines():
        if line.startswith("- "):
            line = line if re.match(r"- [a-z]{3,}:( |$)", line) else f"- move: {line[2:]}"
            steps.append({})
        to, known = (steps[-1], STEP) if line[0] in "- " and steps else (head, HEAD)
        key, colon, value = line[2 if line[0] in "- " else 0 :].partition(":")
        if key not in known or not colon or key in to:
            raise Denied(f"key {key}")
        to[key] = value.strip()
    return head, steps


def _block(body: str, course: Played, ties: frozenset[str]) -> None:
    head, steps = _fields(body)
    name = head.get("id", "")
    if not name or name in course.ids or "steps" not in head or not all("move" in step for step in steps):
        raise Denied(f"id {name}")
    course.ids.append(name)
    teaches = [word for word in head.get("teaches", "[]").strip("[]").split(", ") if word]
    if any(word not in TECHNIQUES and _chord(word) is None for word in teaches):
        raise Denied(f"teaches {teaches}")
    course.taught.update(teaches)
    form, claim, strict = _claimed(head.get("start", "previous"))
    hand = _begun(form, head, course)
    used = {"capo"} if head.get("capo") else set[str]()
    lines = [(form, claim, strict, hand, False), *_performed(hand, steps, head, used)]
    for text, said, strictly, held, passing in lines:
        used |= set() if passing else _named(name, text, said, strictly, held, teaches, course, ties)
    if missing := (set(teaches) - used) | (used - course.taught):
        raise Denied(f"{name}: taught or used only: {sorted(missing)}")
    course.ends[name] = lines[-1][3]
    course.on_page = name


def _performed(
    hand: Hand, steps: list[dict[str, str]], head: dict[str, str], used: set[str]
) -> Iterator[tuple[str, str | None, bool, Hand, bool]]:
    cue = -1
    for step in steps:
        move, said, strict = _claimed(step["move"])
        if "name" in step or "taught_as" in step:
            said, strict = step.get("name", step.get("taught_as")), "name" in step
        at = re.search(r" @(\d+):(\d\d)$", move)
        move = move if at is None else move[: at.start()]
        told = at or re.fullmatch(r"()(\d+):(\d\d)", step.get("cue", ""))
        if told is not None:
            now = int(told[told.lastindex - 1]) * 60 + int(told[told.lastindex])  # type: ignore[operator]
            if now <= cue:
                raise Denied(f"cue {now}")
            cue = now
        words = re.search(r"(?: (?:silent|passing))+$", move)
        marks = words[0].split() if words else []
        hand, techniques = played(hand, move[: words.start()] if words else move, "silent" in marks)
        used |= techniques
        yield step["move"], said, strict, hand, "passing" in marks


def _claimed(text: str) -> tuple[str, str | None, bool]:
    """A line without the name that it claims, the name, and whether it is claimed with `=`."""
    cue = re.search(r" @\d+:\d\d$", text)
    found = re.search(r" ([=~]) (\S+)", text)
    if found is None:
        return text, None, True
    return text[: found.start()] + (cue[0] if cue else ""), found[2], found[1] == "="


def _begun(form: str, head: dict[str, str], course: Played) -> Hand:
    hand = _start(form, head, course)
    return hand.struck_anew(strings_of(head["strum"], hand.tuning)) if "strum" in head else hand


def _start(form: str, head: dict[str, str], course: Played) -> Hand:
    tuning = head.get("tuning", "standard")
    if tuning not in OPEN:
        raise Denied(f"tuning {tuning}")
    if form == "previous":
        if course.on_page not in course.ends:
            raise Denied("nothing before")
        return course.ends[course.on_page].awake()
    if form.startswith("as taught "):
        seen = [one for one in course.shown if one.name == form[10:] and one.hand.tuning == tuning]
        hands = {one.hand for one in ([one for one in seen if one.taught_here] or seen)}
        if len(hands) != 1:
            raise Denied(f"{len(hands)} shapes of {form[10:]}")
        return hands.pop()
    hand = Hand(tuning=tuning)
    for action in form.split(", ") if form != "open" else ():
        hand, _ = hand.done(re.sub(r"^([1-4]) (?=\S+$)", r"\1 to ", action))
    hand.check()
    return hand


def _named(
    block: str, text: str, said: str | None, strict: bool, hand: Hand, teaches: list[str], course: Played,
    ties: frozenset[str],
) -> set[str]:  # fmt: skip
    """What a line uses; its name is held against what sounds, and against how the course called that before."""
    out = hand.techniques()
    if said is None or hand.resting is not None:
        if said is not None:
            raise Denied(f"{text} rests")
        return out if hand.resting is None else set()
    if _chord(said) is None or _holds(said, hand) != strict:
        raise Denied(f"{text} is no {said}")
    if strict:
        pitches = hand.pitches()
        notes = (frozenset(pitch % 12 for pitch in pitches), min(pitches) % 12)
        before = course.called.setdefault(notes, said.partition("/")[0])
        if before != said.partition("/")[0] and said.partition("/")[0] not in ties:
            raise Denied(f"{said} was called {before}")
    course.shown.append(Shown(block, said, hand, said in teaches))
    return out | {said}


def _holds(said: str, hand: Hand) -> bool:
    chord, pitches = _chord(said), hand.pitches()
    if chord is None or not pitches:
        return False
    return fit(chord, {pitch % 12 for pitch in pitches}, min(pitches) % 12).holds


@lru_cache(maxsize=1024)
def _chord(text: str) -> Chord | None:
    try:
        return chord_symbol.read(text)
    except ValueError:
        return None
