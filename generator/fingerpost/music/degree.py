"""Degrees that change a kind of chord, the intervals that come of it, and what a tone outside it is called."""

from __future__ import annotations

from functools import lru_cache
from typing import NamedTuple

from fingerpost.music.interval import Interval
from fingerpost.music.kind import KINDS

DEGREE_TYPES = ("alter", "add", "subtract")


class Degree(NamedTuple):
    """A change to a kind, as MusicXML 4.0 counts it.

    type `add`: alter is relative to a dominant chord, so that value 7, alter 0 is the minor seventh;
    `alter`: relative to the degree that the kind has; `subtract`: the degree is taken out, alter is 0.
    """

    value: int
    alter: int
    type: str

    @property
    def added(self) -> Interval:
        """The interval above the root that an `add` means."""
        return Interval(self.value, self.alter - (1 if self.value == 7 else 0))


def adding(interval: Interval) -> Degree:
    """The degree that adds an interval."""
    return Degree(interval.number, interval.alter + (1 if interval.number == 7 else 0), "add")


@lru_cache(maxsize=8192)
def chord_intervals(kind: str, degrees: tuple[Degree, ...]) -> tuple[Interval, ...]:
    """The intervals of a kind with its degrees, in order of their number."""
    intervals = list(KINDS[kind].intervals)
    for degree in degrees:
        if degree.type == "add":
            intervals.append(degree.added)
        elif degree.type == "subtract":
            intervals = [interval for interval in intervals if interval.number != degree.value]
        else:
            intervals = [_altered(interval, degree) for interval in intervals]
    return tuple(sorted(set(intervals)))


def _altered(interval: Interval, degree: Degree) -> Interval:
    return Interval(interval.number, interval.alter + degree.alter) if interval.number == degree.value else interval


def degree_order(degree: Degree) -> tuple[int, int, int]:
    """Sorts degrees as a symbol names them: altered ones, added ones, and last what is left out."""
    return (DEGREE_TYPES.index(degree.type), degree.value, degree.alter)


_OUTSIDE = tuple(Interval.parse(name) for name in "1 b9 9 b3 3 11 #11 5 b13 13 b7 7".split())
_SEVENTHS, _FIFTH = frozenset({10, 11}), frozenset({7})
# Semitones, what the chord has one of (if any), what it has none of, and what the tone is called then.
_RENAMED = (
    (3, frozenset({10, 11}), frozenset({3}), Interval(9, 1)),
    (6, frozenset[int](), _FIFTH, Interval(5, -1)),
    (8, frozenset[int](), _FIFTH, Interval(5, 1)),
    (9, frozenset[int](), _SEVENTHS, Interval(6)),
)


def is_alteration(degree: Degree, intervals: tuple[Interval, ...]) -> bool:
    """Whether a degree is named as an alteration (#9) and not as an addition (add#9) among a chord's intervals.

    So are altered degrees, and raised or lowered ones that a sixth or seventh chord adds without its plain degree.
    """
    has_sixth_or_seventh = any(interval.number in (6, 7) for interval in intervals)
    added = bool(degree.alter) and has_sixth_or_seventh and Interval(degree.value) not in intervals
    return degree.type == "alter" or (degree.type == "add" and added)


@lru_cache(maxsize=65536)
def interval_at(kind: str, degrees: tuple[Degree, ...], steps: int) -> Interval:
    """The interval of a chord at so many semitones above its root; for a tone outside it, what it would be added as."""
    intervals = chord_intervals(kind, degrees)
    own = next((interval for interval in intervals if interval.pitch_class == steps % 12), None)
    return own or _outside(frozenset(interval.pitch_class for interval in intervals), steps % 12)


def _outside(has: frozenset[int], steps: int) -> Interval:
    for when, needs, shuns, name in _RENAMED:
        if steps == when and bool(has & needs) == bool(needs) and not has & shuns:
            return name
    return _OUTSIDE[steps]
