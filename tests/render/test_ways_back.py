"""The ways back of a block: those that its steps do not show, and the round from the last shape to the first."""

from __future__ import annotations

import re

import pytest
from fingerpost.course.build import build
from fingerpost.course.settings import Settings
from fingerpost.render.page import block_html
from fingerpost.source.page import read_page


def _section(*moves: str, keys: str = "") -> str:
    """The section of ways back of a block that starts from D."""
    steps = "".join(f"- {move}\n" for move in moves)
    text = f"```moves\nid: a\nstart: xx0232/---132 = D\n{keys}steps:\n{steps}```\n"
    course, found = build((read_page("a.md", text).syntax,), Settings())
    assert not found
    return block_html(course.lessons[0].blocks[0]).partition('<section class="fp-back">')[2].partition("</section>")[0]


def _titles(part: str) -> list[str]:
    return [re.sub(r"<[^>]+>", "", title) for title in re.findall(r"<b>(.*?)</b>", part)]


def _folded(section: str) -> tuple[str, str, str]:
    """What stands before the fold, the line it is folded behind, and what is in it."""
    before, _, rest = section.partition('<details class="fp-ways-folded">')
    line, _, inside = rest.partition("</summary>")
    return before, line.removeprefix("<summary>"), inside.partition("</details>")[0]


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
    assert sorted(_titles(_section(*moves))) == sorted(ways)


def test_what_undoes_one_finger_is_folded_and_the_rest_is_seen_at_once() -> None:
    """From D by lifts to open strings: each way back sets one finger down, the way round sets down all three."""
    before, line, inside = _folded(_section("2 off", "3 off", "1 off"))
    assert _titles(before) == ["Round again from Em/D to D"]
    assert "takes three fingers" in before
    assert line == "Three ways back, one finger each"
    assert _titles(inside) == ["Back from Dsus2 to D", "Back from E7sus4 to Dsus2", "Back from Em/D to E7sus4"]
    assert inside.count('data-fingers="1"') == inside.count("<svg") == 3


def test_a_way_back_of_two_fingers_is_never_folded() -> None:
    before, line, inside = _folded(
        _section("2 off", "4 to e3 and 1 off", "4 off", "3 off", keys="fingers_per_step: 2\n")
    )
    assert 'data-fingers="2"' in before
    assert line == "Three ways back, one finger each"
    assert 'data-fingers="2"' not in inside


def test_a_change_of_strings_alone_is_folded_and_moves_no_finger() -> None:
    before, line, inside = _folded(_section("2 off", "strum D-B"))
    assert "Round again" in before
    assert line == "Two ways back, one finger each or none"
    assert "no finger moves" in inside


def test_one_way_alone_is_not_folded() -> None:
    assert "<details" not in _section("2 off")
