"""Two fingers in one step move in one moment: the order in which they are written makes no difference."""

from __future__ import annotations

from itertools import permutations

import pytest
from fingerpost.course.build import build
from fingerpost.course.settings import Settings
from fingerpost.diagnostics import Code
from fingerpost.music.shape_text import write_shape
from fingerpost.source.page import read_page


def _after(start: str, line: str) -> tuple[str, list[Code]]:
    text = f"```moves\nid: a\nfingers_per_step: 4\nstart: {start}\nsteps:\n- {line}\n```\n"
    course, found = build((read_page("a.md", text).syntax,), Settings())
    blocks = course.lessons[0].blocks
    return (write_shape(blocks[0].steps[-1].shape) if blocks else ""), [finding.code for finding in found]


@pytest.mark.parametrize(
    ("start", "moves", "after"),
    [
        ("022000/-12---", ("2 to A3", "1 to D2"), "032000/-21---"),
        ("022000/-12---", ("1 to D2", "2 to A2"), "022000/-21---"),
        ("022000/-12---", ("1 to D2", "2 off"), "002000/--1---"),
        ("022100/-231--", ("2 to D2", "3 to G2", "1 to B1"), "002210/--231-"),
    ],
)
def test_the_order_makes_no_difference(start: str, moves: tuple[str, ...], after: str) -> None:
    for order in permutations(moves):
        shape, found = _after(start, " and ".join(order))
        assert shape == after
        assert not [code for code in found if code is not Code.NO_SOUND_CHANGES]


def test_a_finger_that_stays_is_still_in_the_way() -> None:
    assert Code.IMPOSSIBLE_HAND in _after("022000/-12---", "1 to D2 and 3 to G2")[1]
