"""The same course under every theme it must work with, and under MkDocs' maintained successor."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

from .building import PAGES, Course
from .markup import read

PROGRAMS = {"mkdocs": "mkdocs", "properdocs": "properdocs"}
# The successor ships no theme of its own; ours and the general-purpose one are found by their entry points.
CASES = [
    *(("mkdocs", theme) for theme in ("fingerpost", "mkdocs", "readthedocs", "material")),
    *(("properdocs", theme) for theme in ("fingerpost", "material")),
]


def built(program: str, course: Course, site: str = "site") -> subprocess.CompletedProcess[str]:
    """Builds strictly in a process of its own."""
    # A notice of the theme's makers about the future of their generator is no word about this course.
    env = {
        **os.environ,
        "SOURCE_DATE_EPOCH": "1700000000",
        "NO_MKDOCS_2_WARNING": "1",
        "DISABLE_MKDOCS_2_WARNING": "true",
    }
    command = [sys.executable, "-m", PROGRAMS[program], "build", "--strict", "-d", site]
    return subprocess.run(command, cwd=course.folder, env=env, capture_output=True, text=True, check=False)


@pytest.fixture(params=CASES, ids=lambda case: f"{case[0]}-{case[1]}")
def case(request: pytest.FixtureRequest, tmp_path: Path) -> tuple[Course, str, str]:
    """A course built by a program with a theme; what was said; the theme."""
    program, theme = request.param
    course = Course(tmp_path, theme).write(PAGES)
    done = built(program, course)
    assert done.returncode == 0, done.stderr
    return course, done.stderr, theme


def test_pictures_names_and_not_a_word_of_warning(case):
    course, said, theme = case
    assert "WARNING" not in said
    assert "ERROR" not in said
    page = course.page("first/index.html")
    made = read(page)
    assert [e.text for e in made.all("span", "fp-chord")] == ["Am", "C", "Cmaj7"]
    steps = made.all("li", "fp-step")
    assert len(steps) == 3
    assert all(any(step in svg.around for svg in made.all("svg", "fp-frame")) for step in steps)
    assert all(any(step in table.around for table in made.all("table", "fp-strings")) for step in steps)
    assert "style=" not in page[page.index('class="fp-block"') : page.index("Words after")]
    figures = course.folder / "site" / "css" / "fingerpost-figures.css"
    assert figures.is_file() == (theme != "fingerpost")
    assert ("../css/fingerpost-figures.css" in page) == (theme != "fingerpost")


def test_course_pages_are_there_and_linked(case):
    course, _, _ = case
    for name in ("chords", "reading-the-pictures", "tuner", "staying-unhurt"):
        assert (course.folder / "site" / name / "index.html").is_file()
        assert f"{name}/" in course.page("index.html")
    assert read(course.page("chords/index.html")).all("svg")


def test_search_finds_steps(case):
    course, _, _ = case
    assert "first/#gates--x02210-to-x32010" in course.page("search/search_index.json")


def test_the_successor_makes_the_same_bytes(tmp_path):
    course = Course(tmp_path).write(PAGES)
    for program in PROGRAMS:
        assert built(program, course, program).returncode == 0
    theirs, ours = course.bytes("properdocs"), course.bytes("mkdocs")
    assert theirs.keys() == ours.keys()
    assert [name for name, data in ours.items() if theirs[name] != data] == []
