"""Fingerings: every way within the hand's limits to press what a shape sounds, the likeliest first."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import permutations

from fingerpost.music.costs import FINGER_TERMS, Held
from fingerpost.music.fretboard import Fretboard
from fingerpost.music.hand import Hand
from fingerpost.music.limits import Limits
from fingerpost.music.shape import Finger, Press, Shape

Frets = tuple[int | None, ...]
Run = tuple[int, ...]
Presses = tuple[Press, ...]
Ranked = tuple[float, tuple[tuple[int, int, int], ...], Presses]
Group = tuple[int, tuple[tuple[Run, ...], ...]]


def fingerings(shape: Shape, fretboard: Fretboard, hand: Hand) -> tuple[Shape, ...]:
    """All hands within the limits that sound the same frets, cheapest first; empty where no hand can.

    Only what the strings sound counts: fingers that the shape names are not kept, damped strings become unstruck.
    Equal costs are ordered by the fingers, so the order never depends on chance.
    """
    return tuple(_shape(shape, presses) for _, _, presses in sorted(_ranked(shape.frets, fretboard, hand)))


def likeliest(shape: Shape, fretboard: Fretboard, hand: Hand) -> Shape | None:
    """The shape itself where it says its fingers, else its likeliest fingering, None where no hand can hold it."""
    if shape.has_fingers:
        return shape
    best = min(_ranked(shape.frets, fretboard, hand), default=None)
    return None if best is None else _shape(shape, best[2])


def _shape(shape: Shape, presses: Presses) -> Shape:
    return Shape(shape.strings, presses, frozenset(s for s, fret in enumerate(shape.frets, 1) if fret is None))


def _ranked(frets: Frets, fretboard: Fretboard, hand: Hand) -> Iterator[Ranked]:
    """Every hand with what ranks it. Terms that do not depend on the fingers are the same for all and left out."""
    ends = [Press(None, fret, s, s) for s, fret in enumerate(frets, 1) if fret]
    if not hand.holds(ends, fretboard):
        return
    for presses in _hands(frets, hand.limits):
        held = Held(presses, frets, fretboard, hand.costs)
        cost = round(sum([term(held) for term in FINGER_TERMS]), 6)
        yield cost, tuple([(p.finger or 0, p.low, p.high) for p in presses]), presses


def _hands(frets: Frets, limits: Limits) -> Iterator[Presses]:
    """Candidate hands: with the fingers alone, and with the thumb over the lowest string."""
    free = tuple(map(Finger, sorted(limits.fingers)))
    yield from _fill(_groups(frets), free, limits)
    lowest, fret = len(frets), frets[-1]
    if fret and limits.thumb_strings:
        thumb = Press(Finger.THUMB, fret, lowest, lowest)
        for presses in _fill(_groups((*frets[:-1], None)), free, limits):
            yield (thumb, *presses)


def _groups(frets: Frets) -> tuple[Group, ...]:
    """The frets pressed, lowest first, each with every way to cut its strings, highest-numbered first, into runs."""
    pressed = sorted({fret for fret in frets if fret})
    return tuple(
        (fret, tuple(_cuts(tuple(s for s in range(len(frets), 0, -1) if frets[s - 1] == fret), frets, fret)))
        for fret in pressed
    )


def _cuts(strings: Run, frets: Frets, fret: int) -> Iterator[tuple[Run, ...]]:
    """Every way to cut the strings of a fret into runs, each of which one finger can cover."""
    if not strings:
        yield ()
        return
    for end in range(1, len(strings) + 1):
        between = frets[strings[end - 1] - 1 : strings[0]]
        if any(other is not None and other < fret for other in between):
            return
        for more in _cuts(strings[end:], frets, fret):
            yield (strings[:end], *more)


def _fill(groups: tuple[Group, ...], free: tuple[Finger, ...], limits: Limits) -> Iterator[Presses]:
    """Fret by fret, shares the free fingers out over bars and single presses.

    Where finger order is a limit, a fret leaves only the fingers above its own for the frets beyond it.
    """
    if not groups:
        yield ()
        return
    (fret, cuts), rest = groups[0], groups[1:]
    for runs in cuts:
        for chosen in permutations(free, len(runs)):
            top = max(chosen)
            left = tuple([f for f in free if (f > top if limits.finger_order else f not in chosen)])
            if len(left) < len(rest) or not _wide_enough(chosen, runs, limits):
                continue
            here = tuple([Press(f, fret, run[0], run[-1]) for f, run in zip(chosen, runs, strict=True)])
            for more in _fill(rest, left, limits):
                yield here + more


def _wide_enough(chosen: tuple[Finger, ...], runs: tuple[Run, ...], limits: Limits) -> bool:
    return all(run[0] - run[-1] < limits.bar_strings[f - 1] for f, run in zip(chosen, runs, strict=True))
