"""The ledger: every chord, finger, fret and technique of the course, with where it is first used."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache

from fingerpost.course.model import Block, Course, Step
from fingerpost.music import chord_symbol
from fingerpost.music.chord import Chord
from fingerpost.music.hashing import hashed_once
from fingerpost.music.shape import Finger, Press
from fingerpost.music.transition import MoveKind

TECHNIQUES = ("bar", "hinge", "slide", "thumb", "mute", "capo")
"""What `teaches` may name besides chords."""

COUNTED = ("finger", "fret")
"""What `teaches` names with a number (or T): `finger 4`, `fret 5`. Frets are those of the neck, capo or not."""

_BY_MOVE = {
    MoveKind.HINGE: "hinge",
    MoveKind.SLIDE: "slide",
    MoveKind.SHIFT: "slide",
    MoveKind.MUTE: "mute",
}


@hashed_once
@dataclass(frozen=True)
class Use:
    """One thing used: kind is `chord`, `finger`, `fret` or `technique`; name is a chord or its plain name."""

    kind: str
    name: Chord | str


@dataclass(frozen=True)
class Entry:
    """A use and the first step that makes it, by file, line, block id and step id."""

    use: Use
    file: str
    line: int
    block: str
    step: str

    @property
    def word(self) -> str:
        """The use as `teaches` names it."""
        return use_word(self.use)


def use_word(use: Use) -> str:
    """How a use is written in `teaches`."""
    name = use.name if isinstance(use.name, str) else chord_symbol.write(use.name)
    return f"{use.kind} {name}" if use.kind in COUNTED else name


def uses_of_step(step: Step, block: Block) -> Iterator[Use]:
    """Everything that one step uses; a way-point's name is not a chord to be known, a rest uses nothing."""
    if step.rest:
        return
    if step.naming.shown is not None and not step.passing:
        yield Use("chord", step.naming.shown)
    for press in step.shape.presses:
        yield from _of_press(press, block.fretboard.capo)
    if step.shape.damped:
        yield Use("technique", "mute")
    if block.fretboard.capo:
        yield Use("technique", "capo")
    for move in step.transition.moves if step.transition is not None and not step.back else ():
        if move.kind in _BY_MOVE:
            yield Use("technique", _BY_MOVE[move.kind])


@lru_cache(maxsize=1024)
def _of_press(press: Press, capo: int) -> tuple[Use, ...]:
    out = [Use("fret", str(press.fret + capo))]
    if press.finger is not None:
        out.append(Use("finger", press.finger.mark))
    if press.finger is Finger.THUMB:
        out.append(Use("technique", "thumb"))
    if press.is_bar:
        out.append(Use("technique", "bar"))
    return tuple(out)


def uses_of(block: Block) -> dict[Use, Step]:
    """Everything that a block uses, each with the first step that does."""
    out: dict[Use, Step] = {}
    for step in block.steps:
        for use in uses_of_step(step, block):
            out.setdefault(use, step)
    return out


def ledger(course: Course) -> tuple[Entry, ...]:
    """The whole ledger in the order of first use."""
    out: dict[Use, Entry] = {}
    for lesson in course.lessons:
        for block in lesson.blocks:
            for use, step in uses_of(block).items():
                out.setdefault(use, Entry(use, lesson.file, step.span.line, block.id, step.id))
    return tuple(out.values())
