"""A name that `teaches` misspells, or that `ties` decides against, is one finding, at that name."""

from __future__ import annotations

from .read_course import course

DOOR = (
    "```moves\nid: door\nstart: 2 D2, 3 G2, 1 B1, strum A-e = Am\nteaches: [{}]\nsteps:\n- 3 off {}\n"
    "- 4 to E3, strum E-e = {}\n```\n"
)
TIES = {"ties": ["Am7 not C6"]}


def said(text: str) -> list[tuple[str, str]]:
    """Of each finding the words that it stands at, and its code."""
    _, found = course(text, options=TIES)
    lines = text.split("\n")
    return [(lines[f.span.line - 1][f.span.column - 1 : f.span.end_column - 1], str(f.code)) for f in found]


def test_the_door_is_clean() -> None:
    assert said(DOOR.format("Am, Am7, Am7/G", "= Am7", "Am7/G")) == []


def test_a_chord_that_only_teaches_calls_otherwise_is_told_there_alone() -> None:
    assert said(DOOR.format("Am, Am6, Am7/G", "= Am7", "Am7/G")) == [("Am6", "taught-but-not-used")]


def test_a_near_name_that_may_itself_be_the_slip_is_told_too() -> None:
    found = said(DOOR.format("Am, Am6, Am7/G", "~ Am9", "Am7/G"))
    assert ("Am9", "used-before-taught") in found
    assert ("Am6", "taught-but-not-used") in found


def test_a_name_that_ties_decides_against_counts_as_the_one_decided_for() -> None:
    assert said(DOOR.format("Am, Am7, Am7/G", "= Am7", "C6/G")) == [("C6/G", "tie-decided-otherwise")]


def test_where_teaches_has_that_name_too_the_name_alone_is_told() -> None:
    assert said(DOOR.format("Am, Am7, C6/G", "= Am7", "C6/G")) == [("C6/G", "tie-decided-otherwise")]
