"""Fingerings: every way within the hand's limits to press what a shape sounds, the likeliest first."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from itertools import permutations

from fingerpost.music.costs import TERMS, Held
from fingerpost.music.fretboard import Fretboard
from fingerpost.music.hand import Hand
from fingerpost.music.shape import Finger, Press, Shape

Frets = tuple[int | None, ...]
Run = tuple[int, ...]


def fingerings(shape: Shape, fretboard: Fretboard, hand: Hand) -> tuple[Shape, ...]:
    """All hands within the limits that sound the same frets, cheapest first; empty where no hand can.

    Only what the strings sound counts: fingers that the shape names are not kept, damped strings become unstruck.
    Equal costs are ordered by the fingers, so the order never depends on chance.
    """
    frets = shape.frets
    unstruck = frozenset(index + 1 for index, fret in enumerate(frets) if fret is None)
    ranked = sorted(
        (_cost(presses, frets, fretboard, hand), _key(presses), presses)
        for presses in _hands(frets, fretboard, hand)
        if hand.holds(presses, fretboard)
    )
    bare = Shape(shape.strings, (), unstruck)
    return tuple(replace(bare, presses=presses) for _, _, presses in ranked)


def likeliest(shape: Shape, fretboard: Fretboard, hand: Hand) -> Shape | None:
    """The shape itself where it says its fingers, else its likeliest fingering, None where no hand can hold it."""
    if shape.has_fingers:
        return shape
    return next(iter(fingerings(shape, fretboard, hand)), None)


def _cost(presses: tuple[Press, ...], frets: Frets, fretboard: Fretboard, hand: Hand) -> float:
    held = Held(presses, frets, fretboard, hand.costs)
    return round(sum(term(held) for term in TERMS.values()), 6)


def _key(presses: tuple[Press, ...]) -> tuple[tuple[int, int, int], ...]:
    return tuple((p.finger or 0, p.low, p.high) for p in presses)


def _hands(frets: Frets, fretboard: Fretboard, hand: Hand) -> Iterator[tuple[Press, ...]]:
    """Candidate hands: with the fingers alone, and with the thumb over the lowest string."""
    yield from _fill(frets, _by_fret(frets), tuple(map(Finger, sorted(hand.limits.fingers))), hand)
    lowest = len(frets)
    fret = frets[-1]
    if fret and hand.limits.thumb_strings:
        rest = (*frets[:-1], None)
        thumb = Press(Finger.THUMB, fret, lowest, lowest)
        for presses in _fill(rest, _by_fret(rest), tuple(map(Finger, sorted(hand.limits.fingers))), hand):
            yield (thumb, *presses)


def _by_fret(frets: Frets) -> tuple[tuple[int, Run], ...]:
    """The frets pressed, lowest first, each with its strings, highest-numbered first."""
    pressed = sorted({fret for fret in frets if fret})
    return tuple((fret, tuple(s for s in range(len(frets), 0, -1) if frets[s - 1] == fret)) for fret in pressed)


def _fill(
    frets: Frets, groups: tuple[tuple[int, Run], ...], free: tuple[Finger, ...], hand: Hand
) -> Iterator[tuple[Press, ...]]:
    """Fret by fret: cut its strings into bars and single presses, and share the free fingers out over them.

    Where finger order is a limit, a fret leaves only fingers above its own for the frets beyond it.
    """
    if not groups:
        yield ()
        return
    (fret, strings), rest = groups[0], groups[1:]
    for runs in _cuts(strings, frets, fret):
        if len(runs) + len(rest) > len(free):
            continue
        for chosen in permutations(free, len(runs)):
            left = tuple(f for f in free if (f > max(chosen) if hand.limits.finger_order else f not in chosen))
            here = tuple(Press(finger, fret, run[0], run[-1]) for finger, run in zip(chosen, runs, strict=True))
            for more in _fill(frets, rest, left, hand):
                yield (*here, *more)


def _cuts(strings: Run, frets: Frets, fret: int) -> Iterator[tuple[Run, ...]]:
    """Every way to cut the strings of a fret into runs, each of which one finger can cover."""
    if not strings:
        yield ()
        return
    for end in range(1, len(strings) + 1):
        run = strings[:end]
        if any((other := frets[s - 1]) is not None and other < fret for s in range(run[0], run[-1], -1)):
            return
        for more in _cuts(strings[end:], frets, fret):
            yield (run, *more)
