"""A tuning or a strum that is lost, wrong or can't be read: one finding, where it stands or should stand."""

from __future__ import annotations

import pytest
from fingerpost.course.acceptance import settle

from .read_course import course

WATCH = (
    "start: open = Dsus4\nteaches: [Dsus4, D5]\nsteps:\n- 2 to 3:2 = D5\n- 2 off = Dsus4\n"
    "- 3 to 3:2 = D5\n- 3 off = Dsus4\n"
)
READING = (
    "start: 1 G2, 3 B3, 2 e2 = D\nteaches: [D, Dsus2, Dsus4]\nsteps:\n- 2 off = Dsus2\n- 2 to e2 = D\n"
    "- 4 to e3 = Dsus4\n- 4 off = D\n"
)


def page(*blocks: str) -> str:
    """Blocks that have ids a, b and so on."""
    return "\n".join(f"```moves\nid: {name}\n{block}```\n" for name, block in zip("abc", blocks, strict=False))


def said(text: str) -> list[tuple[int, str, str]]:
    """Of each finding its line, the words that it stands at, and its fix."""
    _, found = course(text)
    lines = text.split("\n")
    return [
        (f.span.line, lines[f.span.line - 1][f.span.column - 1 : f.span.end_column - 1], f.fix)
        for f in settle(found, ()).standing
        if str(f.code) not in ("taught-but-not-used", "used-before-taught")
    ]


def test_the_right_keys_are_no_slip() -> None:
    assert said(page("tuning: DADGAD\n" + WATCH)) == []
    assert said(page("strum: D-e\n" + READING)) == []


@pytest.mark.parametrize("tuning", ["DADGBE", "standard", "drop D", "open G"])
def test_a_wrong_tuning_is_the_one_finding(tuning: str) -> None:
    assert said(page(f"tuning: {tuning}\n{WATCH}")) == [(3, tuning, "DADGAD")]


def test_a_tuning_left_out_is_missed_above_the_start() -> None:
    assert said(page(WATCH)) == [(3, "open = Dsus4", "Write `tuning: DADGAD` above this line.")]


def test_a_tuning_left_out_is_taken_as_the_other_blocks_write_it() -> None:
    other = "start: open\nsteps:\n- 2 to 3:2\n"
    for own in ("drop D", "D2 A2 D3 G3 B3 E4"):
        lost = said(page(WATCH, f"tuning: DADGAD\n{other}", f"tuning: {own}\n{other}"))
        assert lost == [(3, "open = Dsus4", "Write `tuning: DADGAD` above this line.")]
    pitches = "D2 A2 D3 G3 A3 D4"
    lost = said(page(WATCH, f"tuning: {pitches}\n{other}"))
    assert lost == [(3, "open = Dsus4", f"Write `tuning: {pitches}` above this line.")]


def test_one_name_alone_does_not_tell_of_another_tuning() -> None:
    block = "start: 2 D2, 3 G2, 1 B1, strum A-e = Am\nteaches: [Am, C]\nsteps:\n- 3 to A3 = C\n- 3 to G2 = F\n"
    assert "tuning" not in " ".join(fix for _, _, fix in said(page(block)))


def test_a_strum_left_out_is_missed_above_the_start() -> None:
    assert said(page(READING)) == [(3, "1 G2, 3 B3, 2 e2 = D", "Write `strum: D-e` above this line.")]


@pytest.mark.parametrize(
    ("strum", "words", "fix"), [("d-e", "d", "D"), ("X-e", "X", "D-e"), ("zz", "zz", "D-e"), ("D-E", "", "")]
)
def test_a_strum_that_cannot_be_read_is_the_one_finding(strum: str, words: str, fix: str) -> None:
    if words:
        assert said(page(f"strum: {strum}\n{READING}")) == [(3, words, fix)]
    else:
        assert len(said(page(f"strum: {strum}\n{READING}"))) == 1


def test_where_nothing_tells_what_is_struck_no_name_is_held_against_the_sound() -> None:
    block = READING.replace(" = D\nteaches", "\nteaches")
    assert said(page(f"strum: zz\n{block}")) == [(3, "zz", "")]


def test_a_strum_of_the_steps_ends_the_doubt_about_what_is_struck() -> None:
    block = READING.replace(" = D\nteaches", "\nteaches") + "- strum D-e = D\n- 4 to e3 = A\n"
    assert [(line, words) for line, words, _ in said(page(f"strum: zz\n{block}"))] == [(3, "zz"), (12, "A")]


ROUND = (
    "start: 2 D2, 3 G2, 1 B1 = Am\nteaches: [Am, Am7, Asus2]\nsteps:\n- 3 off = Am7\n- 3 to G2 = Am\n"
    "- 1 off = Asus2\n- 1 to B1 = Am\n"
)
FOG = "start: 2 A2, 3 D2, 1 G1 = E\nteaches: [E, Esus4]\nsteps:\n- 4 to G2 = Esus4\n- 4 off = E\n"


def test_a_strum_whose_loss_only_another_blocks_name_tells_is_missed_where_it_was() -> None:
    assert said(page("strum: A-e\n" + ROUND, FOG)) == []
    lost = [(3, "2 D2, 3 G2, 1 B1 = Am", "Write `strum: A-e` above this line.")]
    assert said(page(ROUND, FOG)) == lost
    assert [said_of[1:] for said_of in said(page(FOG, ROUND))] == [said_of[1:] for said_of in lost]


def test_a_strum_lost_is_told_once_where_a_later_block_misses_it_too() -> None:
    door = "start: as taught Am\nteaches: [Am7/G]\nsteps:\n- 4 to E3, strum E-e = Am7/G\n- 4 off, strum A-e = Am\n"
    assert said(page("strum: A-e\n" + ROUND, door, FOG)) == []
    assert said(page(ROUND, door, FOG)) == [(3, "2 D2, 3 G2, 1 B1 = Am", "Write `strum: A-e` above this line.")]
