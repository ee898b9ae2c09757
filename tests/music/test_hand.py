"""The hand: each limit with its sentence and data, the published practice that calibrates it, and documented costs."""

from __future__ import annotations

import dataclasses

import pytest
from fingerpost.music.fretboard import Fretboard
from fingerpost.music.hand import ChangeCosts, Costs, Hand, Limit, Limits
from fingerpost.music.shape import Finger, Press, Shape
from fingerpost.music.shape_text import read_shape
from fingerpost.music.tuning import parse_tuning
from hypothesis import given
from hypothesis import strategies as st

from .any_shape import HAND, NECK, playable, shapes

BROKEN = [
    # shape, limit, needed, allowed, sentence
    ("x32010/-23-1-", Limit.FINGER_ORDER, None, None, "a higher finger cannot be on a lower fret"),
    ("x50010/-4--1-", Limit.SPAN_FRETS, 4, 3, "frets 1 to 5 are 4 frets apart; the hand spans 3"),
    ("222200/2222--", Limit.BAR_STRINGS, 4, 3, "finger 2 is asked to bar 4 strings; it bars over 3 strings at most"),
    ("x2xxxx/-T----", Limit.THUMB_STRINGS, 2, 1, "the thumb is asked to press string 5; it reaches only string 6"),
]


@pytest.mark.parametrize(("text", "limit", "needed", "allowed", "said"), BROKEN)
def test_each_limit_says_what_it_forbids(
    text: str, limit: Limit, needed: float | None, allowed: float | None, said: str
) -> None:
    faults = HAND.faults(read_shape(text), NECK)
    fault = next(fault for fault in faults if fault.limit is limit)
    assert (fault.needed, fault.allowed) == (needed, allowed)
    assert said in fault.message
    assert fault.strings


def test_a_finger_damps_only_near_its_press() -> None:
    press = Press(Finger.INDEX, 2, 6, 6)
    near, far = (Shape(6, (press,), damped=((string, Finger.INDEX),)) for string in (4, 3))
    assert HAND.faults(near, NECK) == ()
    (fault,) = HAND.faults(far, NECK)
    assert (fault.limit, fault.needed, fault.allowed) == (Limit.DAMPING_REACH, 3, 2)


def test_no_finger_is_in_two_places_and_no_two_in_one() -> None:
    twice = Shape(6, (Press(Finger.INDEX, 1, 6, 6), Press(Finger.INDEX, 2, 1, 1)))
    assert [fault.limit for fault in HAND.faults(twice, NECK)] == [Limit.ONE_FRET]
    crowded = Shape(6, (Press(Finger.INDEX, 1, 6, 1), Press(Finger.MIDDLE, 1, 3, 3)))
    assert [fault.limit for fault in HAND.faults(crowded, NECK)] == [Limit.ONE_SPOT]


def test_the_neck_ends_above_the_capo() -> None:
    shape = read_shape("x-21-0-0-0-0/-1----")
    assert HAND.faults(shape, NECK) == ()
    (fault,) = HAND.faults(shape, Fretboard(capo=4))
    assert (fault.limit, fault.needed, fault.allowed) == (Limit.NECK, 21, 20)
    assert "above the capo at 4" in fault.message


# standards.md, "The hand": none of 2,069 published fingerings spans over 3 frets; the widest is about 100 mm at
# L = 648 mm. Frets 1 to 4 are 133.68 - 36.37 = 97.31 mm apart by the distances of the same page.
def test_the_widest_published_span_passes_and_no_wider_one() -> None:
    widest = read_shape("xx1343/--1243")
    stretched = read_shape("x40010/-4--1-")
    assert HAND.faults(widest, NECK) == ()
    assert HAND.faults(stretched, NECK) == ()
    longer = Fretboard(scale_length=690.0)
    (fault,) = HAND.faults(stretched, longer)
    assert fault.limit is Limit.SPAN_MM
    assert fault.needed == pytest.approx(103.62, abs=0.005)  # 690 (2^(-1/12) - 2^(-4/12))


def test_the_span_is_reckoned_at_the_true_frets() -> None:
    shape, longer = read_shape("x40010/-4--1-"), Fretboard(scale_length=690.0)
    assert HAND.faults(shape, longer)
    assert HAND.faults(shape, dataclasses.replace(longer, capo=1)) == ()


# standards.md, "The hand": order by fret is a limit, order on one fret only a cost; the thumb apart.
def test_order_on_one_fret_is_only_a_cost() -> None:
    usual, reversed_order = read_shape("022000/-23---"), read_shape("022000/-32---")
    assert HAND.faults(reversed_order, NECK) == ()
    assert HAND.cost(reversed_order, NECK) > HAND.cost(usual, NECK)
    assert HAND.faults(read_shape("2x0132/T--132"), NECK) == ()


def test_limits_are_options() -> None:
    small = Hand(limits=Limits(span_frets=2, fingers=(1, 2, 3), bar_strings=(1, 1, 1, 1), thumb_strings=0))
    assert [f.limit for f in small.faults(read_shape("320003/32---4"), NECK)] == [Limit.FINGERS]
    assert [f.limit for f in small.faults(read_shape("133200/1332--"), NECK)] == [Limit.BAR_STRINGS]
    assert [f.limit for f in small.faults(read_shape("200232/T--132"), NECK)] == [Limit.THUMB_STRINGS]
    assert [f.limit for f in small.faults(read_shape("400001/3----1"), NECK)] == [Limit.SPAN_FRETS]
    loose = Hand(limits=Limits(finger_order=False, span_frets=5, span_mm=200))
    assert loose.faults(read_shape("x61010/-13-4-"), NECK) == ()


def test_unknown_fingers_are_checked_as_far_as_can_be() -> None:
    assert HAND.faults(read_shape("x32010"), NECK) == ()
    assert [fault.limit for fault in HAND.faults(read_shape("x72010"), NECK)] == [Limit.SPAN_FRETS, Limit.SPAN_MM]


def test_a_bar_spread_and_silent_inner_strings_cost() -> None:
    # the order that the rubric of Velez Vasquez et al. (ISMIR 2023) gives, as job.md tells it
    ranked = ["000000", "022000/-23---", "x32010/-32-1-", "133211/134211"]
    points = [HAND.cost(read_shape(text), NECK) for text in ranked]
    assert points == sorted(points)
    assert points[0] == 0
    inner, outer = read_shape("3x0003/2----3"), read_shape("300003/2----3")
    assert dict(HAND.cost_parts(inner, NECK))["silent inner strings"] == Costs().inner_silent
    assert "silent inner strings" not in dict(HAND.cost_parts(outer, NECK))


@pytest.mark.parametrize("kind", [Limits, Costs, ChangeCosts])
def test_every_number_of_the_hand_says_where_it_comes_from(kind: type) -> None:
    sources = ("standards.md", "common practice", "by judgement", "Velez Vasquez", "Sayegh")
    for field in dataclasses.fields(kind):
        assert any(source in field.metadata["about"] for source in sources), field.name


@given(shapes())
def test_a_cost_is_never_negative_and_is_the_sum_of_its_parts(shape: Shape) -> None:
    parts = HAND.cost_parts(shape, NECK)
    assert all(points > 0 for _, points in parts)
    assert HAND.cost(shape, NECK) == sum(points for _, points in parts)


@given(shapes(damped=False))
def test_lifting_a_finger_never_makes_a_new_fault(shape: Shape) -> None:
    limits = {fault.limit for fault in HAND.faults(shape, NECK)}
    for press in shape.presses:
        fewer = shape.with_presses(p for p in shape.presses if p != press)
        assert {fault.limit for fault in HAND.faults(fewer, NECK)} <= limits


@given(playable(), st.integers(0, 5))
def test_a_capo_never_makes_a_shape_wider(shape: Shape, capo: int) -> None:
    assert HAND.faults(shape, Fretboard(capo=capo)) == ()


def test_four_strings_have_their_own_lowest_string_for_the_thumb() -> None:
    ukulele = Fretboard(parse_tuning("ukulele"), scale_length=346.0)
    assert HAND.faults(read_shape("2000/T---", 4), ukulele) == ()
    assert [f.limit for f in HAND.faults(read_shape("0200/-T--", 4), ukulele)] == [Limit.THUMB_STRINGS]
