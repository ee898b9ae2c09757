"""Moves, by the table of the design page ("One step, one line"): what each leaves, and why some cannot be made."""

from __future__ import annotations

import pytest
from fingerpost.music.leading_moves import moves_between
from fingerpost.music.move import (
    Exchange,
    ImpossibleMove,
    Lift,
    Move,
    Mute,
    Place,
    Reason,
    Shift,
    Strum,
    apply,
    apply_all,
    lapsed,
    write_move,
)
from fingerpost.music.shape import Finger, Shape
from fingerpost.music.shape_text import read_shape, write_shape
from fingerpost.music.tuning import STANDARD, parse_tuning
from hypothesis import assume, given
from hypothesis import strategies as st

from .any_shape import shapes

THUMB, INDEX, MIDDLE, RING, LITTLE = Finger

MADE: list[tuple[str, Move, str, str]] = [
    # before, move, after, the line that says it
    ("022000/-23---", Place(INDEX, 1, 3, 3), "022100/-231--", "1 to G1"),
    ("032010/-32-1-", Place(RING, 3, 6, 6), "302010/3-2-1-", "3 to E3"),
    ("x32010/-32-1-", Place(RING, 3, 6, 6), "x02010/--2-1-/3=6:3", "3 to E3"),
    ("x32010/-32-1-", Place(RING, 2, 5, 5), "x22010/-32-1-", "3 to A2"),
    ("x32010/-32-1-", Lift(INDEX), "x32000/-32---", "1 off"),
    ("x32010/-32-1-", Place(LITTLE, 3, 2, 2), "x32030/-32-4-/1=2:1", "4 to B3"),
    ("033200/-342--", Place(INDEX, 1, 6, 1), "133211/134211", "1 to E1-e1"),
    ("133211/134211", Place(INDEX, 1, 1, 1), "033201/-342-1", "1 to e1"),
    ("133211/134211", Place(INDEX, 1, 6, 6), "133200/1342--", "1 to E1"),
    ("133211/134211", Lift(MIDDLE), "133111/134111", "2 off"),
    ("022000/-23---", Exchange(INDEX, MIDDLE), "022000/-13---", "1 for 2"),
    ("x24442/-13331", Shift(-1), "x13331/-13331", "shift -1"),
    ("022000/-23---", Shift(5), "077000/-23---", "shift +5"),
    ("320003/21---3", Mute(5, MIDDLE), "3x0003/22---3/1=5:2", "mute A by 2"),
    ("x32010/-32-1-", Mute(1), "x3201x/-32-1-", "mute e"),
    ("022000/-23---", Strum(frozenset({5, 4, 3})), "x220xx/-23---", "strum A-G"),
    ("022000/-23---", Strum(frozenset({6, 3, 2})), "0xx00x/------/2=5:2,3=4:2", "strum E G B"),
    ("100000/T-----", Place(THUMB, 2, 6, 6), "200000/T-----", "T to E2"),
]


@pytest.mark.parametrize(("before", "move", "after", "line"), MADE)
def test_a_move_leaves_this_shape_and_is_written_so(before: str, move: Move, after: str, line: str) -> None:
    assert write_shape(apply(read_shape(before), move)) == after
    assert write_move(move, STANDARD) == line


def test_strings_go_by_number_where_a_tuning_repeats_their_letter() -> None:
    tuning = parse_tuning("D2 A2 D3 G3 A3 D4")
    assert write_move(Place(RING, 2, 4, 4), tuning) == "3 to 4:2"
    assert write_move(Place(RING, 2, 3, 3), tuning) == "3 to G2"
    assert write_move(Place(INDEX, 2, 3, 1), tuning) == "1 to 3:2-1:2"
    assert write_move(Mute(2), tuning) == "mute 2"


REFUSED: list[tuple[str, Move, Reason, str]] = [
    ("022000/-23---", Lift(INDEX), Reason.FINGER_UP, "finger 1 is not down"),
    ("022000/-23---", Place(MIDDLE, 2, 5, 5), Reason.ALREADY_SO, "finger 2 is there already"),
    ("022000/-23---", Place(INDEX, 2, 4, 4), Reason.SAME_SPOT, "finger 3 is on string 4 at fret 2 already"),
    ("022000/-23---", Place(INDEX, 2, 6, 1), Reason.SAME_SPOT, "finger 2 is on string 5 at fret 2 already"),
    ("022000/-23---", Place(INDEX, 0, 1, 1), Reason.NO_SUCH_FRET, "there is no fret 0 to press; expected 1 to 24"),
    ("022000/-23---", Place(INDEX, 25, 1, 1), Reason.NO_SUCH_FRET, "there is no fret 25 to press; expected 1 to 24"),
    ("022000/-23---", Place(INDEX, 1, 7, 7), Reason.NO_SUCH_STRING, "there is no string 7; expected 1 to 6"),
    ("022000/-23---", Exchange(INDEX, LITTLE), Reason.FINGER_UP, "finger 4 is not down, so finger 1 cannot"),
    ("022000/-23---", Exchange(MIDDLE, RING), Reason.FINGER_DOWN, "finger 2 is down elsewhere"),
    ("000000", Shift(1), Reason.NOTHING_DOWN, "no finger is down"),
    ("022000/-23---", Shift(0), Reason.ALREADY_SO, "changes nothing"),
    ("022000/-23---", Shift(-2), Reason.OFF_THE_NECK, "would put fret 2 at 0; expected 1 to 24"),
    ("022000/-23---", Shift(23), Reason.OFF_THE_NECK, "would put fret 2 at 25; expected 1 to 24"),
    ("022000/-23---", Mute(3, INDEX), Reason.FINGER_UP, "finger 1 is not down"),
    ("022000/-23---", Mute(5, MIDDLE), Reason.PRESSES_IT, "finger 2 presses string 5, so it cannot damp it"),
    ("3x0003/22---3", Mute(5, MIDDLE), Reason.ALREADY_SO, "finger 2 damps string 5 already"),
    ("x22000/-23---", Mute(6), Reason.ALREADY_SO, "string 6 is not struck as it is"),
    ("022000/-23---", Mute(0), Reason.NO_SUCH_STRING, "there is no string 0; expected 1 to 6"),
    ("022000/-23---", Strum(frozenset()), Reason.NOTHING_STRUCK, "no string would be struck"),
    ("022000/-23---", Strum(frozenset(range(1, 7))), Reason.ALREADY_SO, "struck as it is"),
    ("022000/-23---", Strum(frozenset({1, 9})), Reason.NO_SUCH_STRING, "there is no string 9; expected 1 to 6"),
]


@pytest.mark.parametrize(("before", "move", "reason", "said"), REFUSED)
def test_a_move_that_cannot_be_made_says_why(before: str, move: Move, reason: Reason, said: str) -> None:
    with pytest.raises(ImpossibleMove) as caught:
        apply(read_shape(before), move)
    assert caught.value.reason is reason
    assert said in str(caught.value)


def test_the_neck_ends_sooner_above_a_capo() -> None:
    with pytest.raises(ImpossibleMove, match="expected 1 to 21"):
        apply(read_shape("000000"), Place(INDEX, 22, 1, 1), highest_fret=21)


@pytest.mark.parametrize("move", [Lift(MIDDLE), Place(MIDDLE, 2, 6, 6), Place(MIDDLE, 3, 6, 6)])
def test_damping_lapses_when_the_finger_moves(move: Move) -> None:
    before = read_shape("3x0003/22---3")
    after = apply(before, move)
    assert lapsed(before, after) == ((5, MIDDLE),)
    assert after.fret(5) == 0


def test_damping_goes_over_in_an_exchange_and_along_in_a_shift() -> None:
    before = read_shape("3x0003/22---3")
    assert lapsed(before, apply(before, Exchange(INDEX, MIDDLE))) == ()
    assert apply(before, Exchange(INDEX, MIDDLE)).damped == ((5, INDEX),)
    assert apply(before, Shift(2)).damped == before.damped


@given(shapes(), st.sampled_from(list(Finger)), st.integers(1, 14), st.integers(1, 6))
def test_lifting_undoes_placing(shape: Shape, finger: Finger, fret: int, string: int) -> None:
    assume(shape.press_of(finger) is None)
    assume(not any(press.fret == fret and press.covers(string) for press in shape.presses))
    assert apply(apply(shape, Place(finger, fret, string, string)), Lift(finger)) == shape


@given(shapes(), st.sampled_from(list(Finger)))
def test_an_exchange_changes_no_sound_and_undoes_itself(shape: Shape, finger: Finger) -> None:
    assume(shape.fingers and finger not in shape.fingers)
    replaced = shape.fingers[0]
    after = apply(shape, Exchange(finger, replaced))
    assert after.frets == shape.frets
    assert apply(after, Exchange(replaced, finger)) == shape


@given(shapes(), st.integers(1, 8))
def test_a_shift_back_undoes_a_shift(shape: Shape, by: int) -> None:
    assume(shape.presses)
    assert apply(apply(shape, Shift(by)), Shift(-by)) == shape


@given(shapes(), shapes())
def test_moves_lead_from_any_shape_to_any_other(before: Shape, after: Shape) -> None:
    moves = moves_between(before, after)
    assert apply_all(before, moves) == after
    assert bool(moves) == (before != after)


def test_two_fingers_that_change_places_make_room_for_each_other() -> None:
    before, after = read_shape("022000/-23---"), read_shape("022000/-32---")
    lines = [write_move(move, STANDARD) for move in moves_between(before, after)]
    assert lines == ["3 off", "2 to D2", "3 to A2"]
