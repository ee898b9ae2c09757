"""What players leave out of a chord without giving it another name."""

from __future__ import annotations

from functools import lru_cache

from fingerpost.music.degree import Degree, chord_intervals
from fingerpost.music.interval import Interval

_FIFTH, _NINTH, _ELEVENTH = Interval(5), Interval(9), Interval(11)
_THIRDS = {2, 3, 4}
_SEVENTH_AND_THIRTEENTH = {7, 13}


@lru_cache(maxsize=8192)
def customary_omissions(kind: str, degrees: tuple[Degree, ...]) -> tuple[Interval, ...]:
    """The tones that custom lets a chord go without, in order (common practice, and nothing else).

    The perfect fifth in any chord that has a third or a suspension; in elevenths also the third; in thirteenths also
    the ninth and the eleventh.
    """
    intervals = chord_intervals(kind, degrees)
    numbers = {interval.number for interval in intervals}
    free = {_FIFTH} if numbers & _THIRDS else set()
    if kind.endswith("11th"):
        free |= {interval for interval in intervals if interval.number == 3}
    if _is_thirteenth(kind, degrees):
        free |= {_NINTH, _ELEVENTH}
    return tuple(interval for interval in intervals if interval in free)


def _is_thirteenth(kind: str, degrees: tuple[Degree, ...]) -> bool:
    """Whether a symbol says 13; of a suspension it does with a seventh and a ninth."""
    added = {degree.value for degree in degrees if degree.type == "add"}
    return kind.endswith("13th") or {7, 9, 13} <= added
