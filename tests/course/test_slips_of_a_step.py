"""One slip in the words of a step, another than a wrong word: one finding, at those words, with what was meant."""

from __future__ import annotations

import pytest

from .read_course import course

AM = (
    "start: 2 D2, 3 G2, 1 B1, strum A-e = Am\nteaches: [Am, C, Cmaj7]\nsteps:\n- 3 to 5:3 = C\n- 1 off = Cmaj7\n"
    "- 1 to 2:1 = C\n- 3 to G2 = Am\n"
)


def said(block: str) -> list[tuple[str, str]]:
    """Of each finding the words that it stands at, in a course of this one block, and its fix."""
    text = f"```moves\nid: a\n{block}```\n"
    _, found = course(text)
    lines = text.split("\n")
    return [(lines[f.span.line - 1][f.span.column - 1 : f.span.end_column - 1], f.fix) for f in found]


@pytest.mark.parametrize(
    ("line", "slip", "words", "fix"),
    [
        ("3 to 5:3", "3 to 3:5", "3:5", "3 to A3"),
        ("1 to 2:1", "1 to 1:2", "1:2", "1 to B1"),
        ("3 to 5:3", "mute 6 by 3", "mute 6 by 3", "3 to A3"),
        ("3 to 5:3", "mute 1 by 3", "mute 1 by 3", "3 to A3"),
    ],
)
def test_a_place_turned_round_and_a_damping_for_a_placement_are_one_finding(
    line: str, slip: str, words: str, fix: str
) -> None:
    assert said(AM) == []
    assert said(AM.replace(line, slip)) == [(words, fix)]


def test_where_a_step_above_has_the_wrong_strum_the_words_below_are_not_the_slip() -> None:
    block = (
        "start: 2 D2, 3 G2, 1 B1, strum A-e = Am\nteaches: [Am, Fmaj7]\nsteps:\n- 3 to D3, strum {} = Fmaj7\n"
        "- 2 to G2\n- 3 off\n- 2 to D2, strum A-e\n- 3 to G2 = Am\n"
    )
    right = [fix for words, fix in said(block.format("D-e")) if words.startswith("strum")]
    assert right == []
    assert "strum A-e" not in [words for words, _ in said(block.format("E-e"))]


@pytest.mark.parametrize(
    ("line", "words"),
    [
        ("T to D7 and strum all", "T to D7"),
        ("T to D7, strum all", "T to D7"),
        ("strum all and T to D7", "T to D7"),
        ("strum all, T to D7", "T to D7"),
    ],
)
def test_words_too_many_go_with_what_joins_them_to_the_others(line: str, words: str) -> None:
    start = "start: x02210/--231- = Am\nteaches: [Am, Am7]\nsteps:\n"
    assert said(f"{start}- {line}\n- 3 off = Am7\n")[0] == (words, "strum all")
