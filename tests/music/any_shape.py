"""Shapes for property tests: any that a hand could be asked to hold, and those that a hand can."""

from __future__ import annotations

from fingerpost.music.fretboard import Fretboard
from fingerpost.music.hand import Hand
from fingerpost.music.shape import Finger, Press, Shape
from hypothesis import strategies as st

NECK = Fretboard()
HAND = Hand()


@st.composite
def shapes(draw: st.DrawFn, strings: int = 6, damped: bool = True) -> Shape:
    """Any shape with known fingers in which no two share a spot; the hand's limits are not kept."""
    held: list[Press] = []
    for finger in draw(st.sets(st.sampled_from(list(Finger)))):
        low = draw(st.integers(1, strings))
        press = Press(finger, draw(st.integers(1, 14)), low, draw(st.integers(1, low)))
        if not any(press.clashes(other) for other in held):
            held.append(press)
    unstruck = draw(st.frozensets(st.integers(1, strings), max_size=strings - 1))
    return Shape(strings, tuple(held), unstruck, _damped(draw, held, strings) if damped else ())


def _damped(draw: st.DrawFn, held: list[Press], strings: int) -> tuple[tuple[int, Finger], ...]:
    pairs: list[tuple[int, Finger]] = []
    for string in draw(st.sets(st.integers(1, strings), max_size=2)):
        able = [press.finger for press in held if press.finger is not None and not press.covers(string)]
        if able:
            pairs.append((string, draw(st.sampled_from(able))))
    return tuple(pairs)


@st.composite
def playable(draw: st.DrawFn) -> Shape:
    """A shape within the limits, without the thumb and without damping."""
    fingers = sorted(draw(st.sets(st.sampled_from(list(Finger)[1:]))))
    base = draw(st.integers(1, 9))
    frets = sorted(draw(st.lists(st.integers(base, base + 3), min_size=len(fingers), max_size=len(fingers))))
    held: list[Press] = []
    for finger, fret in zip(fingers, frets, strict=True):
        low = draw(st.integers(1, 6))
        high = (
            draw(st.integers(max(1, low - HAND.limits.bar_strings[finger - 1] + 1), low))
            if draw(st.booleans())
            else low
        )
        press = Press(finger, fret, low, high)
        if HAND.holds((*held, press), NECK):
            held.append(press)
    return Shape(6, tuple(held), draw(st.frozensets(st.integers(1, 6), max_size=3)))
