"""Any hand on any neck, for property tests of pictures and words: bars, thumb, damping, capo, four to eight strings."""

from __future__ import annotations

from fingerpost.music.fretboard import Fretboard
from fingerpost.music.shape import Finger, Press, Shape
from fingerpost.music.tuning import NAMED
from hypothesis import strategies as st

TUNINGS = [NAMED[name] for name in ("standard", "DADGAD", "open G", "ukulele", "seven strings", "eight strings")]
necks = st.builds(Fretboard, tuning=st.sampled_from(TUNINGS), capo=st.sampled_from((0, 0, 2, 5)))


@st.composite
def hands(draw: st.DrawFn, strings: int = 6, fingers_known: bool = True) -> Shape:
    """A shape in which no two presses share a spot; a hand need not be able to hold it."""
    held: list[Press] = []
    for finger in sorted(draw(st.sets(st.sampled_from(list(Finger))))):
        low = draw(st.integers(1, strings))
        high = draw(st.integers(1, low)) if draw(st.booleans()) else low
        press = Press(finger, draw(st.integers(1, 14)), low, high)
        if not any(press.fret == other.fret and press.low >= other.high and other.low >= press.high for other in held):
            held.append(press)
    damped = []
    for string in draw(st.sets(st.integers(1, strings), max_size=2)):
        able = [press.finger for press in held if not press.covers(string)]
        if able:
            damped.append((string, draw(st.sampled_from(able))))
    if not fingers_known:
        held, damped = [Press(None, press.fret, press.low, press.high) for press in held], []
    unstruck = draw(st.frozensets(st.integers(1, strings), max_size=strings - 1))
    return Shape(strings, tuple(held), unstruck, tuple(damped))


@st.composite
def hands_on_necks(draw: st.DrawFn) -> tuple[Shape, Fretboard]:
    """A shape with the neck that it is held on."""
    neck = draw(necks)
    return draw(hands(neck.strings, draw(st.sampled_from((True, True, True, False))))), neck


@st.composite
def changes(draw: st.DrawFn) -> tuple[Shape, Shape, Fretboard]:
    """Two shapes on one neck."""
    neck = draw(necks)
    return draw(hands(neck.strings)), draw(hands(neck.strings)), neck
