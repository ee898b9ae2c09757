"""Fingerings: complete, within the limits, and the usual one first, by two tables of common practice."""

from __future__ import annotations

from pathlib import Path

import pytest
from fingerpost.music.fingering import fingerings, likeliest
from fingerpost.music.fretboard import Fretboard
from fingerpost.music.hand import Hand, Limits
from fingerpost.music.shape import Finger, Shape
from fingerpost.music.shape_text import read_shape, write_shape
from hypothesis import assume, given

from .any_shape import HAND, NECK, playable

HERE = Path(__file__).parent


def _usual(file: str) -> list[tuple[str, list[str]]]:
    """Rows of a table: the shape, and its usual fingerings as whole texts, the most usual first."""
    rows = [line.split() for line in (HERE / file).read_text(encoding="utf-8").splitlines()]
    return [(row[1], [f"{row[1]}/{marks}" for marks in row[2:]]) for row in rows if row and row[0] != "#"]


# Costs were calibrated on the first table, never on the second; both are common practice written down from memory.
@pytest.mark.parametrize(
    ("file", "rows", "same_first", "usual_first"),
    [("usual_fingerings.txt", 90, 0.85, 0.97), ("usual_fingerings_held_out.txt", 57, 0.75, 0.90)],
)
def test_the_usual_fingering_comes_first(file: str, rows: int, same_first: float, usual_first: float) -> None:
    table = _usual(file)
    found = {shape: [write_shape(s) for s in fingerings(read_shape(shape), NECK, HAND)] for shape, _ in table}
    assert len(table) == rows
    assert sum(found[shape][0] == usual[0] for shape, usual in table) / rows >= same_first
    assert sum(found[shape][0] in usual for shape, usual in table) / rows >= usual_first
    unfound = [shape for shape, usual in table if not set(usual) & set(found[shape][:3])]
    assert unfound == []


# The open chords that any method teaches first (common practice): here nothing but the usual fingering will do.
FIRST_CHORDS = [
    "x32010/-32-1-", "022100/-231--", "x02220/--123-", "xx0232/---132", "320003/21---3", "x02210/--231-",
    "022000/-23---", "x32310/-3241-", "133211/134211", "x24432/-13421", "x21202/-213-4", "xx0231/---231",
    "xx3210/--321-", "xx3211/--3211", "020100/-2-1--", "x02010/--2-1-", "xx0212/---213", "320001/32---1",
    "x24442/-13331", "x32000/-32---", "x02020/--2-3-", "x02120/--213-", "131211/131211", "x13131/-13141",
]  # fmt: skip


@pytest.mark.parametrize("text", FIRST_CHORDS)
def test_the_first_chords_are_fingered_as_taught(text: str) -> None:
    found = likeliest(read_shape(text.partition("/")[0]), NECK, HAND)
    assert found is not None
    assert write_shape(found) == text


@given(playable())
def test_fingerings_keep_the_sound_and_the_limits(shape: Shape) -> None:
    found = fingerings(shape, NECK, HAND)
    assert found
    assert len(set(found)) == len(found)
    for other in found:
        assert other.frets == shape.frets
        assert HAND.faults(other, NECK) == ()
    costs = [round(HAND.cost(other, NECK), 4) for other in found]
    assert costs == sorted(costs)


@given(playable())
def test_no_hand_that_can_hold_it_is_forgotten(shape: Shape) -> None:
    seen = read_shape(write_shape(shape, hidden=False))
    assume(len(seen.presses) == len(shape.presses))
    assert seen in fingerings(seen, NECK, HAND)


def test_what_no_hand_can_hold_has_no_fingering() -> None:
    assert fingerings(read_shape("x90010"), NECK, HAND) == ()
    assert fingerings(read_shape("123456"), NECK, HAND) == ()
    assert likeliest(read_shape("x90010"), NECK, HAND) is None


def test_open_strings_need_no_finger() -> None:
    (only,) = fingerings(read_shape("xx0000"), NECK, HAND)
    assert only == read_shape("xx0000")
    assert likeliest(only, NECK, HAND) is only


def test_fingers_that_are_given_are_kept() -> None:
    odd = read_shape("022000/-43---")
    assert likeliest(odd, NECK, HAND) is odd


def test_only_the_fingers_that_a_course_uses() -> None:
    three = Hand(limits=Limits(fingers=(1, 2, 3), thumb_strings=0))
    found = fingerings(read_shape("x32310"), NECK, three)
    assert all(Finger.LITTLE not in shape.fingers for shape in found)
    best = likeliest(read_shape("320003"), NECK, Hand(limits=Limits(fingers=(2, 3, 4))))
    assert best is not None
    assert write_shape(best) == "320003/32---4"


def test_the_thumb_can_take_the_lowest_string() -> None:
    texts = [write_shape(shape) for shape in fingerings(read_shape("200232"), NECK, HAND)]
    assert "200232/T--132" in texts
    without = Hand(limits=Limits(thumb_strings=0))
    assert not any("T" in write_shape(shape) for shape in fingerings(read_shape("200232"), NECK, without))


def test_a_capo_widens_what_fits() -> None:
    longer = Fretboard(scale_length=690.0)
    assert fingerings(read_shape("x40010"), longer, HAND) == ()
    assert fingerings(read_shape("x40010"), Fretboard(scale_length=690.0, capo=2), HAND)
