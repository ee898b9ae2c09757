"""Neighbours: one finger away, within the limits, complete, in a fixed order, and there is a way back."""

from __future__ import annotations

import itertools

import pytest
from fingerpost.music.fretboard import Fretboard
from fingerpost.music.hand import Hand, Limits
from fingerpost.music.move import ImpossibleMove, Place, apply, apply_all
from fingerpost.music.neighbours import Step, neighbours, steps
from fingerpost.music.shape import Finger, Shape
from fingerpost.music.shape_text import read_shape, write_shape
from fingerpost.music.transition import MoveKind, transition
from hypothesis import given, settings

from .any_shape import HAND, NECK, playable


@given(playable())
@settings(max_examples=25)
def test_each_is_one_finger_away_and_within_the_limits(shape: Shape) -> None:
    found = neighbours(shape, NECK, HAND)
    for neighbour in found:
        change = transition(shape, neighbour.shape, NECK)
        assert change.finger_count == 1
        assert change.moves[0].kind == neighbour.kind
        assert HAND.faults(neighbour.shape, NECK) == ()
        assert neighbour.cost > 0
    assert [(n.cost, n.move_text) for n in found] == sorted((n.cost, n.move_text) for n in found)
    assert len({n.move_text for n in found}) == len(found)
    assert len({n.shape for n in found}) == len(found)


@given(playable())
@settings(max_examples=25)
def test_the_move_leads_to_the_shape(shape: Shape) -> None:
    for step in steps(shape, NECK, HAND, unseen=True):
        assert apply_all(shape, [move for move in (step.move, step.strum) if move is not None]) == step.shape


@given(playable())
@settings(max_examples=10)
def test_none_is_forgotten(shape: Shape) -> None:
    """Every place on the neck is tried, and what the hand can hold must be among the steps."""
    found = {step.shape for step in steps(shape, NECK, HAND, highest_fret=6, unseen=True)}
    for finger, fret, low, high in itertools.product(Finger, range(1, 7), range(1, 7), range(1, 7)):
        if high > low:
            continue
        after = _applied(shape, Place(finger, fret, low, high))
        if after is not None and HAND.faults(after, NECK) == () and _shows_its_ends(after, finger):
            struck = after if low != high else Shape(6, after.presses, after.unstruck - {low})
            assert struck in found


def _applied(shape: Shape, move: Place) -> Shape | None:
    try:
        return apply(shape, move)
    except ImpossibleMove:
        return None


def _shows_its_ends(shape: Shape, finger: Finger) -> bool:
    press = shape.press_of(finger)
    assert press is not None
    return not press.is_bar or all(
        shape.fret(end) is not None and shape.sounding_press(end) == press for end in (press.low, press.high)
    )


@given(playable())
@settings(max_examples=10)
def test_there_is_a_way_back(shape: Shape) -> None:
    for step in itertools.islice(steps(shape, NECK, HAND, unseen=True), 0, None, 29):
        if step.strum is None and _plain(shape) and _plain(step.shape):
            back = {other.shape for other in steps(step.shape, NECK, HAND, highest_fret=14, unseen=True)}
            assert shape in back


def _plain(shape: Shape) -> bool:
    """Whether the first two parts of its text show all of it."""
    return write_shape(shape) == write_shape(shape, hidden=False)


# Common practice: what one finger makes of the first chords.
KNOWN = [
    ("x32010/-32-1-", "1 off", MoveKind.LIFT, "x32000/-32---"),
    ("x32010/-32-1-", "3 to G2", MoveKind.CROSS, "x02210/--231-"),
    ("x32010/-32-1-", "4 to G3", MoveKind.PLACE, "x32310/-3241-"),
    ("022000/-23---", "1 to G1", MoveKind.PLACE, "022100/-231--"),
    ("133211/134211", "2 off", MoveKind.LIFT, "133111/134111"),
    ("133211/134211", "1 to e1", MoveKind.HINGE, "033201/-342-1"),
    ("033200/-342--", "1 to E1-e1", MoveKind.BAR, "133211/134211"),
    ("xx0232/---132", "4 to A2, strum A-e", MoveKind.PLACE, None),
    ("022000/-23---", "1 for 2", MoveKind.EXCHANGE, "022000/-13---"),
    ("x02220/--123-", "3 to B3", MoveKind.SLIDE, "x02230/--123-"),
]


@pytest.mark.parametrize(("text", "line", "kind", "after"), KNOWN)
def test_well_known_neighbours(text: str, line: str, kind: MoveKind, after: str | None) -> None:
    found = {n.move_text: n for n in neighbours(read_shape(text), NECK, HAND)}
    if after is None:
        assert line not in found  # finger 4 would be behind finger 3
    else:
        assert found[line].kind is kind
        assert write_shape(found[line].shape) == after


def test_a_string_that_was_not_struck_is_struck_with_its_new_finger() -> None:
    found = {n.move_text: n.shape for n in neighbours(read_shape("x32010/-32-1-"), NECK, HAND)}
    assert write_shape(found["4 to E3, strum E-e"]) == "332010/432-1-"


def test_unseen_moves_are_there_when_asked_for() -> None:
    shape = read_shape("x32030/-32-4-")
    seen, unseen = ({step.move for step in steps(shape, NECK, HAND, unseen=flag)} for flag in (False, True))
    behind = Place(Finger.INDEX, 1, 2, 2)
    assert behind not in seen
    assert behind in unseen
    assert seen < unseen


def test_the_limits_decide() -> None:
    small = Hand(limits=Limits(fingers=(1, 2), thumb_strings=0, bar_strings=(1, 1, 1, 1), span_frets=1))
    found: list[Step] = list(steps(read_shape("020000/-1----"), NECK, small))
    moves = [step.move for step in found if isinstance(step.move, Place) and step.move.finger is Finger.MIDDLE]
    assert {move.fret for move in moves} == {2, 3}
    assert all(move.low == move.high for move in moves)


def test_the_neck_ends_above_the_capo() -> None:
    board = Fretboard(frets=14, capo=4)
    frets = {step.move.fret for step in steps(read_shape("000000"), board, HAND) if isinstance(step.move, Place)}
    assert frets == set(range(1, 11))


def test_fingers_must_be_known() -> None:
    with pytest.raises(ValueError, match="which finger presses what"):
        neighbours(read_shape("x32010"), NECK, HAND)
