"""Transitions: fingers moved, strings changed and notes changed are three counts; what stays; what is heard."""

from __future__ import annotations

import pytest
from fingerpost.music.fretboard import Fretboard
from fingerpost.music.move import Exchange, Lift, Mute, Place, Shift, apply
from fingerpost.music.shape import Finger, Press, Shape
from fingerpost.music.shape_text import read_shape
from fingerpost.music.transition import MoveKind, transition
from hypothesis import given

from .any_shape import NECK, shapes

THUMB, INDEX, MIDDLE, RING, LITTLE = Finger

# Kinds in the words of the trade (job.md, "Words of the trade"); shapes are common practice.
KINDS = [
    # before, after, finger, kind, strings changed, notes changed
    ("022000/-23---", "022100/-231--", INDEX, MoveKind.PLACE, (3,), 1),
    ("022100/-231--", "022000/-23---", INDEX, MoveKind.LIFT, (3,), 1),
    ("x32010/-32-1-", "x22010/-32-1-", RING, MoveKind.SLIDE, (5,), 1),
    ("x32010/-32-1-", "x02210/--231-", RING, MoveKind.CROSS, (5, 3), 2),
    ("033200/-342--", "133211/134211", INDEX, MoveKind.BAR, (6, 2, 1), 3),
    ("133211/134211", "033200/-342--", INDEX, MoveKind.UNBAR, (6, 2, 1), 3),
    ("133211/134211", "033201/-342-1", INDEX, MoveKind.HINGE, (6, 2), 2),
    ("033201/-342-1", "133211/134211", INDEX, MoveKind.BAR, (6, 2), 2),
    ("111111/111111", "222222/111111", INDEX, MoveKind.SLIDE, (6, 5, 4, 3, 2, 1), 6),
    ("100000/1-----", "022222/-11111", INDEX, MoveKind.BAR, (6, 5, 4, 3, 2, 1), 6),
    ("022000/-23---", "022000/-13---", INDEX, MoveKind.EXCHANGE, (), 0),
    ("x32010/-32-1-", "x32030/-32-4-/1=2:1", LITTLE, MoveKind.PLACE, (2,), 1),
    ("x32030/-32-4-", "x32030/-32-4-/1=2:1", INDEX, MoveKind.PLACE, (), 0),
    ("320003/21---3", "3x0003/22---3/1=5:2", MIDDLE, MoveKind.MUTE, (5,), 1),
    ("3x0003/22---3/1=5:2", "320003/21---3", MIDDLE, MoveKind.UNMUTE, (5,), 1),
]


@pytest.mark.parametrize(("before", "after", "finger", "kind", "strings", "notes"), KINDS)
def test_one_finger_and_what_it_changes(
    before: str, after: str, finger: Finger, kind: MoveKind, strings: tuple[int, ...], notes: int
) -> None:
    change = transition(read_shape(before), read_shape(after), NECK)
    assert [(move.finger, move.kind) for move in change.moves] == [(finger, kind)]
    assert change.finger_count == 1
    assert change.strings_changed == strings
    assert change.notes_changed == notes
    assert change.sound_changes == bool(strings)


def test_a_pitch_that_goes_to_another_string_is_no_new_note() -> None:
    # MIDI 64: string 1 open, string 2 fret 5, string 3 fret 9 (Radicioni & Lombardo, ICMC 2005, fig. 1)
    change = transition(read_shape("xxxx5x/----1-"), read_shape("xxx9xx/---1--"), NECK)
    assert change.strings_changed == (3, 2)
    assert change.notes_changed == 0
    assert change.newly_sounding == (3,)
    assert change.falling_silent == (2,)
    assert change.strum_changed


def test_what_stays_and_what_guides() -> None:
    change = transition(read_shape("x32010/-32-1-"), read_shape("x02210/--231-"), NECK)
    assert change.stays == (INDEX, MIDDLE)
    assert change.pivots == (INDEX, MIDDLE)
    assert change.guides == ()
    slide = transition(read_shape("x02220/--123-"), read_shape("xx0232/---132"), NECK)
    assert slide.guides == (RING,)
    assert slide.stays == ()


def test_a_hand_that_slides_whole_is_a_shift_of_all_its_fingers() -> None:
    change = transition(read_shape("x24432/-13421"), read_shape("x35543/-13421"), NECK)
    assert change.shift == 1
    assert {move.kind for move in change.moves} == {MoveKind.SHIFT}
    assert change.finger_count == 4
    assert change.guides == (INDEX, MIDDLE, RING, LITTLE)


def test_a_single_finger_that_slides_is_no_shift_of_the_hand() -> None:
    change = transition(read_shape("020000/-2----"), read_shape("040000/-2----"), NECK)
    assert change.shift == 0
    assert change.moves[0].kind is MoveKind.SLIDE


def test_damping_is_a_finger_s_move_though_its_press_stays() -> None:
    before = read_shape("300003/2----3")
    after = apply(before, Mute(5, MIDDLE))
    change = transition(before, after, NECK)
    assert [(move.finger, move.kind) for move in change.moves] == [(MIDDLE, MoveKind.MUTE)]
    assert change.stays == (MIDDLE, RING)
    assert change.pivots == (MIDDLE, RING)[1:]
    assert change.falling_silent == (5,)
    back = transition(after, before, NECK)
    assert [move.kind for move in back.moves] == [MoveKind.UNMUTE]


def test_notes_are_counted_as_they_sound_in_the_tuning() -> None:
    change = transition(read_shape("x02220/--123-"), read_shape("x02210/--231-"), Fretboard())
    assert change.notes_gone == (61,)
    assert change.notes_come == (60,)


def test_shapes_without_fingers_have_no_transition() -> None:
    with pytest.raises(ValueError, match="which finger presses what"):
        transition(read_shape("x32010"), read_shape("x32000/-32---"), NECK)
    with pytest.raises(ValueError, match="numbers of strings"):
        transition(read_shape("0003", 4), read_shape("x32000/-32---"), NECK)


@given(shapes(), shapes())
def test_the_way_back_moves_as_many_fingers_and_changes_as_much(before: Shape, after: Shape) -> None:
    there, back = transition(before, after, NECK), transition(after, before, NECK)
    assert there.finger_count == back.finger_count
    assert there.strings_changed == back.strings_changed
    assert there.notes_changed == back.notes_changed
    assert there.stays == back.stays
    assert there.newly_sounding == back.falling_silent
    assert there.notes_gone == back.notes_come
    assert there.shift == -back.shift


@given(shapes())
def test_nothing_changes_from_a_shape_to_itself(shape: Shape) -> None:
    change = transition(shape, shape, NECK)
    assert change.moves == ()
    assert not change.sound_changes
    assert change.stays == shape.fingers
    assert change.pivots == ()


@given(shapes(), shapes())
def test_every_finger_is_accounted_for_once(before: Shape, after: Shape) -> None:
    change = transition(before, after, NECK)
    moved = [move.finger for move in change.moves] + [
        move.replaced for move in change.moves if move.replaced is not None
    ]
    assert len(moved) == len(set(moved))
    assert set(moved) | set(change.stays) == set(before.fingers) | set(after.fingers)


@given(shapes())
def test_one_move_is_one_finger(shape: Shape) -> None:
    free = [finger for finger in Finger if finger not in shape.fingers]
    for finger in shape.fingers:
        assert transition(shape, apply(shape, Lift(finger)), NECK).finger_count == 1
        for other in free:
            assert transition(shape, apply(shape, Exchange(other, finger)), NECK).finger_count == 1
    for finger in free:
        press = Press(finger, 15, 6, 1)
        placed = apply(shape, Place(finger, press.fret, press.low, press.high))
        assert transition(shape, placed, NECK).finger_count == 1
    if len(shape.fingers) > 1:
        assert transition(shape, apply(shape, Shift(2)), NECK).shift == 2
