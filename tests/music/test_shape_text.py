"""Shapes as text: what is read, what is written, and what is said of text that is no shape."""

from __future__ import annotations

import pytest
from fingerpost.music.shape import Finger, Press, Shape
from fingerpost.music.shape_text import ShapeError, read_shape, write_shape
from hypothesis import example, given
from hypothesis import strategies as st

from .any_shape import shapes

INDEX, MIDDLE, RING, LITTLE = Finger.INDEX, Finger.MIDDLE, Finger.RING, Finger.LITTLE

# The forms are those of the project's design page, "Shapes as text"; the shapes are common practice.
READ = [
    ("x32010", (0, 1, 0, 2, 3, None)),
    ("X32010", (0, 1, 0, 2, 3, None)),
    ("x-3-2-0-1-0", (0, 1, 0, 2, 3, None)),
    ("x-10-12-12-11-x", (None, 11, 12, 12, 10, None)),
    ("000000", (0, 0, 0, 0, 0, 0)),
    ("24-0-0-0-0-0", (0, 0, 0, 0, 0, 24)),
    ("  x02220/--123- ", (0, 2, 2, 2, 0, None)),
]


@pytest.mark.parametrize(("text", "frets"), READ)
def test_frets_are_read_from_the_highest_numbered_string(text: str, frets: tuple[int | None, ...]) -> None:
    assert read_shape(text).frets == frets


@pytest.mark.parametrize("strings", range(4, 9))
def test_as_many_strings_as_the_instrument_has(strings: int) -> None:
    shape = read_shape("3" + "0" * (strings - 1) + "/2" + "-" * (strings - 1), strings)
    assert shape == Shape(strings, (Press(MIDDLE, 3, strings, strings),))


FINGERED = [
    ("x32010/-32-1-", {(INDEX, 1, 2, 2), (MIDDLE, 2, 4, 4), (RING, 3, 5, 5)}),
    ("x32010/x32x1x", {(INDEX, 1, 2, 2), (MIDDLE, 2, 4, 4), (RING, 3, 5, 5)}),
    ("133211/134211", {(INDEX, 1, 6, 1), (MIDDLE, 2, 3, 3), (RING, 3, 5, 5), (LITTLE, 3, 4, 4)}),
    ("x24442/-13331", {(INDEX, 2, 5, 1), (RING, 4, 4, 2)}),
    ("200232/T--132", {(Finger.THUMB, 2, 6, 6), (INDEX, 2, 3, 3), (MIDDLE, 2, 1, 1), (RING, 3, 2, 2)}),
    ("x1x1xx/-1-1--", {(INDEX, 1, 5, 3)}),
]


@pytest.mark.parametrize(("text", "presses"), FINGERED)
def test_one_finger_on_several_strings_is_a_bar(text: str, presses: set[tuple[Finger, int, int, int]]) -> None:
    assert {(p.finger, p.fret, p.low, p.high) for p in read_shape(text).presses} == presses


def test_a_mark_on_a_silent_string_is_damping_by_a_finger_that_presses_elsewhere() -> None:
    shape = read_shape("3x0003/22---3")
    assert shape.damped == ((5, MIDDLE),)
    assert shape.unstruck == frozenset()
    assert shape.frets[4] is None


# text, position, length, what is said of it, what was expected
WRONG = [
    ("", 0, 1, "there are no frets", "6 strings"),
    ("   ", 3, 1, "there are no frets", "6 strings"),
    ("x3201", 0, 5, "only 5 of 6 strings", "6, one fret or x a string"),
    ("x320100", 6, 1, "7 strings are given", "6, one fret or x a string"),
    ("x32z10", 3, 1, "'z' is no fret", "a number from 0 to 24, or x"),
    ("x-25-0-0-0-0", 2, 2, "there is no fret 25", "0 to 24"),
    ("x--0-0-0-0", 2, 1, "a fret is missing", "a number from 0 to 24"),
    ("x-٣-0-0-0-0", 2, 1, "is no fret", "a number from 0 to 24"),
    ("x32010/-32-1", 7, 5, "only 5 of 6 strings", "6, one finger or - a string"),
    ("x32010/-32-1-1", 13, 1, "7 strings are given", "6, one finger or - a string"),
    ("x32010/-72-1-", 8, 1, "'7' is no finger", "1, 2, 3, 4, T for the thumb"),
    ("x32010/-32-11", 12, 1, "string 1 is open", "-"),
    ("x32010/-3--1-", 9, 1, "string 4 at fret 2 has no finger", "1, 2, 3, 4 or T"),
    ("x32010/-22-1-", 9, 1, "finger 2 is at fret 3 already", "another finger for string 4 at fret 2"),
    ("103011/1-3-11", 8, 1, "string 5 is open inside the bar of finger 1 at fret 1", "fret 1 or higher"),
    ("313333/324333", 8, 1, "string 5 is at fret 1 inside the bar of finger 3 at fret 3", "fret 3 or higher"),
    ("x02220/--121-", 10, 1, "string 3 is pressed by the bar of finger 1 at fret 2 already", "1"),
    ("x32010/432-1-", 7, 1, "finger 4 presses nothing that could damp it", "-, or a finger that presses"),
    ("x32010/-32-1-/1=9:1", 14, 5, "there is no string 9", "1 to 6"),
    ("x32010/-32-1-/nonsense", 14, 8, "does not say where a finger is", "1=6:1-1:1"),
    ("x32010/-32-1-/4=2:5", 14, 5, "the fingers make string 2 at fret 5", "fret 1"),
    ("x32010/-32-1-/4=2:1", 14, 5, "finger 1 is there already", "free"),
    ("x32010/-32-1-/x=6/1", 18, 1, "no fourth part", "fingers after a slash"),
]


@pytest.mark.parametrize(("text", "position", "length", "said", "expected"), WRONG)
def test_what_is_wrong_is_said_with_its_place(text: str, position: int, length: int, said: str, expected: str) -> None:
    with pytest.raises(ShapeError) as caught:
        read_shape(text)
    error = caught.value
    assert (error.position, error.length) == (position, length)
    assert said in error.message
    assert expected in error.expected
    assert error.expected in str(error)


@given(shapes())
def test_a_shape_reads_back_from_its_text(shape: Shape) -> None:
    text = write_shape(shape)
    assert read_shape(text) == shape
    assert read_shape(text).frets == shape.frets


@given(shapes(strings=8))
def test_eight_strings_read_back_too(shape: Shape) -> None:
    assert read_shape(write_shape(shape), 8).frets == shape.frets


@given(shapes())
def test_without_fingers_only_the_sound_is_kept(shape: Shape) -> None:
    text = write_shape(shape, fingers=False)
    assert "/" not in text
    assert read_shape(text).frets == shape.frets


@given(st.text(alphabet="xX0123456789-/T=:, é", max_size=24))
@example("/")
@example("x32010//")
@example("-" * 24)
def test_any_text_is_a_shape_or_an_error_with_a_place(text: str) -> None:
    found = _shape_or_error(text)
    if isinstance(found, ShapeError):
        assert 0 <= found.position <= len(text)
        assert found.length >= 1
    else:
        assert read_shape(write_shape(found)).frets == found.frets


def _shape_or_error(text: str) -> Shape | ShapeError:
    try:
        return read_shape(text)
    except ShapeError as error:
        return error
