"""A seeded sample of the seeding bench: most slips are told in their place, and nothing where there is none."""

from __future__ import annotations

import random

import pytest
from fingerpost.course.settings import Settings

from .clean import OPTIONS, PREFERRED, REFORMATTED, lessons
from .judging import Judge
from .oracle import contradiction
from .slips import slips
from .tables import rows

SEED = 20261125
PLACES = 24

FLOORS = {
    **{"step left out": 12, "strum changed": 8, "steps swapped": 8, "to made off": 8, "wrong finger": 16},
    **{"cue reversed": 8, "lesson moved": 12, "start: two swapped": 12, "mention misspelt": 12, "fence misspelt": 12},
}
"""Of the kinds that are hardest to tell, so many places each."""

READ_AS_MEANT = "list mark lost"
"""A slip that changes nothing for the student, and is told all the same."""


@pytest.fixture(scope="module")
def judge() -> Judge:
    return Judge(lessons(), Settings.from_mapping(OPTIONS)[0], PREFERRED)


def test_nothing_is_found_on_the_clean_course(judge: Judge) -> None:
    assert judge.found == ()


@pytest.mark.parametrize("name", REFORMATTED)
def test_nothing_is_found_where_the_course_is_only_written_otherwise(judge: Judge, name: str) -> None:
    texts = {file: REFORMATTED[name](text) for file, text in judge.texts.items()}
    assert texts != judge.texts
    _, found = judge.checked(texts)
    assert found == ()


def test_slips_are_told_in_their_place(judge: Judge) -> None:
    chosen = random.Random(SEED).sample(list(slips(judge.texts)), PLACES)
    verdicts = [judge.verdict(slip) for slip in chosen]
    real = [verdict for verdict in verdicts if verdict.changes]
    assert len(real) >= PLACES * 3 // 4
    assert [verdict.slip for verdict in real if verdict.denied and not verdict.line] == [], "\n".join(rows(verdicts))


@pytest.mark.parametrize("kind", FLOORS)
def test_slips_of_the_hard_kinds_are_told_in_their_place(judge: Judge, kind: str) -> None:
    of_kind = [slip for slip in slips(judge.texts) if slip.kind == kind]
    verdicts = [judge.verdict(slip) for slip in random.Random(SEED).sample(of_kind, FLOORS[kind])]
    denied = [verdict for verdict in verdicts if verdict.changes and verdict.denied]
    assert len(denied) >= FLOORS[kind] // 2
    assert all(verdict.caught for verdict in denied)
    assert sum(verdict.line for verdict in denied) >= len(denied) - 1, "\n".join(rows(verdicts))


def test_a_step_without_its_list_mark_is_read_as_it_was_meant_and_told(judge: Judge) -> None:
    of_kind = [slip for slip in slips(judge.texts) if slip.kind == READ_AS_MEANT]
    verdicts = [judge.verdict(slip) for slip in random.Random(SEED).sample(of_kind, 8)]
    assert not any(verdict.changes for verdict in verdicts)
    assert all(verdict.line for verdict in verdicts), "\n".join(rows(verdicts))


def test_the_oracle_finds_no_contradiction_where_there_is_none(judge: Judge) -> None:
    assert contradiction(judge.texts, PREFERRED) == ""


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("- 3 off = Am7", "- 3 off = Am"),
        ("- 3 off = Am7", "- 4 off = Am7"),
        ("- 3 to G2 = Am", "- 1 to G2 = Am"),
        ("teaches: [Am, Am7]", "teaches: [Am]"),
        ("teaches: [Am, Am7]", "teaches: [Am, Am7, A7]"),
        ("`now: Am`", "`now: Am7`"),
        ("start: 2 D2, 3 G2, 1 B1 = Am", "start: 2 D2, 3 G2, 1 B3 = Am"),
        ("strum: A-e", "strum: A-e\nsturm: A-e"),
    ],
)
def test_the_oracle_finds_what_the_text_denies(old: str, new: str) -> None:
    block = (
        "id: a\nstrum: A-e\nstart: 2 D2, 3 G2, 1 B1 = Am\nteaches: [Am, Am7]\nsteps:\n- 3 off = Am7\n- 3 to G2 = Am\n"
    )
    text = f"```moves\n{block}```\n\nYou hold `now: Am`.\n"
    assert contradiction({"p.md": text}) == ""
    assert contradiction({"p.md": text.replace(old, new)}) != ""


def test_every_kind_has_places() -> None:
    assert len({slip.kind for slip in slips(lessons())}) >= 34
    assert {slip.kind for slip in slips(lessons())} >= {READ_AS_MEANT, *FLOORS}


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("```moves", "```move"),
        ("```moves", "```"),
        ("```moves", "``moves"),
        ("- 3 off", "3 off"),
        ("- 3 off", "* 3 off"),
        ("`now: Am`", "`Now: Am`"),
        ("`now: Am`", "`now:Am`"),
        ("`now: Am`", "`onw: Am`"),
        ("@0:41", "@9:59"),
        ("@0:54", "@0:01"),
    ],
)
def test_the_oracle_finds_slips_around_the_moves(old: str, new: str) -> None:
    block = (
        "id: a\nstart: 2 D2, 3 G2, 1 B1 = Am\nteaches: [Am, Am7]\nsteps:\n- 3 off = Am7 @0:41\n- 3 to G2 = Am @0:54\n"
    )
    text = f"```moves\n{block}```\n\nYou hold `now: Am`, and `chords` are no mention.\n"
    assert contradiction({"p.md": text}) == ""
    assert contradiction({"p.md": text.replace(old, new)}) != ""


def test_the_oracle_reads_the_pages_in_the_order_in_which_they_come() -> None:
    block = "```moves\nid: {}\nstart: 2 D2, 3 G2, 1 B1 = Am\nteaches: [{}]\nsteps:\n- 3 off = Am7\n```\n"
    one, two = block.format("one", "Am, Am7"), block.format("two", "Am")
    assert contradiction({"one.md": one, "two.md": two}) == ""
    assert contradiction({"two.md": two, "one.md": one}) != ""
