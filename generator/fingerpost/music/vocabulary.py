"""The kinds of chord that players have names for, and how readily each name comes to mind."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from itertools import chain, combinations

from fingerpost.music.chord_reader import read
from fingerpost.music.customary import customary_omissions
from fingerpost.music.degree import Degree, chord_intervals
from fingerpost.music.interval import Interval

# How far each chord is from the first that comes to mind (0): common practice, tuned on the corpus in tests/music.
# An entry is what follows the root; `-` stands for nothing.
_TABLE = """
0.0  - m
0.3  7 m7 maj7
0.5  5 sus4 sus2
0.7  9
0.8  add9 m9 m(add9)
0.9  6/9 7sus4 maj9 7b9 7#9
1.0  6 dim aug 13 m11 m6
1.1  dim7 m7b5
1.2  7#5 mMaj7 maj13 maj7#11 m6/9
1.3  m13 9sus4 11
1.4  m7(add11) 7b5 7#11 9#11 13b9 13#11 maj9#11 maj7#5 9#5 9b5 7(#5,#9) 7(b5,b9) 7(#5,b9) 7(b5,#9) 7(b9,#11) 7b13 9b13
1.5  add11 m(add11) maj11 mMaj9 dimMaj7 m9b5 m11b5
1.6  13sus4 13#9 7(b9,b13) 7(#9,#11) 7(#9,b13) 7sus4b9 maj7sus4 maj9#5 6/9#11 7(b9,#9) maj13#11
1.8  sus2sus4 (b5) 7(add11) 7(add13) maj7(add13) m7(add13) maj7b5 maj7(add11) m11(no9) 11(no9) (add9,add11)
1.8  m(add9,add11) m11b5(no9)
2.0  m6(add11) m7b5(add11) 7(add11,add13) 9(add13) maj9(add13) m9(add13)
2.2  (add#11) m(addb13) m(addb9) dim(add9) m(add#11) maj7sus2 mMaj11 13sus4b9
2.4  6sus4 6sus2 7sus2 6(add11) maj7(addb13) (add9,add#11)
2.6  7(no3) maj7(no3) m7#5 m7(addb13) m(#5) 9(no3) maj9(no3) 6/9(no3) add9(no5) m(add9,no5) dim7(add9)
2.8  6(no3) m9(addb13) m7b9 m7b5b9 (addb9)
3.0  aug(add9) (addb13)
"""


@dataclass(frozen=True, slots=True)
class Reading:
    """A set of notes taken as a kind of chord, from the root.

    omitted: tones that custom leaves out and that do not sound. usual: how usual the chord is when complete.
    cost: how far from the first name to come to mind, what is left out included.
    """

    kind: str
    degrees: tuple[Degree, ...]
    omitted: tuple[Interval, ...]
    usual: float
    cost: float


# What leaving a tone out costs (tuned). A thirteenth with a major third is expected to go without its eleventh.
_FIFTH_OMITTED = 0.6
_ELEVENTH_KEPT = 1.0
_OMITTED = {Interval(3): 1.5, Interval(3, -1): 3.5, Interval(9): 0.4, Interval(11): 0.0}
# A sixth or a suspension with its seventh, without the fifth, is more readily another chord.
_DEARER_FIFTH = {"major-sixth": 0.9, "minor-sixth": 1.6, "suspended-fourth": 0.9, "suspended-second": 0.9}
_DYAD_SUSPENDED = 2.6
_WITHOUT_ELEVENTH = {"dominant-13th", "major-13th"}
_ELEVENTH = Interval(11)


def mask_of(intervals: tuple[Interval, ...]) -> int:
    """Twelve bits, bit n for n semitones above the root."""
    return sum(1 << steps for steps in {interval.pitch_class for interval in intervals})


def _omission_cost(kind: str, intervals: tuple[Interval, ...], gone: tuple[Interval, ...]) -> float:
    if gone and kind.startswith("suspended") and len(intervals) == 3:
        return _DYAD_SUSPENDED
    kept = _ELEVENTH_KEPT * (kind in _WITHOUT_ELEVENTH and _ELEVENTH in intervals and _ELEVENTH not in gone)
    return kept + sum(
        _DEARER_FIFTH.get(kind, _FIFTH_OMITTED) if interval.number == 5 else _OMITTED[interval] for interval in gone
    )


def _readings_of(kind: str, degrees: tuple[Degree, ...], usual: float) -> list[tuple[int, Reading]]:
    intervals = chord_intervals(kind, degrees)
    free = customary_omissions(kind, degrees)
    found = []
    for gone in chain.from_iterable(combinations(free, count) for count in range(len(free) + 1)):
        kept = tuple(interval for interval in intervals if interval not in gone)
        cost = usual + _omission_cost(kind, intervals, gone)
        found.append((mask_of(kept), Reading(kind, degrees, gone, usual, cost)))
    return found


@cache
def vocabulary() -> dict[int, tuple[Reading, ...]]:
    """The readings that players know, by the semitones above the root that sound (see `mask_of`), readiest first."""
    found: dict[int, list[Reading]] = {}
    for line in _TABLE.strip().splitlines():
        usual, *endings = line.split()
        for ending in endings:
            chord = read("C" + ending.removeprefix("-"))
            for mask, reading in _readings_of(chord.kind, chord.degrees, float(usual)):
                found.setdefault(mask, []).append(reading)
    return {mask: tuple(sorted(known, key=lambda reading: reading.cost)) for mask, known in found.items()}
