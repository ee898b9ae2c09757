"""Starts that differ from the one that is written by one slip: a word, two fingers turned, a finger left out."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from fingerpost.course.agreement import agrees
from fingerpost.course.ground import Ground
from fingerpost.course.meant.edits import Began, OfStart, PutToo, Turned
from fingerpost.course.meant.ready_line import is_held
from fingerpost.course.meant.search import FRETS_TRIED
from fingerpost.music.shape import Finger, Press, Shape
from fingerpost.source.syntax import NameSaid

FINGERS = (Finger.INDEX, Finger.MIDDLE, Finger.RING, Finger.LITTLE)


def starts_near(presses: Sequence[Press], bare: Shape, ground: Ground) -> Iterator[OfStart]:
    """The starts near one with these presses. bare: the hand without a finger down, struck as the start is."""
    yield from _otherwise(presses, bare, ground)
    yield from _turned(presses, bare)
    yield from _with_one_more(presses, bare, ground)


def can_begin(shape: Shape, said: NameSaid | None, ground: Ground) -> bool:
    """Whether a hand can hold a start, and the name that it claims agrees."""
    return agrees(shape, said, ground) is not False and is_held(shape, ground)


def fingers_of(edit: OfStart) -> frozenset[str]:
    """The marks of the fingers that an edit puts elsewhere; `strum` where it changes what is struck."""
    match edit:
        case Began(one, other) | Turned(one, other):
            presses: tuple[Press, ...] = (one, other)
        case PutToo(press):
            presses = (press,)
        case _:
            return frozenset({"strum"})
    return frozenset(press.finger.mark for press in presses if press.finger is not None)


def _turned(presses: Sequence[Press], bare: Shape) -> Iterator[Turned]:
    for at, one in enumerate(presses):
        for other in presses[at + 1 :]:
            rest = (press for press in presses if press not in (one, other))
            turned = (*rest, replace(one, finger=other.finger), replace(other, finger=one.finger))
            if not _clash(turned):
                yield Turned(one, other, bare.with_presses(turned))


def _otherwise(presses: Sequence[Press], bare: Shape, ground: Ground) -> Iterator[Began]:
    for at, old in enumerate(presses):
        others = (*presses[:at], *presses[at + 1 :])
        for new in _places_near(old, ground):
            if not _clash((*others, new)):
                yield Began(old, new, bare.with_presses((*others, new)))


def _with_one_more(presses: Sequence[Press], bare: Shape, ground: Ground) -> Iterator[PutToo]:
    down = {press.finger for press in presses}
    for finger in FINGERS if not _clash(presses) else ():
        for new in places(finger, ground) if finger not in down else ():
            if not _clash((*presses, new)):
                yield PutToo(new, bare.with_presses((*presses, new)))


def places(finger: Finger, ground: Ground) -> Iterator[Press]:
    """Where a finger may go: to every string on the first frets, and the index finger over the thinnest ones."""
    board, widest = ground.fretboard, ground.hand.limits.bar_strings[finger - 1]
    frets = range(1, min(FRETS_TRIED, board.highest_fret) + 1)
    for fret in frets:
        yield from (Press(finger, fret, s, s) for s in range(1, board.strings + 1))
    if finger is Finger.INDEX:
        for fret in frets:
            yield from (Press(finger, fret, s, 1) for s in range(2, min(widest, board.strings) + 1))


def _places_near(press: Press, ground: Ground) -> Iterator[Press]:
    """Places that differ in one word: the finger, the fret, the string."""
    board = ground.fretboard
    yield from (replace(press, finger=finger) for finger in FINGERS if finger != press.finger)
    yield from (replace(press, fret=fret) for fret in range(1, FRETS_TRIED + 1) if fret != press.fret)
    if not press.is_bar:
        yield from (replace(press, low=s, high=s) for s in range(1, board.strings + 1) if s != press.low)


def _clash(presses: Sequence[Press]) -> bool:
    """Whether two of these are of one finger, or on one spot."""
    fingers = [press.finger for press in presses]
    return len(set(fingers)) < len(fingers) or any(
        one.clashes(two) for at, one in enumerate(presses) for two in presses[at + 1 :]
    )
