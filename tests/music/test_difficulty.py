"""Difficulty of a change: its parts, their order, and that each answers to its own cost."""

from __future__ import annotations

import dataclasses
from typing import Any

import pytest
from fingerpost.music.difficulty import difficulty
from fingerpost.music.fretboard import Fretboard
from fingerpost.music.hand import ChangeCosts, Hand
from fingerpost.music.shape import Shape
from fingerpost.music.shape_text import read_shape
from fingerpost.music.transition import transition
from hypothesis import given

from .any_shape import HAND, NECK, playable


def _points(before: str, after: str, hand: Hand = HAND, neck: Fretboard = NECK) -> dict[str, float]:
    return dict(difficulty(transition(read_shape(before), read_shape(after), neck), neck, hand).parts)


PARTS = [
    ("022000/-23---", "022100/-231--", {"place"}),
    ("022100/-231--", "022000/-23---", {"lift"}),
    ("x32010/-32-1-", "x32020/-32-1-", {"travel"}),
    ("x32010/-32-1-", "x02210/--231-", {"place", "lift", "travel", "crossing", "weak finger"}),
    ("133211/134211", "033201/-342-1", {"hinge"}),
    ("133211/134211", "033200/-342--", {"lift"}),
    ("022000/-23---", "022000/-13---", {"exchange"}),
    ("300003/2----3", "3x0003/22---3", {"damping", "weak finger"}),
    ("022000/-23---", "x22000/-23---", {"strum"}),
    ("022000/-23---", "022000/-23---", set()),
]


@pytest.mark.parametrize(("before", "after", "names"), PARTS)
def test_parts_name_what_makes_a_change_hard(before: str, after: str, names: set[str]) -> None:
    assert names <= set(_points(before, after)) <= names | {"stretch", "weak finger"}


def test_a_bar_from_the_air_is_harder_than_a_single_finger() -> None:
    bar = _points("033200/-342--", "133211/134211")
    single = _points("033200/-342--", "133200/1342--")
    assert bar["bar"] == pytest.approx(1.5 + 4 * 0.2)  # six strings, four beyond the second
    assert sum(bar.values()) > sum(single.values())


def test_fingers_that_move_together_cost_more_where_none_stays() -> None:
    guided, unguided = _points("x32010/-32-1-", "x32310/-3241-"), _points("320003/21---3", "xx0232/---132")
    assert "unguided" not in guided
    assert unguided["together"] == pytest.approx(1.6)
    assert unguided["unguided"] == pytest.approx(0.5)


def test_travel_is_in_millimetres_at_the_true_frets() -> None:
    near = _points("010000/-1----", "040000/-1----")
    far = _points("010000/-1----", "040000/-1----", neck=Fretboard(capo=7))
    assert near["travel"] == pytest.approx(0.6 * 0.015 * (133.68 - 36.37), abs=0.001)  # distances of standards.md
    assert far["travel"] < near["travel"]


@pytest.mark.parametrize("name", [field.name for field in dataclasses.fields(ChangeCosts)])
def test_every_cost_counts_in_some_change(name: str) -> None:
    value = getattr(ChangeCosts(), name)
    dearer: Any = tuple(v + 1 for v in value) if isinstance(value, tuple) else value + 1
    hand = Hand(change_costs=dataclasses.replace(ChangeCosts(), **{name: dearer}))
    changes = [(before, after) for before, after, _ in PARTS] + [
        ("033200/-342--", "133211/134211"),
        ("320003/21---3", "xx0232/---132"),
        ("022000/-23---", "322000/T23---"),
        ("001000/--1---", "001003/--1--4"),
    ]
    assert any(_points(*change, hand) != _points(*change) for change in changes)


@given(playable(), playable())
def test_the_total_is_the_sum_of_parts_none_of_which_is_nothing(before: Shape, after: Shape) -> None:
    found = difficulty(transition(before, after, NECK), NECK, HAND)
    assert found.total == pytest.approx(sum(points for _, points in found.parts), abs=0.001)
    assert all(points > 0 for _, points in found.parts)
    assert (found.total == 0) == (before == after)
    assert found.part("no such part") == 0.0
