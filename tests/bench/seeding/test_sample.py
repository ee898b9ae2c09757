"""A seeded sample of the seeding bench: most slips are told in their place, and nothing where there is none."""

from __future__ import annotations

import random

import pytest
from fingerpost.course.settings import Settings

from .clean import OPTIONS, REFORMATTED, lessons
from .judging import Judge
from .slips import slips
from .tables import rows

SEED = 20261125
PLACES = 24


@pytest.fixture(scope="module")
def judge() -> Judge:
    return Judge(lessons(), Settings.from_mapping(OPTIONS)[0])


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
    assert sum(verdict.line for verdict in real) >= len(real) - 2, "\n".join(rows(verdicts))


def test_every_kind_has_places() -> None:
    assert len({slip.kind for slip in slips(lessons())}) >= 22
