"""What a shape sounds: the highest fret pressed on a string, else the open string, if struck and not damped."""

from __future__ import annotations

import pytest
from fingerpost.music.shape import Finger, Press, Shape, open_shape
from hypothesis import given
from hypothesis import strategies as st

from .any_shape import shapes


def test_a_finger_laid_behind_another_is_not_heard() -> None:
    shape = Shape(6, (Press(Finger.INDEX, 1, 2, 2), Press(Finger.LITTLE, 3, 2, 2)))
    assert shape.fret(2) == 3
    assert shape.sounding_press(2) == Press(Finger.LITTLE, 3, 2, 2)
    assert shape.press_of(Finger.INDEX) == Press(Finger.INDEX, 1, 2, 2)


def test_strings_unstruck_or_damped_are_silent() -> None:
    press = Press(Finger.MIDDLE, 3, 6, 6)
    shape = Shape(6, (press,), frozenset({1}), ((5, Finger.MIDDLE),))
    assert shape.frets == (None, 0, 0, 0, None, 3)
    assert shape.sounding_strings == (6, 4, 3, 2)


@given(shapes())
def test_the_sound_of_each_string_by_its_definition(shape: Shape) -> None:
    damped = {string for string, _ in shape.damped}
    for string in range(1, shape.strings + 1):
        pressed = [press.fret for press in shape.presses if press.low >= string >= press.high]
        silent = string in shape.unstruck or string in damped
        assert shape.fret(string) == (None if silent else max(pressed, default=0))


@given(shapes(), st.randoms(use_true_random=False))
def test_the_order_in_which_fingers_are_named_does_not_matter(shape: Shape, random: object) -> None:
    shuffled = list(shape.presses)
    random.shuffle(shuffled)  # type: ignore[attr-defined]
    other = Shape(shape.strings, tuple(shuffled), shape.unstruck, shape.damped[::-1])
    assert other == shape
    assert hash(other) == hash(shape)


@given(shapes(), shapes())
def test_two_fingers_clash_on_one_string_at_one_fret(one: Shape, other: Shape) -> None:
    for a in one.presses:
        for b in other.presses:
            meet = a.fret == b.fret and set(a.strings) & set(b.strings)
            assert a.clashes(b) == b.clashes(a) == bool(meet)


@pytest.mark.parametrize("mark", ["T", "1", "2", "3", "4"])
def test_finger_marks_read_back(mark: str) -> None:
    assert Finger.from_mark(mark).mark == mark


@pytest.mark.parametrize("mark", ["", "0", "5", "12", "p"])
def test_what_is_no_finger_says_what_was_expected(mark: str) -> None:
    with pytest.raises(ValueError, match="expected 1, 2, 3, 4 or T"):
        Finger.from_mark(mark)


def test_the_open_shape_strikes_every_string() -> None:
    assert open_shape().frets == (0,) * 6
    assert open_shape(4).has_fingers
