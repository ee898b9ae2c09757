"""A lesson stays light: at most 60 KB compressed, styles and scripts included (design, budgets). Bytes, not time."""

from __future__ import annotations

from pathlib import Path

from .weight import weigh

BUDGET = 60_000


def test_every_lesson_is_within_the_budget(demo: Path, lessons: list[str]) -> None:
    weights = {lesson: weigh(demo / lesson / "index.html") for lesson in lessons}
    assert all(weight.styles and weight.scripts for weight in weights.values())
    assert {lesson: weight.all for lesson, weight in weights.items() if weight.all > BUDGET} == {}


def test_every_script_that_is_imported_is_counted(demo: Path, lessons: list[str]) -> None:
    scripts = weigh(demo / lessons[0] / "index.html").scripts
    every = sum(len(file.read_bytes()) for file in (demo / "js").glob("*.js"))
    assert 0.2 * every < scripts < every
