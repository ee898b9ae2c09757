"""`fingerpost lay-out`: lessons that pass the check and build strictly, all of them or none, never over a file."""

from __future__ import annotations

import json
import os
import shutil
import subprocess
import sys
from functools import partial
from pathlib import Path

import pytest
from fingerpost.cli import new_files
from fingerpost.cli.main import main
from fingerpost.music.fretboard import Fretboard
from fingerpost.workspace.checked import check
from fingerpost.workspace.course_folder import load

ROOT = Path(__file__).resolve().parents[2]
SETTINGS = "site_name: Laid out\nplugins: [fingerpost]\ntheme: {name: fingerpost}\ndocs_dir: course\n"


@pytest.fixture
def lay_out(ask, monkeypatch, tmp_path):
    """Runs `lay-out` in an empty folder: exit code, standard output, standard error."""
    monkeypatch.chdir(tmp_path)
    return partial(ask, "lay-out")


def demo_chords() -> list[str]:
    """The chords that the demo course teaches in standard tuning without a capo, no finger damping a string."""
    chords = check(load(ROOT)).course.chords
    return [
        entry.symbol
        for entry in chords
        if any(met.fretboard == Fretboard() and not met.shape.damped for met in entry.shapes)
    ]


def test_the_chords_of_the_demo_course_make_a_course_that_builds_strictly(lay_out, tmp_path):
    chords = demo_chords()
    code, out, err = lay_out(*chords, "--into", "course", "--taught", str(ROOT))
    assert (code, err) == (0, "")
    (tmp_path / "mkdocs.yml").write_text(SETTINGS)
    checked = check(load(tmp_path))
    assert [finding for finding in checked.findings if finding.severity != "note"] == []
    met = {entry.symbol for entry in checked.course.chords}
    assert {chord for chord in chords if chord not in met} == set()
    assert len(out.splitlines()) == len(list((tmp_path / "course").iterdir())) > 4
    built = subprocess.run(
        [sys.executable, "-m", "mkdocs", "build", "--strict"], cwd=tmp_path, capture_output=True, text=True, check=False
    )
    assert built.returncode == 0, built.stderr


def test_a_plan_from_standard_input(lay_out, capsys, tmp_path):
    main(["plan", "--json", "C", "Am", "F", "Dm"])
    plan = capsys.readouterr().out
    code, out, _ = lay_out("-", "--steps", "3", "--called", "winter", stdin=plan)
    assert code == 0
    files = sorted(path.name for path in tmp_path.iterdir())
    assert files == [f"winter-{n}.md" for n in range(1, len(files) + 1)]
    assert [line.split(":")[0] for line in out.splitlines()] == files
    moves = [step["move"] for step in json.loads(plan)["steps"]]
    text = "".join((tmp_path / name).read_text() for name in files)
    said = [line[2:].split(" = ")[0].removesuffix(" passing") for line in text.splitlines() if line.startswith("- ")]
    assert [line for line in said if line not in ("rest", "back")] == moves
    assert lay_out("-", "--show", stdin="C Am\nF Dm\n")[1] == lay_out("C", "Am", "F", "Dm", "--show")[1]


def test_a_long_lesson_has_a_rest_on_its_way(lay_out):
    long = lay_out("C", "Am", "F", "G7", "Dm", "--show", "--steps", "60")[1]
    assert long.count("- rest\n") == 2
    assert "- rest\n- back = " in long


def test_another_tuning_and_a_capo_are_written(lay_out):
    out = lay_out("C", "F", "--tuning", "ukulele", "--capo", "2", "--show")[1]
    assert "tuning: ukulele\ncapo: 2\n" in out


def test_a_file_that_is_there_stays_and_nothing_else_is_written(lay_out, tmp_path):
    mine = tmp_path / "lesson-2.md"
    mine.write_text("Mine.\n")
    code, out, err = lay_out("C", "Am", "F", "Dm", "--steps", "3")
    assert (code, out) == (2, "")
    assert "lesson-2.md is there already; nothing was written. Try: another --called" in err
    assert [path.name for path in tmp_path.iterdir()] == ["lesson-2.md"]
    assert mine.read_text() == "Mine.\n"


def test_an_interrupt_leaves_nothing_half_written(lay_out, tmp_path, monkeypatch):
    link, calls = os.link, []

    def interrupted(*args):
        if calls:
            raise KeyboardInterrupt
        calls.append(args)
        link(*args)

    monkeypatch.setattr(new_files.os, "link", interrupted)
    code, _, _ = lay_out("C", "Am", "F", "Dm", "--steps", "3", "--into", "a/b")
    assert code == 130
    assert list(tmp_path.iterdir()) == []


BAD = [
    (["C", "--steps", "0"], "", "--steps is '0'; expected a number from 1 to 60"),
    (["C", "--called", "../x"], "", "expected small letters, figures and hyphens. Try: --called winter"),
    (["-"], "", "Standard input is empty"),
    (["-"], "{}", "Standard input is no plan that can be laid out"),
    (["-"], '{"from": "x32010", "chords": ["C"], "steps": [{"move": "a\\nb"}]}', "Standard input is no plan"),
    (["-"], '{"from": "x32010", "chords": ["C\\n- 1 off"], "steps": []}', "Standard input is no plan"),
    (["H"], "", "H is the note B"),
]


@pytest.mark.parametrize(("arguments", "stdin", "says"), BAD, ids=lambda value: str(value)[:30])
def test_what_can_not_be_laid_out_is_said(lay_out, tmp_path, arguments, stdin, says):
    code, out, err = lay_out(*arguments, stdin=stdin)
    assert (code, out) == (2, "")
    assert says in err
    assert list(tmp_path.iterdir()) == []


def test_no_plan_no_lessons(lay_out, tmp_path):
    code, _, err = lay_out("C", "--hardest", "0")
    assert code == 1
    assert "over --hardest" in err
    assert list(tmp_path.iterdir()) == []


@pytest.fixture
def improve(ask):
    """Runs `improve`: exit code, standard output, standard error."""
    return partial(ask, "improve")


def page(tmp_path: Path, steps: str, end: str = "\n") -> Path:
    text = f"# A\n\n```moves\nid: a\nstart: x32010/-32-1- = C # start\nsteps:\n# note\n{steps}```\n\nWords.\n"
    path = tmp_path / "a.md"
    path.write_bytes(b"\xef\xbb\xbf" + text.replace("\n", end).encode())
    return path


def test_a_shorter_way_is_suggested_and_only_written_when_asked(improve, tmp_path):
    path = page(tmp_path, "- 3 off passing\n- 3 to G2 = Am # mine\n- 4 to B3\n", "\r\n")
    before = path.read_bytes()
    code, out, _ = improve(str(path))
    assert (code, path.read_bytes()) == (0, before)
    assert "from C to Am there is a way that is 1 move shorter" in out
    assert "nothing was changed" in out
    (line,) = improve("--json", str(path))[1].splitlines()
    answer = json.loads(line)
    assert (answer["line"], answer["from"], answer["to"]) == (8, "C", "Am")
    assert (answer["now"]["length"], answer["instead"]["length"]) == (2, 1)
    assert answer["instead"]["moves"] == ["3 to G2"]
    assert improve("--write", str(path))[0] == 0
    assert path.read_bytes() == before.replace(b"- 3 off passing\r\n", b"")


def test_an_easier_shape_in_the_middle_is_suggested(improve, tmp_path):
    text = (ROOT / "course" / "the-midnight-round.md").read_text()
    course = tmp_path / "here"
    shutil.copytree(ROOT / "course", course / "course")
    shutil.copy(ROOT / "mkdocs.yml", course)
    path = course / "course" / "the-midnight-round.md"
    path.write_text(text.replace("- move: 2 off\n  name: Em7", "- move: 2 to D2\n  name: Em7", 1))
    out = improve(str(path))[1]
    assert "from G to G there is an easier way of as many moves" in out
    assert improve("--write", str(path))[0] == 0
    assert path.read_text() == text


def test_words_that_may_speak_of_the_move_are_left_to_the_author(improve, tmp_path):
    path = page(tmp_path, "- 3 off passing\n- move: 3 to G2\n  name: Am\n  say: Now 3 comes down.\n- 4 to B3\n")
    before = path.read_bytes()
    out = improve("--write", str(path))[1]
    assert "change it by hand" in out
    assert path.read_bytes() == before


def test_nothing_better_is_said_so(improve, tmp_path):
    path = page(tmp_path, "- 3 to G2 = Am\n")
    assert improve(str(path))[1] == f"{path}: no shorter or easier way was found.\n"


def test_what_is_no_page_or_has_errors(improve, tmp_path):
    code, _, err = improve(str(tmp_path))
    assert code == 2
    assert "is a folder; expected one page of a course" in err
    assert improve(str(tmp_path / "none.md"))[0] == 2
    broken = page(tmp_path, "- 3 of = Am\n")
    code, _, err = improve(str(broken))
    assert code == 2
    assert "has errors, so its hand is a guess" in err
