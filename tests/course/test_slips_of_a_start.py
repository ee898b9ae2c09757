"""One slip in the fingers of a start, or words too many in a step: one finding, at those words, with what was meant."""

from __future__ import annotations

import pytest

from .read_course import course

AM = "start: {}\nteaches: [Am, Am7, C]\nsteps:\n- 3 to A3 = C\n- 3 off = Am7\n- 3 to G2 = Am\n"
D = (
    "strum: D-e\nstart: {}\nteaches: [D, Dsus2, Dsus4, Dadd11]\nsteps:\n- 2 off = Dsus2\n- 2 to e2 = D\n"
    "- 4 to e3 = Dsus4\n- 4 off = D\n- 1 off = Dadd11\n- 1 to G2 = D\n"
)
G = "start: {}\nteaches: [G, G6, G7]\nsteps:\n- 4 off = G6\n- 1 to e1 = G7\n- 1 off\n- 4 to e3 = G\n"


def said(block: str) -> list[tuple[str, str, str]]:
    """Of each finding the words that it stands at, in a course of this one block, its line and its fix."""
    text = f"```moves\nid: a\n{block}```\n"
    _, found = course(text)
    lines = text.split("\n")
    return [(lines[f.span.line - 1][f.span.column - 1 : f.span.end_column - 1], str(f.code), f.fix) for f in found]


@pytest.mark.parametrize(
    ("block", "right", "start", "words", "fix"),
    [
        (AM, "2 D2, 3 G2, 1 B1, strum A-e = Am", "3 D2, 2 G2, 1 B1, strum A-e = Am", "3 D2, 2 G2", "2 D2, 3 G2"),
        (AM, "2 D2, 3 G2, 1 B1, strum A-e = Am", "2 D2, 1 G2, 3 B1, strum A-e = Am", "1 G2, 3 B1", "3 G2, 1 B1"),
        (AM, "x02210/--231-", "x02210/--321- = Am", "x02210/--321-", "x02210/--231-"),
        (D, "1 G2, 3 B3, 2 e2 = D", "2 G2, 3 B3, 1 e2 = D", "2 G2, 3 B3, 1 e2", "1 G2, 3 B3, 2 e2"),
        # no hand can hold this one
        (D, "1 G2, 3 B3, 2 e2 = D", "3 G2, 1 B3, 2 e2 = D", "3 G2, 1 B3", "1 G2, 3 B3"),
        (D, "1 3:2, 3 2:3, 2 1:2 = D", "1 3:2, 2 2:3, 3 1:2 = D", "2 2:3, 3 1:2", "3 2:3, 2 1:2"),
    ],
)
def test_two_fingers_of_a_start_exchanged_are_one_finding(
    block: str, right: str, start: str, words: str, fix: str
) -> None:
    assert said(block.format(right)) == []
    assert [(at, way) for at, _, way in said(block.format(start))] == [(words, fix)]


@pytest.mark.parametrize(
    ("block", "right", "start", "words", "fix"),
    [
        (AM, "2 D2, 3 G2, 1 B1, strum A-e = Am", "2 D2, 3 G2, strum A-e = Am", "3 G2", "3 G2, 1 B1"),
        (AM, "2 D2, 3 G2, 1 B1, strum A-e = Am", "2 D2, 1 B1, strum A-e = Am", "1 B1", "1 B1, 3 G2"),
        (D, "1 G2, 3 B3, 2 e2 = D", "1 G2, 3 B3 = D", "3 B3", "3 B3, 2 e2"),
        (G, "3 E3, 2 A2, 4 e3 = G", "3 E3, 4 e3 = G", "4 e3", "4 e3, 2 A2"),
        (G, "3 E3, 2 A2, 4 e3 = G", "3 E3, 2 A2 = G", "2 A2", "2 A2, 4 e3"),
    ],
)
def test_a_finger_left_out_of_a_start_is_one_finding(block: str, right: str, start: str, words: str, fix: str) -> None:
    assert said(block.format(right)) == []
    assert said(block.format(start)) == [(words, "name-is-wrong", fix)]


@pytest.mark.parametrize(
    ("line", "words", "fix"),
    [
        ("- 3 to A3, strum A-e = C", "strum A-e", "3 to A3 = C"),
        ("- strum A-e, 3 to A3 = C", "strum A-e", "3 to A3 = C"),
        ("- 3 to A3 = C, strum A-e", "strum A-e", "3 to A3 = C"),
        ("- move: 3 to A3, strum A-e\n  name: C", "strum A-e", "3 to A3"),
    ],
)
def test_words_of_a_strum_that_change_nothing_are_the_slip_themselves(line: str, words: str, fix: str) -> None:
    block = AM.format("2 D2, 3 G2, 1 B1, strum A-e = Am").replace("- 3 to A3 = C", line)
    assert said(block) == [(words, "impossible-move", fix)]
