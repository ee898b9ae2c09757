"""Which names come first: every root, every known kind, over the bass that sounds, by what comes to mind."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from math import inf
from operator import itemgetter

from fingerpost.music.degree import chord_intervals
from fingerpost.music.last_resort import last_resort
from fingerpost.music.vocabulary import Reading, vocabulary

MOST_NAMES = 8
# A name this much further off than the first is not offered (tuned).
_FARTHEST = 2.8
# What it costs a name that its bass is not the root, by the degree that the bass has in the chord (tuned).
_INVERTED = {1: 0.0, 2: 2.0, 3: 1.5, 4: 1.9, 5: 1.2, 6: 2.0, 7: 1.2, 9: 2.0, 11: 2.0, 13: 2.0}
# The same for a bass outside the chord, by semitones above the root: a seventh below a triad is a common bass line.
_FOREIGN = (0.0, 2.6, 2.0, 2.6, 2.6, 2.0, 2.6, 2.0, 2.6, 2.2, 1.0, 1.0)
_SEVENTH_UNDER_OTHERS = 0.5
_SEVENTH_UNDER_SEVENTH = 1.2
_SUSPENDED_OVER_FOREIGN = 1.2
_DEAREST_OVER_FOREIGN = 1.1
_SEVENTHS = {10, 11}
# A reading and what it costs over each bass, by semitones above its root.
Priced = tuple[Reading, tuple[float, ...]]
# Cost, root above the bass, reading, whether the bass is foreign to it.
Found = tuple[float, int, Reading, bool]
# Beyond this cost a name that players know is no better than one that lists the notes.
_LAST_RESORT = 3.0


@dataclass(frozen=True, slots=True)
class Ranked:
    """A reading with its root, as semitones above the bass; foreign: the bass is not one of its tones."""

    root: int
    reading: Reading
    foreign: bool
    cost: float

    @property
    def bass_cost(self) -> float:
        """What it costs that the bass is not the root."""
        return self.cost - self.reading.cost


def _turn(mask: int, root: int) -> int:
    """The mask counted from another root, given as semitones above the old one."""
    return (mask >> root | mask << 12 - root) & 0xFFF


@cache
def _known(mask: int) -> tuple[Priced, ...]:
    """Readings of all that sounds that players know, counted from the root."""
    return tuple((reading, _inversions(reading)) for reading in vocabulary().get(mask, ()))


@cache
def _unknown(mask: int) -> tuple[Priced, ...]:
    """The reading of all that sounds from a root where players know none."""
    reading = last_resort(mask)
    return () if _known(mask) else ((reading, _inversions(reading)),)


def _inversions(reading: Reading) -> tuple[float, ...]:
    """The cost of a reading over each bass, by semitones above the root; outside the chord there is none."""
    costs = [inf] * 12
    for interval in chord_intervals(reading.kind, reading.degrees):
        costs[interval.pitch_class] = reading.cost + _INVERTED[interval.number]
    return tuple(costs)


@cache
def _upper(mask: int) -> tuple[Priced, ...]:
    """Readings of what sounds above a bass that is a stranger to it: complete chords that players know."""
    known = vocabulary().get(mask, ())
    fit = (one for one in known if not one.omitted and one.cost <= _DEAREST_OVER_FOREIGN and one.kind != "power")
    return tuple((reading, tuple(reading.cost + _foreign(reading, bass) for bass in range(12))) for reading in fit)


def _foreign(reading: Reading, bass: int) -> float:
    has = {interval.pitch_class for interval in chord_intervals(reading.kind, reading.degrees)}
    suspended = _SUSPENDED_OVER_FOREIGN * reading.kind.startswith("suspended")
    return _FOREIGN[bass] + suspended + (_under(reading, has) if bass in _SEVENTHS else 0.0)


def _under(reading: Reading, has: set[int]) -> float:
    """What it adds that a seventh lies under something else than a plain triad."""
    if has & {9, 10, 11}:
        return _SEVENTH_UNDER_SEVENTH
    return 0.0 if reading.kind in ("major", "minor") and not reading.degrees else _SEVENTH_UNDER_OTHERS


@cache
def ranked(mask: int) -> tuple[Ranked, ...]:
    """The readings of a set of notes, given as twelve bits above the bass (bit 0 set), best first, each once."""
    roots = [root for root in range(12) if mask >> root & 1]
    found = [one for root in roots for one in _priced(_known(_turn(mask, root)), root, False)]
    found += [one for root in roots[1:] for one in _priced(_upper(_turn(mask & ~1, root)), root, True)]
    if not found or min(one[0] for one in found) > _LAST_RESORT:
        found += [one for root in roots for one in _priced(_unknown(_turn(mask, root)), root, False)]
    found.sort(key=itemgetter(0, 1))
    farthest = found[0][0] + _FARTHEST
    best = (one for one in found[:MOST_NAMES] if one[0] <= farthest)
    return tuple(Ranked(root, reading, foreign, cost) for cost, root, reading, foreign in best)


def _priced(readings: tuple[Priced, ...], root: int, foreign: bool) -> list[Found]:
    return [(costs[-root % 12], root, reading, foreign) for reading, costs in readings]
