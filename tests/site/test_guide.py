"""The writer's guide tells the truth: each example is run, each option, key and finding is described."""

from __future__ import annotations

import os
import re
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest
import yaml
from fingerpost.course.ledger import TECHNIQUES
from fingerpost.course.settings import OPTIONS, Settings
from fingerpost.diagnostics import Code
from fingerpost.music.shape_text import read_shape, write_shape
from fingerpost.music.tuning import NAMED
from fingerpost.source.block import BLOCK_KEYS, STEP_KEYS
from fingerpost.workspace.checked import check
from fingerpost.workspace.course_folder import load

from .guide_examples import (
    GUIDE,
    ROOT,
    Example,
    after_move,
    lessons,
    lists,
    made,
    pages,
    played,
    rows,
    said_of,
    session,
    sessions,
)

LESSONS, SESSIONS, ROWS, LISTS = list(lessons()), list(sessions()), list(rows()), list(lists())
RENEW = "run tests/site/guide_examples.py and read what it changed"


def _page(name: str) -> str:
    return (GUIDE / name).read_text(encoding="utf-8")


@pytest.mark.parametrize("example", LESSONS, ids=str)
def test_example_makes_or_finds_what_the_guide_says(example: Example) -> None:
    assert example.said == said_of(example.text, example.options), RENEW


@pytest.mark.parametrize("example", SESSIONS, ids=str)
def test_session_prints_what_the_guide_shows(example: Example) -> None:
    assert example.said == session(example.text), RENEW


@pytest.mark.parametrize(("example", "row"), ROWS, ids=lambda value: str(value) if isinstance(value, Example) else "")
def test_row_of_the_table_of_moves(example: Example, row: re.Match[str]) -> None:
    assert after_move(row["start"], row["move"]) == (row["gives"], row["name"], [])


@pytest.mark.parametrize("example", LISTS, ids=str)
def test_list_is_that_of_the_tool(example: Example) -> None:
    assert example.said == made(example.text), RENEW


def test_there_are_examples() -> None:
    """The patterns still find what stands in the pages: every longer fence and every session is an example."""
    fences = sum(text.count("\n````markdown\n") for _, text in pages())
    consoles = sum(text.count("\n```console\n") for _, text in pages())
    move_tables = sum(text.count("\n| Move | From | Gives |\n") for _, text in pages())
    assert (len(LESSONS), len(SESSIONS)) == (fences, consoles)
    assert fences > 50
    assert consoles >= 4
    assert move_tables == 2
    assert len(ROWS) >= 15
    listed = [example.text for example in LISTS]
    assert [what for what in listed if " " not in what] == ["findings", "options", "limits", "costs", "change_costs"]
    of_findings = [f"{what} {code}" for code in Code for what in ("about", "instead of")]
    assert [what for what in listed if " " in what] == of_findings


@pytest.mark.parametrize("page", [name for name, _ in pages()])
def test_settings_in_the_guide_are_taken(page: str) -> None:
    for fence in re.findall(r"^```yaml\n(.*?)^```", _page(page), re.M | re.S):
        plugins = yaml.safe_load(fence).get("plugins", [])
        options = [entry["fingerpost"] for entry in plugins if isinstance(entry, dict) and "fingerpost" in entry]
        for option in options:
            assert Settings.from_mapping(option)[1] == ()


def test_every_key_is_in_the_table_of_keys() -> None:
    tables_of_keys = re.findall(r"^\| Key \|.*\n(?:\|.*\n)+", _page("the-block.md"), re.M)
    named = [set(re.findall(r"^\| `(\w+)` \|", table, re.M)) for table in tables_of_keys]
    assert named == [set(BLOCK_KEYS), set(STEP_KEYS)]


def test_every_option_of_the_plugin_is_described() -> None:
    from fingerpost.site.options import FingerpostOptions

    described = set(re.findall(r"^- \*\*`(\w+)`\*\*", _page("options.md").partition("## The limits")[0], re.M))
    assert set(OPTIONS) | {name for name, _ in FingerpostOptions._schema} == described


def test_every_finding_has_its_section() -> None:
    assert re.findall(r"^### (\S+)$", _page("findings.md"), re.M) == [str(code) for code in Code]


def _sections() -> dict[str, str]:
    parts = re.split(r"^### (\S+)$", _page("findings.md"), flags=re.M)
    return dict(zip(parts[1::2], parts[2::2], strict=True))


def test_every_section_shows_its_own_finding() -> None:
    """Findings that need more than one page's text are made on the disk, in the test below."""
    by_code = {
        code: [e for e in LESSONS if e.page == "findings.md" and e.text in part] for code, part in _sections().items()
    }
    without = {code for code, examples in by_code.items() if not examples}
    assert without == set(ON_THE_DISK)
    for code, examples in by_code.items():
        for example in examples:
            assert code in {found.code for found in played(example.text, example.options)[1]}, code


def _course(folder: Path, page: bytes = b"# A page\n", settings: str = "") -> None:
    (folder / "course").mkdir()
    (folder / "course" / "index.md").write_bytes(page)
    head = "site_name: A course\ndocs_dir: course\nplugins:\n  - fingerpost:\n      capo: 0\n"
    (folder / "mkdocs.yml").write_text(head + settings, encoding="utf-8")


def _too_large(folder: Path) -> None:
    _course(folder, b"```moves\nid: long\nsteps:\n" + b"- hold\n" * 100_000 + b"```\n")


def _linked(folder: Path) -> None:
    _course(folder)
    os.symlink("/etc/hostname", folder / "course" / "private.md")


def _unreadable(folder: Path) -> None:
    _course(folder)
    (folder / "course").rename(folder / "elsewhere")


def _left_out(folder: Path) -> None:
    _course(folder, settings="nav: [index.md]\n")
    (folder / "course" / "the-gate.md").write_text("```moves\nid: a\nsteps:\n- hold\n```\n", encoding="utf-8")


ON_THE_DISK: dict[str, Callable[[Path], None]] = {
    "block-too-large": _too_large,
    "invalid-utf8": lambda folder: _course(folder, b"# A page\n\nWind \xff force\n"),
    "dead-redirect": lambda folder: _course(folder, settings="      redirects: {gate.md: the-gate.md}\n"),
    "page-not-in-nav": _left_out,
    "bad-setting": lambda folder: _course(folder, settings="      frets: many\n"),
    "unreadable-file": _unreadable,
    "link-out-of-tree": _linked,
}


@pytest.mark.parametrize("code", ON_THE_DISK)
def test_findings_about_files(code: str, tmp_path: Path) -> None:
    ON_THE_DISK[code](tmp_path)
    assert code in {found.code for found in check(load(tmp_path)).findings}


def test_every_page_of_the_guide_can_be_reached() -> None:
    nav = (ROOT / "mkdocs.yml").read_text(encoding="utf-8")
    assert {f"teachers/{name}" for name, _ in pages()} == set(re.findall(r"teachers/[a-z-]+\.md", nav))


@pytest.mark.parametrize("fence", re.findall(r"^```python\n(.*?)^```", _page("publishing.md"), re.M | re.S))
def test_programs_in_the_guide_run(fence: str) -> None:
    names = {"text": next(example.text for example in LESSONS if example.said.startswith("Makes"))}
    exec(compile(fence, "publishing.md", "exec"), names)
    assert "<svg" in names["html"]


@pytest.mark.parametrize(("text", "fails"), [("3 off = Am7", False), ("3 off = Am9", True), ("3 off = C", True)])
def test_a_strict_build_fails_on_errors_and_warnings(text: str, fails: bool, tmp_path: Path) -> None:
    """What checking.md says of `mkdocs build --strict`; a note lets it pass."""
    _course(tmp_path, f"# A\n\n```moves\nid: a\nstart: x02210/--231- = Am\nsteps:\n- {text}\n```\n".encode())
    run = [sys.executable, "-m", "mkdocs", "build", "--strict"]
    assert (subprocess.run(run, cwd=tmp_path, capture_output=True, check=False).returncode != 0) is fails


def test_shapes_of_the_table_of_shapes_are_read_and_written_back() -> None:
    shapes = re.findall(r"^\| `([^`]+)` \|", _page("shapes.md"), re.M)
    assert len(shapes) >= 7
    for text in shapes:
        assert write_shape(read_shape(text), fingers="/" in text) == text


def test_named_tunings_and_techniques_are_all_told() -> None:
    line = re.search(r"^Named tunings: (.*)\.$", _page("tunings-and-capo.md"), re.M)
    assert line is not None
    assert re.findall(r"`([^`]+)`", line[1]) == list(NAMED)
    line = re.search(r"^.*so is a technique: (.*?)\. So", _page("the-block.md"), re.M)
    assert line is not None
    assert set(re.findall(r"`([^`]+)`", line[1])) == set(TECHNIQUES)
