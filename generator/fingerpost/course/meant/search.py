"""Where an edit is looked for in a thread whose lines deny each other, and what edits of which kind cost."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property

from fingerpost.course.ground import Ground
from fingerpost.course.meant.edits import OneEdit
from fingerpost.course.meant.thread import Joint, Thread
from fingerpost.course.meant.trial import Trial
from fingerpost.course.perform import Held
from fingerpost.music.move import Exchange, Lift, Move, Place, Strum
from fingerpost.source.syntax import Action, ExchangeFinger, LiftFinger, MuteString, PlaceFinger, StrumStrings

LINES_BACK = 12
"""How many lines above the one that is denied may hold the slip. By our own choice."""

FRETS_TRIED = 5
FEWEST = 3
"""At least so many strings are struck where a wrong strum is looked for."""

WORD, START, SWAP, TWICE, MISSING, SURPLUS = 1.0, 1.1, 1.3, 1.0, 1.5, 2.5
WORDS_TOO_MANY, TURNED, FINGER_LEFT_OUT, STRUM_LEFT_OUT = 1.08, 1.12, 1.2, 1.3
"""How unlikely each kind of slip is. By our own choice, as are the weights below."""
OTHER_KIND = 0.3
AFTER_STRUM, STRING_LESS = 0.2, 0.12
AND_STRUM = 0.2
LINE_AWAY = 0.05


@dataclass(frozen=True)
class Candidate:
    """An edit: the hand after it, the first line to hold from there, the hand before it; cost: how unlikely."""

    cost: float
    edit: OneEdit
    held: Held
    first: int
    before: Held

    @property
    def unheard(self) -> bool:
        """Whether no sound changes with the edit."""
        return self.held.shape.frets == self.before.shape.frets


@dataclass(frozen=True)
class Search:
    """Where edits are looked for: the hand before each line up to the one that is denied (-1: the start's name)."""

    thread: Thread
    trial: Trial
    befores: Sequence[Held]
    denied: int

    @cached_property
    def moved(self) -> tuple[frozenset[str], ...]:
        """For each line up to the denied one, the fingers (and `strum`) that it or one below it moves, above that."""
        out = [frozenset[str]()]
        for row in reversed(self.trial.rows[: max(0, self.denied)]):
            strum = {"strum"} if isinstance(row, Joint) and row.strum is not None else set()
            out.append(out[-1].union(strum, *(touched(action) for action in row.actions)))
        return tuple(reversed(out))

    def undone(self, fingers: frozenset[str], at: int) -> bool:
        """Whether what an edit does to these is undone by the lines from `at` on before it could be told."""
        return fingers <= self.moved[min(at, len(self.moved) - 1)]

    def touches(self, moves: Sequence[Move], at: int) -> bool:
        """Whether a line from the one at `at` on moves one of these fingers too, above the one that is denied."""
        return not frozenset().union(*map(moved_by, moves)).isdisjoint(self.moved[min(at, len(self.moved) - 1)])

    @property
    def near(self) -> range:
        """The lines that may hold the slip, from the one that is denied upwards."""
        return range(self.denied, max(0, self.denied - LINES_BACK) - 1, -1)

    def away(self, at: int) -> float:
        """What it costs that a line stands so far above."""
        return LINE_AWAY * (self.denied - at)


def touched(action: Action) -> frozenset[str]:
    """The marks of the fingers that an action moves; `strum` where it changes what is struck."""
    match action:
        case PlaceFinger(finger) | LiftFinger(finger):
            return frozenset({finger.text.upper()})
        case ExchangeFinger(finger, replaced):
            return frozenset({finger.text, replaced.text})
        case MuteString(_, finger):
            return frozenset({"strum"} if finger is None else ())
        case StrumStrings():
            return frozenset({"strum"})
    return frozenset()


def moved_by(move: Move) -> frozenset[str]:
    """The same of a move."""
    match move:
        case Place(finger) | Lift(finger):
            return frozenset({finger.mark})
        case Exchange(finger, replaced):
            return frozenset({finger.mark, replaced.mark})
    return frozenset({"strum"})


def strums(ground: Ground) -> Iterator[Strum]:
    """Strums that leave out the lowest strings, none to all but three."""
    for last in range(ground.fretboard.strings, FEWEST - 1, -1):
        yield Strum(frozenset(range(1, last + 1)))
