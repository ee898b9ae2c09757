"""The ways back of a block: those that its steps do not show, and the round from the last shape to the first."""

from __future__ import annotations

import re

import pytest
from fingerpost.course.build import build
from fingerpost.course.settings import Settings
from fingerpost.render.page import block_html
from fingerpost.source.page import read_page


def _ways(*moves: str) -> list[str]:
    """The titles of the ways back of a block that starts from D."""
    steps = "".join(f"- {move}\n" for move in moves)
    text = f"```moves\nid: a\nstart: xx0232/---132 = D\nsteps:\n{steps}```\n"
    course, found = build((read_page("a.md", text).syntax,), Settings())
    assert not found
    page = block_html(course.lessons[0].blocks[0]).partition('<section class="fp-back">')[2].partition("</section>")[0]
    return [re.sub(r"<[^>]+>", "", title) for title in re.findall(r"<b>(.*?)</b>", page)]


@pytest.mark.parametrize(
    ("moves", "ways"),
    [
        (["2 off", "2 to e2"], []),
        (["2 off"], ["Back from Dsus2 to D"]),
        (["2 off", "2 to e2", "2 off"], ["Round again from Dsus2 to D"]),
        (["4 to e3", "4 off", "3 off"], ["Back from D6 to D"]),
        (["2 off", "3 off"], ["Back from Dsus2 to D", "Back from E7sus4 to Dsus2", "Round again from E7sus4 to D"]),
        (["hold"], []),
    ],
)
def test_what_the_steps_show_is_not_shown_again(moves: list[str], ways: list[str]) -> None:
    assert _ways(*moves) == ways
