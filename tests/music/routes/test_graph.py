"""The graph of hands is the one of `music.neighbours`: the same moves, at the same cost, and shapes read back."""

from __future__ import annotations

import random

import pytest
from fingerpost.music.fretboard import Fretboard
from fingerpost.music.hand import ChangeCosts, Hand, Limits
from fingerpost.music.move import apply_all
from fingerpost.music.neighbours import neighbours, steps
from fingerpost.music.routes.neck import Neck
from fingerpost.music.routes.route import moves_between
from fingerpost.music.shape import Shape
from fingerpost.music.shape_text import read_shape, write_shape
from fingerpost.music.tuning import parse_tuning
from hypothesis import given, settings

from ..any_shape import playable
from .small_necks import NECKS, by_neck, by_neighbours

STARTS = (
    "x32010/-32-1-",
    "000000",
    "xx0232/---132",
    "133211/134211",
    "x8x988/-1-211",
    "320003/21---3",
    "200232/T--132",
)
WHOLE = Neck()
CHANGED = Neck(
    Fretboard(capo=2, scale_length=600.0),
    Hand(Limits(span_frets=4, thumb_strings=2), change_costs=ChangeCosts(place=0.7, exchange=0.3, travel_mm=0.05)),
)


def wandered(neck: Neck, draw: random.Random) -> Shape:
    """A shape that some moves of one finger lead to."""
    grip = neck.grip(read_shape(draw.choice(STARTS)))
    assert grip is not None
    for _ in range(draw.randrange(12)):
        grip = draw.choice(neck.bare_moves(grip))[0]
    return neck.shape(grip)


@pytest.mark.parametrize("neck", [WHOLE, CHANGED], ids=["whole", "changed"])
def test_moves_and_costs_are_those_of_neighbours(neck: Neck) -> None:
    draw = random.Random(1)
    for _ in range(12):
        shape = wandered(neck, draw)
        grip = neck.grip(shape)
        assert grip is not None
        theirs = {n.shape: round(1000 * n.cost) for n in neighbours(shape, neck.fretboard, neck.hand)}
        assert {neck.shape(after): points for after, points in neck.moves(grip)} == theirs, write_shape(shape)


@pytest.mark.parametrize("unheard", [False, True])
def test_moves_are_those_of_steps(unheard: bool) -> None:
    draw, neck = random.Random(2), Neck(unheard=unheard)
    for _ in range(60):
        shape = wandered(neck, draw)
        grip = neck.grip(shape)
        assert grip is not None
        theirs = {step.shape for step in steps(shape, neck.fretboard, neck.hand, unseen=unheard)}
        assert {neck.shape(after) for after, _ in neck.bare_moves(grip)} == theirs, write_shape(shape)


@pytest.mark.parametrize("name", NECKS)
def test_every_move_on_a_whole_small_neck(name: str) -> None:
    neck = NECKS[name]
    ours, theirs = by_neck(neck), by_neighbours(neck)
    assert {neck.shape(grip) for grip in ours} == set(theirs)
    edges = {(neck.shape(a), neck.shape(b), weight) for a, b, weight in ours.edges(data="weight")}
    assert edges == set(theirs.edges(data="weight"))
    assert len(edges) > 100


def test_the_moves_as_a_course_writes_them_lead_on() -> None:
    draw = random.Random(3)
    for _ in range(20):
        before = wandered(WHOLE, draw)
        grip = WHOLE.grip(before)
        assert grip is not None
        for after, _ in WHOLE.bare_moves(grip):
            assert apply_all(before, moves_between(WHOLE, grip, after)) == WHOLE.shape(after)


@given(playable())
@settings(max_examples=60)
def test_shapes_read_back(shape: Shape) -> None:
    grip = WHOLE.grip(shape)
    assert grip is not None
    assert WHOLE.shape(grip) == shape
    assert WHOLE.frets(grip) == shape.frets
    assert WHOLE.reach(grip) == WHOLE.hand.reach(shape, WHOLE.fretboard)


@pytest.mark.parametrize("text", ["x-13-0-0-0-0/-1----", "300001/1----2", "x22220/-1111-"])
def test_what_is_beyond_the_window_or_the_hand_has_no_grip(text: str) -> None:
    """Fret 13 of twelve; a higher finger on a lower fret; a bar for a hand that bars nothing."""
    bar = text.startswith("x22")
    neck = Neck(hand=Hand(limits=Limits(bar_strings=(1, 1, 1, 1)))) if bar else WHOLE
    assert neck.grip(read_shape(text)) is None


def test_fingers_must_be_known_and_damp_nothing() -> None:
    for text in ("x32010", "3x0003/22---3"):
        with pytest.raises(ValueError, match="which finger presses what"):
            WHOLE.grip(read_shape(text))


def test_a_neck_of_any_number_of_strings() -> None:
    for strings in ("ukulele", "seven strings", "eight strings"):
        board = Fretboard(parse_tuning(strings))
        neck = Neck(board)
        shape = Shape(board.strings)
        grip = neck.grip(shape)
        assert grip is not None
        theirs = {step.shape for step in steps(shape, board, neck.hand)}
        assert {neck.shape(after) for after, _ in neck.bare_moves(grip)} == theirs
