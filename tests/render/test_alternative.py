"""The text alternative alone is enough to form the shape: it is read back and must give the same one."""

from __future__ import annotations

from fingerpost.music.fretboard import Fretboard
from fingerpost.music.shape import Finger, Press, Shape
from fingerpost.music.shape_text import read_shape
from fingerpost.render.alternative import describe
from fingerpost.render.voice import Voice
from hypothesis import given, settings

from .hands import hands_on_necks
from .heard import shape_heard


@settings(max_examples=500, deadline=None)
@given(hands_on_necks())
def test_the_words_alone_give_the_same_shape(held: tuple[Shape, Fretboard]) -> None:
    shape, neck = held
    heard, rings, capo = shape_heard(describe(shape, neck, Voice(tuning=neck.tuning)))
    assert heard == shape
    assert rings == {string for string in range(1, shape.strings + 1) if shape.fret(string) == 0}
    assert capo == neck.capo


def test_the_order_is_finger_string_fret_then_what_rings_then_what_is_silent() -> None:
    text = describe(read_shape("x32010/-32-1-"), Fretboard(), Voice())
    assert text == (
        "Finger 3 on string 5, fret 3. Finger 2 on string 4, fret 2. Finger 1 on string 2, fret 1. "
        "Strings 3 and 1 ring open. String 6 is not struck."
    )


def test_a_bar_the_thumb_damping_and_a_capo_are_said() -> None:
    thumb, bar = Press(Finger.THUMB, 2, 6, 6), Press(Finger.INDEX, 2, 3, 1)
    shape = Shape(6, (thumb, bar), damped=((5, Finger.THUMB), (4, Finger.INDEX)))
    assert describe(shape, Fretboard(capo=3), Voice()) == (
        "Capo on fret 3; frets count from it. The thumb on string 6, fret 2. Finger 1 bars strings 3 to 1, fret 2. "
        "Finger 1 damps string 4. The thumb damps string 5."
    )


def test_a_rest_says_that_the_hand_is_off() -> None:
    assert describe(Shape(6), Fretboard(), Voice(), rest=True) == "The hand is off the neck."
