"""The commands as people and programs use them: answers, exit codes, help, and never a traceback."""

from __future__ import annotations

import json
import os
import re
import subprocess
import sys

import pytest
from fingerpost import __version__
from fingerpost.cli.main import COMMANDS

from ..workspace.repository import Repo


@pytest.fixture
def answers(ask):
    """Runs a command with --json: the objects of its lines."""

    def run(*arguments: str, stdin: str = "") -> list[dict]:
        code, out, err = ask(*arguments, stdin=stdin)
        assert (code, err) == (0, "")
        return [json.loads(line) for line in out.splitlines()]

    return run


def test_name_answers_with_the_contract(answers):
    (answer,) = answers("name", "--json", "x32010")
    assert list(answer) == ["shape", "notes", "pitch_classes", "bass", "names"]
    assert answer["shape"] == "x32010"
    assert answer["notes"] == ["C3", "E3", "G3", "C4", "E4"]
    assert (answer["pitch_classes"], answer["bass"]) == ([0, 4, 7], "C")
    best = answer["names"][0]
    assert list(best) == "symbol exact spoken root kind degrees bass intervals omitted why".split()
    assert (best["symbol"], best["root"], best["kind"], best["bass"]) == ("C", "C", "major", None)
    assert best["intervals"] == ["1", "3", "5"]


def test_name_takes_notes_bass_first(answers):
    (answer,) = answers("name", "--json", "C,E,Bb")
    assert answer["shape"] is None
    assert answer["notes"] == ["C", "E", "Bb"]
    best = answer["names"][0]
    assert (best["symbol"], best["exact"], best["omitted"]) == ("C7", "C7(no5)", ["5"])


# MusicXML 4.0 kind-value and degrees, as standards.md lists them.
@pytest.mark.parametrize(
    ("notes", "kind", "degrees"),
    [
        ("C,E,G", "major", []),
        ("C,E,G,D", "major", [{"value": 9, "alter": 0, "type": "add"}]),
        ("C,E,G,A,D", "major-sixth", [{"value": 9, "alter": 0, "type": "add"}]),
        ("G,C,D,F", "suspended-fourth", [{"value": 7, "alter": 0, "type": "add"}]),
    ],
)
def test_names_carry_the_open_standards_words(answers, notes, kind, degrees):
    best = answers("name", "--json", notes)[0]["names"][0]
    assert (best["kind"], best["degrees"]) == (kind, degrees)


def test_accidentals_are_ascii(answers):
    (answer,) = answers("name", "--json", "Bb,D,F")
    assert answer["names"][0]["symbol"] == "Bb"
    assert answers("spell", "--json", "F♯m")[0]["notes"] == ["F#", "A", "C#"]


def test_a_capo_and_other_tunings(answers):
    assert answers("name", "--json", "--capo", "3", "320003")[0]["names"][0]["symbol"] == "Bb"
    assert answers("name", "--json", "--tuning", "DADGAD", "000000")[0]["notes"] == "D2 A2 D3 G3 A3 D4".split()
    assert answers("name", "--json", "--strings", "4", "0000")[0]["notes"] == "E1 A1 D2 G2".split()
    assert len(answers("name", "--json", "--strings", "7", "0000000")[0]["notes"]) == 7


def test_a_key_settles_the_spelling(answers):
    spelled = {key: answers("name", "--json", "--key", key, "Bb,D,F")[0]["names"][0]["root"] for key in ("F", "B")}
    assert spelled == {"F": "Bb", "B": "A#"}


def test_spell(answers):
    assert answers("spell", "--json", "C7(no5)", "G/B") == [
        {"symbol": "C7(no5)", "root": "C", "bass": "C", "notes": ["C", "E", "Bb"], "pitch_classes": [0, 4, 10]},
        {"symbol": "G/B", "root": "G", "bass": "B", "notes": ["G", "B", "D"], "pitch_classes": [2, 7, 11]},
    ]


def test_neighbours_are_each_one_finger_away(answers):
    found = answers("neighbours", "--json", "x32010")
    assert all(list(line) == ["from", "move", "kind", "shape", "cost", "symbol"] for line in found)
    assert {line["from"] for line in found} == {"x32010/-32-1-"}
    by_move = {line["move"]: line for line in found}
    assert (by_move["1 off"]["shape"], by_move["1 off"]["symbol"]) == ("x32000/-32---", "Cmaj7")
    assert by_move["4 to e3"]["shape"] == "x32013/-32-14"
    assert [line["cost"] for line in found] == sorted(line["cost"] for line in found)


@pytest.mark.parametrize(("command", "good"), [("name", "x32010"), ("spell", "Am7"), ("neighbours", "x02210")])
def test_a_dash_reads_lines(answers, command, good):
    given = answers(command, "--json", good, good)
    assert answers(command, "--json", "-", stdin=f"{good}\n\n  {good}  \n") == given


@pytest.mark.parametrize(
    ("command", "good", "bad"),
    [
        ("name", "x32010", "x3201"),
        ("name", "C,E,G", "C,E,Q"),
        ("spell", "Am7", "Zm7"),
        ("neighbours", "x02210", "192939"),
    ],
)
def test_a_bad_one_among_several_does_not_stop_the_others(ask, command, good, bad):
    code, out, err = ask(command, "--json", good, bad, good)
    _, once, _ = ask(command, "--json", good)
    assert code == 2
    assert out == once * 2
    assert bad in err
    assert err.startswith("fingerpost: ")


@pytest.mark.parametrize(
    ("arguments", "says"),
    [
        (["nam", "x32010"], "There is no command 'nam'. Try: `fingerpost name`"),
        (["bogus"], "There is no command 'bogus'. Try: `fingerpost --help`"),
        (["name"], "The following arguments are required: SHAPE. Try: `fingerpost name --help`"),
        (["name", "xxxxxx"], "In 'xxxxxx' no string sounds, so there is nothing to name."),
        (["name", "--capo", "99", "x32010"], "--capo is '99'; expected a fret from 0 to 12."),
        (["name", "--tuning", "nonsense", "x32010"], "'nonsense' is no tuning"),
        (["name", "--strings", "6", "--tuning", "bass", "x32010"], "has 4 strings, but --strings says 6"),
        (["check", "/nowhere/at/all"], "There is no /nowhere/at/all. Try: "),
        (["check", "--format", "xml"], "--format"),
        (["export", "svg"], "Nothing to draw was named. Try: --step ID"),
    ],
)
def test_wrong_usage_is_said_with_what_would_be_right(refused, arguments, says):
    refused(arguments, says)


def test_help_for_all_and_for_each(ask):
    code, out, _ = ask("--help")
    assert code == 0
    assert all(f"  {command.NAME}" in out and command.SUMMARY in out for command in COMMANDS)
    assert ask()[1] == out
    assert ask("--version")[1].strip() == f"fingerpost {__version__}"
    for command in COMMANDS:
        code, out, _ = ask(command.NAME, "--help")
        assert code == 0
        assert "examples:" in out
        assert max(map(len, out.splitlines())) <= 120


@pytest.mark.parametrize("command", COMMANDS, ids=lambda command: command.NAME)
def test_the_examples_of_the_help_run(command, ask, tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    assert ask("new", "my-course")[0] == 0
    Repo(tmp_path / "my-course").begin("main", "new-lesson")
    examples = command.EXAMPLES.split("examples:\n")[1].splitlines()
    for example in (line.strip() for line in examples):
        # A server waits for its editor; tests/editor speaks with it.
        if command.NAME in ("new", "editor") or "|" in example or "<" in example or "- >" in example:
            continue
        if not re.search(r"my-course", example):
            monkeypatch.chdir(tmp_path / "my-course")
        words = [word.strip("'") for word in re.findall(r"'[^']*'|\S+", example.split(" > ")[0])]
        assert ask(*words[1:])[0] == 0, example
        monkeypatch.chdir(tmp_path)


def test_new_makes_a_course_that_check_finds_right(ask, tmp_path):
    folder = tmp_path / "mine"
    code, out, _ = ask("new", str(folder))
    assert code == 0
    assert "mkdocs serve" in out
    assert {"mkdocs.yml", "README.md", ".gitignore"} <= {path.name for path in folder.iterdir()}
    assert ask("check", str(folder)) == (0, "Nothing to put right in 4 pages.\n", "")


def test_new_never_overwrites(ask, tmp_path):
    (tmp_path / "mine").mkdir()
    (tmp_path / "mine" / "README.md").write_text("Mine\n")
    code, out, err = ask("new", str(tmp_path / "mine"))
    assert (code, out) == (2, "")
    assert "left as it is" in err
    assert [path.name for path in (tmp_path / "mine").iterdir()] == ["README.md"]
    (tmp_path / "file").write_text("Mine\n")
    assert ask("new", str(tmp_path / "file"))[0] == 2
    assert ask("new", str(tmp_path / "file" / "below"))[0] == 2


def test_check_shows_the_place_the_line_and_the_fix(ask, tmp_path, monkeypatch):
    ask("new", str(tmp_path / "mine"))
    lesson = tmp_path / "mine" / "course" / "while-the-gates-close.md"
    lesson.write_text(lesson.read_text().replace("- 1 to B1 = C", "- 4 off = C"))
    monkeypatch.chdir(tmp_path / "mine")
    code, out, _ = ask("check")
    assert code == 1
    lines = out.splitlines()
    assert re.fullmatch(r"course/while-the-gates-close\.md:\d+:3: error: .*\[finger-not-down\]", lines[0])
    assert lines[1].endswith("| - 4 off = C")
    assert lines[2].endswith("|   ^^^^^") or lines[2].endswith("|   ^")
    assert out.splitlines()[-1].startswith("1 error")


def test_check_of_one_page_tells_of_that_page(ask, tmp_path, monkeypatch):
    ask("new", str(tmp_path / "mine"))
    folder = tmp_path / "mine" / "course"
    for name in ("while-the-gates-close.md", "the-water-rises.md"):
        (folder / name).write_text((folder / name).read_text() + "\n```moves\n```\n")
    monkeypatch.chdir(tmp_path / "mine")
    _, out, _ = ask("check", "--format", "json", "course/the-water-rises.md")
    found = [json.loads(line) for line in out.splitlines()]
    assert {finding["file"] for finding in found} == {"course/the-water-rises.md"}
    # What only the course around it knows is not complained about: this page starts from a chord taught elsewhere.
    assert {finding["code"] for finding in found} == {"block-empty"}


def test_check_json_has_the_keys_of_the_contract(ask, tmp_path):
    ask("new", str(tmp_path / "mine"))
    path = tmp_path / "mine" / "mkdocs.yml"
    path.write_text(path.read_text().replace("handed: right", "handed: up"))
    code, out, _ = ask("check", "--format", "json", str(tmp_path / "mine"))
    (finding,) = [json.loads(line) for line in out.splitlines()]
    assert code == 1
    assert list(finding) == "file line column end_line end_column severity code message expected fix".split()
    assert (finding["file"], finding["code"], finding["severity"]) == (str(path), "bad-setting", "error")
    assert path.read_text().splitlines()[finding["line"] - 1].strip() == "handed: up"


def test_check_runs_nothing_of_the_course(ask, tmp_path):
    folder = tmp_path / "mine"
    ask("new", str(folder))
    trap = f"import pathlib; pathlib.Path({str(tmp_path / 'sprung')!r}).touch()"
    (folder / "hook.py").write_text(trap)
    path = folder / "mkdocs.yml"
    path.write_text(
        path.read_text() + f"hooks: [hook.py]\nextra: !!python/object/apply:os.system ['touch {tmp_path / 'sprung'}']\n"
    )
    assert ask("check", str(folder))[0] == 0
    assert not (tmp_path / "sprung").exists()


def test_missing_images_are_found(ask, tmp_path):
    folder = tmp_path / "mine"
    ask("new", str(folder))
    lesson = folder / "course" / "the-water-rises.md"
    lesson.write_text(lesson.read_text().replace("  say: The open G", "  image: thumb.png A thumb\n  say: The open G"))
    code, out, _ = ask("check", "--format", "json", str(folder))
    (finding,) = [json.loads(line) for line in out.splitlines()]
    assert (code, finding["code"]) == (1, "missing-image")
    (folder / "course" / "thumb.png").write_bytes(b"")
    assert ask("check", str(folder))[0] == 0


def test_export_draws_steps_and_shapes(ask, tmp_path, monkeypatch):
    ask("new", str(tmp_path / "mine"))
    monkeypatch.chdir(tmp_path / "mine")
    code, out, _ = ask("export", "svg", "--step", "paddles", "--shape", "x32010/-32-1-", "--out", "slides", "--heading")
    assert code == 0
    paths = out.splitlines()
    assert len(paths) == 4
    for path in paths:
        text = (tmp_path / "mine" / path).read_text(encoding="utf-8")
        assert text.startswith("<?xml")
        assert "<title" in text
        assert "<desc" in text
        assert "style=" not in text
    code, _, err = ask("export", "svg", "--step", "padles")
    assert code == 2
    assert "`--step paddles`" in err


def test_export_png(ask, tmp_path):
    code, _, err = ask("export", "png", "--shape", "x32010", "--width", "300", "--out", str(tmp_path))
    assert (code, err) == (0, "")
    data = (tmp_path / "x32010.png").read_bytes()
    assert data.startswith(b"\x89PNG\r\n\x1a\n")
    assert int.from_bytes(data[16:20], "big") == 300
    assert ask("export", "png", "--shape", "x32010", "--width", "0", "--out", str(tmp_path))[0] == 2


def program(*arguments: str, **given: object) -> subprocess.CompletedProcess[bytes]:
    return subprocess.run(
        [sys.executable, "-m", "fingerpost.cli", *arguments], capture_output=True, check=False, **given
    )


def test_a_reader_that_leaves_early_is_no_fault():
    shapes = b"x32010\n" * 3000
    head = subprocess.Popen(["head", "-1"], stdin=subprocess.PIPE, stdout=subprocess.DEVNULL)
    done = subprocess.run(
        [sys.executable, "-m", "fingerpost.cli", "name", "--json", "-"],
        input=shapes,
        stdout=head.stdin,
        stderr=subprocess.PIPE,
        check=False,
    )
    head.stdin.close()
    head.wait()
    assert (done.returncode, done.stderr) == (0, b"")


def test_bytes_that_are_no_text_are_no_fault():
    done = program("name", "--json", "-", input=b"x32010\n\xff\xfe\n")
    assert done.returncode == 2
    assert len(done.stdout.splitlines()) == 1
    assert b"Traceback" not in done.stderr


@pytest.mark.parametrize("arguments", [["name", "x32010"], ["--help"], ["check"]])
def test_mkdocs_is_not_loaded_for_a_question(arguments, tmp_path):
    (tmp_path / "mkdocs.yml").write_text("site_name: x\nplugins: [fingerpost]\n")
    (tmp_path / "docs").mkdir()
    code = (
        "import sys; from fingerpost.cli.main import main; main(sys.argv[1:]); "
        "sys.exit(bool({'mkdocs', 'markdown', 'svgwrite'} & sys.modules.keys()))"
    )
    done = subprocess.run([sys.executable, "-c", code, *arguments], cwd=tmp_path, capture_output=True, check=False)
    assert done.returncode == 0, done.stderr


def test_a_fault_of_our_own_is_owned_up_to(ask, monkeypatch):
    monkeypatch.setattr("fingerpost.music.shape_text.read_shape", lambda *_: 1 / 0)
    code, out, err = ask("name", "x32010")
    assert (code, out) == (2, "")
    assert "mistake of its own" in err
    assert "Traceback" not in err


def test_plain_ascii_terminals_are_served():
    done = program("spell", "C♯", env={**os.environ, "PYTHONIOENCODING": "ascii", "PYTHONUTF8": "0"})
    assert done.returncode == 0
    assert b"C#" in done.stdout
