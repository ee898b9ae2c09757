"""`mkdocs serve`: a changed lesson shows by itself, and only what depends on it is worked out anew."""

from __future__ import annotations

import os
import re
import signal
import socket
import subprocess
import sys
import time
import urllib.request
from collections.abc import Iterator
from pathlib import Path

import pytest
from fingerpost.site import course_model

from .building import FIRST, INDEX, SECOND, Course

LONGEST_WAIT = 60.0


def third(number: int) -> str:
    """A lesson that depends on no other."""
    return FIRST.replace("gates", f"doors-{number}").replace("# The first", f"# Lesson {number}")


def free_port() -> int:
    with socket.socket() as taken:
        taken.bind(("127.0.0.1", 0))
        return int(taken.getsockname()[1])


def fetched(address: str, until: str) -> str:
    """The page, once it says `until`."""
    end, page = time.monotonic() + LONGEST_WAIT, ""
    while time.monotonic() < end:
        try:
            page = urllib.request.urlopen(address, timeout=5).read().decode()
        except OSError:
            page = ""
        if until in page:
            return page
        time.sleep(0.05)
    raise AssertionError(f"{until!r} never showed")


@pytest.fixture
def served(tmp_path: Path) -> Iterator[tuple[Course, str]]:
    """A course under `mkdocs serve`, and its address."""
    course = Course(tmp_path).write({"index.md": INDEX, "first.md": FIRST, "second.md": SECOND})
    port = free_port()
    program = subprocess.Popen(
        [sys.executable, "-m", "mkdocs", "serve", "-a", f"127.0.0.1:{port}"],
        cwd=tmp_path,
        env={**os.environ, "PYTHONUNBUFFERED": "1"},
        stdout=subprocess.DEVNULL,
        stderr=subprocess.DEVNULL,
    )
    yield course, f"http://127.0.0.1:{port}"
    program.send_signal(signal.SIGINT)
    try:
        program.wait(20)
    except subprocess.TimeoutExpired:
        program.kill()
        program.wait()


def test_a_changed_lesson_shows(served):
    course, address = served
    page = fetched(f"{address}/first/", "fp-block")
    assert "'unsafe-inline'" in page
    text = FIRST.replace("crosses over.", "goes across now.")
    (course.folder / "docs" / "first.md").write_text(text)
    fetched(f"{address}/first/", "goes across now.")
    (course.folder / "docs" / "first.md").write_text(text.replace("- 1 off = Cmaj7", "- 7 off"))
    fetched(f"{address}/first/", "There is no finger 7")
    (course.folder / "docs" / "first.md").write_text(text)
    assert "fp-broken" not in fetched(f"{address}/first/", ">Cmaj7</span></h3>")


def test_only_what_depends_on_a_change_is_worked_out_anew(tmp_path, monkeypatch):
    drawn: list[str] = []
    draw = course_model.draw
    monkeypatch.setattr(course_model, "draw", lambda shown, look: (drawn.append(shown.id), draw(shown, look))[1])
    (tmp_path / "other").mkdir()
    Course(tmp_path / "other").write({"index.md": INDEX, "first.md": FIRST, "second.md": SECOND}).build(strict=True)
    drawn.clear()
    others = {f"lesson-{number}.md": third(number).replace("teaches: [Am, C, Cmaj7]\n", "") for number in range(5)}
    course = Course(tmp_path).write({"index.md": INDEX, "first.md": FIRST, "second.md": SECOND, **others})
    course.build(strict=True)
    assert course.config is not None
    kept = course.config.plugins["fingerpost"].kept
    assert set(drawn) == {"gates", "again", *(f"doors-{number}" for number in range(5))}
    drawn.clear()
    made = kept.course.made
    course.build(strict=True)
    assert drawn == []
    assert kept.course.made == made
    before = course.bytes()
    (tmp_path / "docs" / "lesson-3.md").write_text(others["lesson-3.md"].replace("crosses over.", "goes across."))
    course.build(strict=True)
    assert drawn == ["doors-3"]
    after = course.bytes()
    changed = {name for name in after if name.endswith(".html") and after[name] != before[name]}
    assert changed == {"lesson-3/index.html"}


def test_a_lesson_that_starts_where_another_ended_follows_it(tmp_path):
    follows = "# Next\n\n```moves\nid: next\nstart: after gates\nsteps:\n- hold\n```\n"
    course = Course(tmp_path).write({"index.md": INDEX, "first.md": FIRST, "next.md": follows})
    course.build(strict=True)
    assert re.search(r'data-kind="start"[^>]*data-shape="x32000', course.page("next/index.html"))
    (tmp_path / "docs" / "first.md").write_text(FIRST.replace("- 1 off = Cmaj7\n", "").replace(", Cmaj7", ""))
    course.build(strict=True)
    assert re.search(r'data-kind="start"[^>]*data-shape="x32010', course.page("next/index.html"))
