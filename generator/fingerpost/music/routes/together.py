"""Which spots two fingers can hold together: the hand's limits are all between two presses or about one."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from fingerpost.music.fretboard import Fretboard
from fingerpost.music.limits import Limits
from fingerpost.music.routes.spots import Spots

FINGERS = 5
LOWER, HIGHER, FREE = 0, 1, 2
"""How a finger's number is to another's: lower, higher, or of no account (the thumb, or a hand without order)."""


@dataclass(frozen=True)
class Together:
    """Tables over spots. hold[relation][spot]: where a finger can be while another holds spot.

    place[relation][spot]: of these, where a finger that comes down then is heard, as far as the other finger goes:
    it, or each end of its bar, is not behind the other. alone[finger]: where a finger can be at all.
    relation[finger][other] is LOWER, HIGHER or FREE.
    """

    hold: tuple[tuple[int, ...], ...]
    place: tuple[tuple[int, ...], ...]
    alone: tuple[int, ...]
    relation: tuple[tuple[int, ...], ...]


def together(spots: Spots, fretboard: Fretboard, limits: Limits, unheard: bool) -> Together:
    """The tables of a hand on a neck; unheard: a single finger may also come down behind another."""
    order = (FREE, LOWER, HIGHER) if limits.finger_order else (FREE, FREE, FREE)
    relation = tuple(
        tuple(order[0] if not (f and g) or f == g else order[1] if f < g else order[2] for g in range(FINGERS))
        for f in range(FINGERS)
    )
    near = _near(spots, fretboard, limits)
    hold = tuple(_beside(spots, near, kind, lambda _: True) for kind in (LOWER, HIGHER, FREE))
    heard = tuple(_beside(spots, near, kind, lambda bar: unheard and not bar) for kind in (LOWER, HIGHER, FREE))
    alone = tuple(_alone(spots, fretboard, limits, finger) for finger in range(FINGERS))
    return Together(hold, heard, alone, relation)


def _near(spots: Spots, fretboard: Fretboard, limits: Limits) -> dict[int, tuple[int, ...]]:
    """The frets within the hand's span of each fret."""
    return {
        fret: tuple(
            other
            for other in spots.frets
            if abs(other - fret) <= limits.span_frets
            and fretboard.span(min(fret, other), max(fret, other)) <= limits.span_mm
        )
        for fret in spots.frets
    }


def _beside(
    spots: Spots, near: dict[int, tuple[int, ...]], relation: int, behind: Callable[[bool], bool]
) -> tuple[int, ...]:
    """By spot: the spots beside it. behind says whether a single finger or a bar may end where the other covers it."""
    every = (1 << len(spots.runs)) - 1
    out = [(1 << len(spots.placed)) - 1]
    by_run = {run: (_apart(spots, *run), _uncovered(spots, *run, behind)) for run in spots.runs}
    for fret, low, high in spots.placed[1:]:
        apart, uncovered = by_run[low, high]
        out.append(
            spots.on_frets(
                {
                    other: apart if other == fret else uncovered if other < fret else every
                    for other in near[fret]
                    if not (relation == LOWER and other > fret) and not (relation == HIGHER and other < fret)
                }
            )
            | 1
        )
    return tuple(out)


def _apart(spots: Spots, low: int, high: int) -> int:
    return sum(1 << n for n, (a, b) in enumerate(spots.runs) if a < high or b > low)


def _uncovered(spots: Spots, low: int, high: int, behind: Callable[[bool], bool]) -> int:
    return sum(
        1 << n for n, (a, b) in enumerate(spots.runs) if behind(a != b) or not (high <= a <= low or high <= b <= low)
    )


def _alone(spots: Spots, fretboard: Fretboard, limits: Limits, finger: int) -> int:
    if finger and finger not in limits.fingers:
        return 1
    if finger:
        runs = sum(1 << n for n, (a, b) in enumerate(spots.runs) if a - b < limits.bar_strings[finger - 1])
    else:
        lowest = spots.strings - limits.thumb_strings + 1
        runs = sum(1 << n for n, (_, b) in enumerate(spots.runs) if b >= lowest)
    return spots.on_frets({fret: runs for fret in spots.frets if fret <= fretboard.highest_fret}) | 1
