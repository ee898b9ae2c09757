"""`check --fix` and the forms of a report, on courses on the disk: what is changed, what is kept, what is refused."""

from __future__ import annotations

import json
import os
from pathlib import Path

import pytest
from fingerpost.cli.main import main
from fingerpost.diagnostics import Code, Diagnostic, Edit, Severity, Span
from fingerpost.workspace.edits import chosen, edited

SLIPS = """\
# Fog

```moves
# the window is white
id: fog
start: x02210 = Am   # as ever
teaches: [Am]
steps:
- 3 off ~ Am7 # softer
- 3 to G2 = Am
```
"""
RIGHT = SLIPS.replace("x02210", "x02210/--231-").replace("[Am]", "[Am, Am7]").replace("~", "=")


@pytest.fixture
def course(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    (tmp_path / "docs").mkdir()
    (tmp_path / "mkdocs.yml").write_text("site_name: x\nplugins:\n  - fingerpost\n")
    monkeypatch.chdir(tmp_path)
    return tmp_path


def put(course: Path, text: str = SLIPS, name: str = "fog.md") -> Path:
    page = course / "docs" / name
    page.write_bytes(text.encode())
    return page


def test_safe_fixes_are_made_and_told(course: Path, capsys: pytest.CaptureFixture[str]) -> None:
    page = put(course)
    assert main(["check", "--fix"]) == 0
    out = capsys.readouterr().out.splitlines()
    assert page.read_text() == RIGHT
    assert out[0].startswith("docs/fog.md:6:8: fixed: The moves name fingers")
    assert out[1] == "  now: x02210/--231-"
    assert "Fixed 3 findings in 1 page." in out
    assert out[-1] == "Nothing to put right in 1 page."
    assert main(["check", "--fix"]) == 0
    assert capsys.readouterr().out.splitlines()[0] == "Nothing could be fixed safely."
    assert page.read_text() == RIGHT


@pytest.mark.parametrize("newline", ["\n", "\r\n", "\r"])
@pytest.mark.parametrize("mark", ["", "\ufeff"])
def test_line_ends_and_byte_order_mark_stay(course: Path, newline: str, mark: str) -> None:
    page = put(course, mark + SLIPS.replace("\n", newline))
    assert main(["check", "--fix"]) == 0
    assert page.read_bytes() == (mark + RIGHT.replace("\n", newline)).encode()


def test_permissions_stay_and_nothing_is_left_behind(course: Path) -> None:
    page = put(course)
    page.chmod(0o640)
    main(["check", "--fix"])
    assert page.stat().st_mode & 0o777 == 0o640
    assert os.listdir(course / "docs") == ["fog.md"]


def test_a_page_reached_through_a_link_is_left_alone(course: Path, capsys: pytest.CaptureFixture[str]) -> None:
    real = put(course, name="real.txt")
    (course / "docs" / "fog.md").symlink_to(real)
    main(["check", "--fix"])
    assert real.read_text() == SLIPS
    assert (course / "docs" / "fog.md").is_symlink()
    assert "docs/fog.md: left as it is: it is reached through a link." in capsys.readouterr().out


def test_a_page_that_is_not_utf8_is_left_alone(course: Path, capsys: pytest.CaptureFixture[str]) -> None:
    page = course / "docs" / "fog.md"
    page.write_bytes(SLIPS.encode() + b"\xff\n")
    assert main(["check", "--fix"]) == 1
    assert page.read_bytes() == SLIPS.encode() + b"\xff\n"
    assert "left as it is: it is not UTF-8 text" in capsys.readouterr().out


def test_a_folder_that_can_not_be_written_loses_nothing(
    course: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    def full(*_: object) -> None:
        raise OSError(28, "No space left on device")

    page = put(course)
    monkeypatch.setattr(os, "replace", full)
    assert main(["check", "--fix"]) == 2
    assert page.read_text() == SLIPS
    assert os.listdir(course / "docs") == ["fog.md"]
    assert "no space left on device; it was left as it is" in capsys.readouterr().err


def test_only_the_page_that_is_asked_for_is_fixed(course: Path) -> None:
    one, other = put(course), put(course, SLIPS.replace("fog", "mist"), "mist.md")
    main(["check", "--fix", str(one)])
    assert one.read_text() == RIGHT
    assert other.read_text() == SLIPS.replace("fog", "mist")


def test_for_a_program_what_was_fixed_stands_beside_the_report(
    course: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    put(course, SLIPS + "\nYou hold `now: G`.\n")
    assert main(["check", "--fix", "--format", "json"]) == 1
    out, err = capsys.readouterr()
    assert [json.loads(line)["code"] for line in out.splitlines()] == ["mention-denied"]
    assert "Fixed 3 findings in 1 page." in err


def test_a_page_outside_any_course_is_named_as_it_was_asked_for(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "here").mkdir()
    (tmp_path / "page.md").write_text("```moves\nid: a\nsteps:\n- 3 of\n```\n")
    monkeypatch.chdir(tmp_path / "here")
    for asked in ("../page.md", str(tmp_path / "page.md")):
        main(["check", asked])
        first, source, *_ = capsys.readouterr().out.splitlines()
        assert first.startswith(f"{asked}:4:5: error: ")
        assert source == "  4 | - 3 of"
    main(["check", str(tmp_path / "page.md"), "--format", "sarif"])
    place = json.loads(capsys.readouterr().out)["runs"][0]["results"][0]["locations"][0]["physicalLocation"]
    assert place["artifactLocation"]["uri"] == "../page.md"


@pytest.mark.parametrize(("no_colour", "coloured"), [("", True), ("1", False)])
def test_colour_is_for_terminals_that_want_it(
    course: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch, no_colour: str, coloured: bool
) -> None:
    put(course)
    monkeypatch.setenv("NO_COLOR", no_colour)
    monkeypatch.setenv("TERM", "xterm")
    main(["check"])
    assert "\x1b" not in capsys.readouterr().out
    monkeypatch.setattr("sys.stdout.isatty", lambda: True)
    main(["check"])
    assert ("\x1b[" in capsys.readouterr().out) is coloured


def _edit(line: int, start: int, end: int, text: str) -> Edit:
    return Edit(Span("a.md", line, start, line, end), text)


def _found(*edits: Edit) -> Diagnostic:
    return Diagnostic(edits[0].span, Severity.ERROR, Code.BAD_VALUE, f"{edits}", edits=edits)


def test_edits_that_touch_wait_for_the_next_round() -> None:
    first, same_place, apart = _found(_edit(1, 1, 4, "x")), _found(_edit(1, 4, 4, "y")), _found(_edit(1, 9, 9, "z"))
    assert chosen([first, same_place, apart]) == (first, apart)
    twice = _found(_edit(1, 1, 4, "x"), _edit(2, 1, 1, "q"))
    assert chosen([first, twice]) == (first, twice)


def test_edits_keep_every_other_character() -> None:
    text = "ab\r\ncd\ref\r\n"
    assert edited(text, [_edit(1, 3, 3, "!\n"), _edit(3, 1, 3, "é")]) == "ab!\r\n\r\ncd\ré\r\n"
    with pytest.raises(IndexError):
        edited(text, [_edit(2, 1, 9, "")])


def test_fix_leaves_what_is_accepted_and_takes_out_what_has_lapsed(
    course: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    kept = RIGHT.replace("= Am7 # softer", "~ Am7 # accept name-would-hold: the footnote is to be read")
    page = put(course, kept.replace("- 3 to G2", "# accept name-is-loose: it was\n- 3 to G2"))
    assert main(["check", "--fix"]) == 0
    out = capsys.readouterr().out.splitlines()
    assert page.read_text() == kept
    assert out[0].startswith("docs/fog.md:10:1: fixed: There is no finding `name-is-loose`")
    assert out[-2:] == ["Nothing to put right in 1 page.", "1 finding is accepted in place, with a reason."]
    assert main(["check", "--format", "json"]) == 0
    assert capsys.readouterr().out == ""
