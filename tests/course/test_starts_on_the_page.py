"""How a start is told to a student: built up in the author's order, or held already from the block before."""

from __future__ import annotations

import pytest
from fingerpost.course.build import build
from fingerpost.course.model import Block
from fingerpost.course.settings import Settings
from fingerpost.render.page import block_html
from fingerpost.source.page import read_page


def _blocks(*starts: str, first_ends: str = "hold") -> tuple[Block, ...]:
    ends = [first_ends, *("hold" for _ in starts)]
    texts = [f"```moves\nid: b{n}\n{start}steps:\n- {ends[n]}\n```\n" for n, start in enumerate(starts)]
    course, found = build((read_page("a.md", "\n".join(texts)).syntax,), Settings())
    assert not found
    return course.lessons[0].blocks


@pytest.mark.parametrize(
    ("start", "order"),
    [
        ("1 G2, 3 B3, 2 e2, strum D-e", ["1 to G2", "3 to B3", "2 to e2"]),
        ("3 E3, 2 A2, 4 e3", ["3 to E3", "2 to A2", "4 to e3"]),
        ("xx0232/---132", ["1 to G2", "2 to e2", "3 to B3"]),
        ("2 G2, 1 B1-e1, strum D-e", ["2 to G2", "1 to B1-e1"]),
        ("open", []),
    ],
)
def test_the_start_is_built_up_as_it_is_written(start: str, order: list[str]) -> None:
    assert [step.move_text for step in _blocks(f"start: {start}\n")[0].build_up] == order


@pytest.mark.parametrize("second", ["start: previous\n", ""])
def test_what_the_hand_holds_is_not_built_up_again(second: str) -> None:
    first, then = _blocks("start: xx0232/---132\n", second)
    assert not first.goes_on
    assert then.goes_on
    assert then.build_up == ()
    assert then.steps[0].shape == first.steps[-1].shape
    assert "Go on from the shape that you hold." in block_html(then)


def test_after_a_rest_it_is_built_up() -> None:
    _, then = _blocks("start: xx0232/---132\n", "start: previous\n", first_ends="rest")
    assert not then.goes_on
    assert len(then.build_up) == 3
