"""Which names come first: every root, every known kind, over the bass that sounds, by what comes to mind."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from fingerpost.music.degree import chord_intervals
from fingerpost.music.last_resort import last_resort
from fingerpost.music.vocabulary import Reading, vocabulary

MOST_NAMES = 8
# A name this much further off than the first is not offered (tuned).
_FARTHEST = 2.8
# What it costs a name that its bass is not the root, by the degree that the bass has in the chord (tuned).
_INVERTED = {2: 2.0, 3: 1.5, 4: 1.9, 5: 1.2, 6: 2.0, 7: 1.2, 9: 2.0, 11: 2.0, 13: 2.0}
# The same for a bass outside the chord, by semitones above the root: a seventh below a triad is a common bass line.
_FOREIGN = (0.0, 2.6, 2.0, 2.6, 2.6, 2.0, 2.6, 2.0, 2.6, 2.2, 1.0, 1.0)
_SEVENTH_UNDER_OTHERS = 0.5
_SEVENTH_UNDER_SEVENTH = 1.2
_SUSPENDED_OVER_FOREIGN = 1.2
_DEAREST_OVER_FOREIGN = 1.1
_SEVENTHS = {10, 11}


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


def _inversion(reading: Reading, bass: int) -> float:
    intervals = chord_intervals(reading.kind, reading.degrees)
    number = next(interval.number for interval in intervals if interval.pitch_class == bass)
    return _INVERTED[number] if bass else 0.0


def _whole(mask: int, root: int) -> list[Ranked]:
    """Readings of all that sounds, from one root."""
    turned, bass = _turn(mask, root), (12 - root) % 12
    known = (*vocabulary().get(turned, ()), last_resort(turned))
    return [Ranked(root, reading, False, reading.cost + _inversion(reading, bass)) for reading in known]


def _over_bass(mask: int, root: int) -> list[Ranked]:
    """Readings of what sounds above the bass as a complete chord, the bass a stranger to it."""
    bass = (12 - root) % 12
    known = vocabulary().get(_turn(mask & ~1, root), ())
    return [
        Ranked(root, reading, True, reading.cost + _foreign(reading, bass))
        for reading in known
        if not reading.omitted and reading.cost <= _DEAREST_OVER_FOREIGN and reading.kind != "power"
    ]


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
    found: list[Ranked] = []
    for root in range(12):
        if mask >> root & 1:
            found += _whole(mask, root) + (_over_bass(mask, root) if root else [])
    found.sort(key=lambda one: (one.cost, one.root))
    once = {(one.root, one.reading.kind, one.reading.degrees): one for one in reversed(found)}
    best = sorted(once.values(), key=lambda one: (one.cost, one.root))
    return tuple(one for one in best[:MOST_NAMES] if one.cost <= best[0].cost + _FARTHEST)
