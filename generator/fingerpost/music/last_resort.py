"""A name for any set of notes over any of its notes as the root, where players have none."""

from __future__ import annotations

from functools import cache

from fingerpost.music.canonical import canonical
from fingerpost.music.degree import Degree, degree_order
from fingerpost.music.interval import Interval
from fingerpost.music.vocabulary import Reading

_BASE = 3.2
_PER_ADDED, _PER_ALTERED, _NO_THIRD, _NO_FIFTH, _TWO_SEVENTHS = 0.5, 0.7, 1.0, 0.6, 1.5
_ADDED = {1: (9, -1), 2: (9, 0), 3: (9, 1), 5: (11, 0), 6: (11, 1), 8: (13, -1), 9: (13, 0)}


def _third(steps: set[int]) -> tuple[str, int | None]:
    """The kind that the third or what stands for it makes, and its semitones."""
    for kind, third in (("major", 4), ("minor", 3), ("suspended-fourth", 5), ("suspended-second", 2)):
        if third in steps:
            return kind, third
    return "major", None


def _fifth(steps: set[int]) -> int | None:
    return next((fifth for fifth in (7, 6, 8) if fifth in steps), None)


def _sevenths(steps: set[int], altered: int | None) -> list[Degree]:
    if steps & {10, 11}:
        return [Degree(7, seventh - 10, "add") for seventh in (10, 11) if seventh in steps]
    if 9 in steps:
        return [Degree(7, -1, "add") if altered == 6 and 3 in steps and 4 not in steps else Degree(6, 0, "add")]
    return []


@cache
def last_resort(mask: int) -> Reading:
    """The reading of a set of notes (see `vocabulary.mask_of`) by its third, fifth and seventh, all else added."""
    steps = {step for step in range(12) if mask >> step & 1}
    kind, third = _third(steps)
    fifth = _fifth(steps)
    sevenths = _sevenths(steps, fifth)
    used = {0, third, fifth, 10, 11} | ({9} if sevenths and not steps & {10, 11} else set())
    degrees = [*sevenths, *(Degree(*_ADDED[step], "add") for step in sorted(steps - used))]
    degrees += [Degree(5, fifth - 7, "alter")] if fifth not in (7, None) else []
    return _reading(kind, degrees, third is None, fifth is None)


def _reading(kind: str, degrees: list[Degree], no_third: bool, no_fifth: bool) -> Reading:
    """Leaves out the fifth as custom does where there is a third, else says so."""
    added = sum(degree.type == "add" and degree.value != 7 for degree in degrees)
    altered = sum(degree.type == "alter" for degree in degrees)
    sevenths = sum(degree.value == 7 for degree in degrees)
    cost = _BASE + _PER_ADDED * added + _PER_ALTERED * altered + _TWO_SEVENTHS * (sevenths > 1)
    gone = [Degree(3, 0, "subtract")] * no_third + [Degree(5, 0, "subtract")] * (no_third and no_fifth)
    omitted = (Interval(5),) if no_fifth and not no_third else ()
    plain_kind, plain_degrees = canonical(kind, (*degrees, *gone))
    in_order = tuple(sorted(plain_degrees, key=degree_order))
    return Reading(plain_kind, in_order, omitted, cost, cost + _NO_THIRD * no_third + _NO_FIFTH * no_fifth)
