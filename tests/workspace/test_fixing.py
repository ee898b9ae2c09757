"""`--fix` covers no slip up and makes no second one: where it can't know what was meant, the course stays as it is."""

from __future__ import annotations

import dataclasses
from pathlib import Path

import pytest
from fingerpost.diagnostics import Code, Diagnostic
from fingerpost.workspace.checked import check
from fingerpost.workspace.course_folder import load
from fingerpost.workspace.fixing import Fixed, fix

GATES = """\
# Gates

```moves
id: gates
start: x02210/--231- = Am
teaches: [Am, C]
steps:
- 3 to A3 = C
- 3 to G2 = Am
```
"""
LAMP = """\
# Lamp

```moves
id: lamp
start: as taught Am
teaches: [Am7]
steps:
- 3 off = Am7
- 3 to A3 = C
- 3 off = Am7
```
"""
LAST = LAMP.replace("lamp", "last").replace("teaches: [Am7]\n", "")


def course(folder: Path, *pages: str, options: str = "") -> Path:
    names = [f"{'abcdef'[at]}.md" for at in range(len(pages))]
    (folder / "docs").mkdir()
    for name, text in zip(names, pages, strict=True):
        (folder / "docs" / name).write_text(text)
    (folder / "mkdocs.yml").write_text(
        f"site_name: x\nplugins:\n  - fingerpost:\n      key: C\n{options}nav: [{', '.join(names)}]\n"
    )
    return folder


def written(fixed: Fixed) -> dict[str, str]:
    return {page.path.name: page.after.decode() for page in fixed.pages}


def left(fixed: Fixed, folder: Path) -> list[tuple[str, Code, str]]:
    """What is still found when the fixes have been written."""
    for page in fixed.pages:
        page.path.write_bytes(page.after)
    return [(finding.span.file, finding.code, finding.fix) for finding in found(folder)]


def found(folder: Path) -> tuple[Diagnostic, ...]:
    """What the check finds."""
    return check(load(folder)).findings


def test_a_word_left_out_of_teaches_is_added_where_it_is_used_first_and_nowhere_else(tmp_path: Path) -> None:
    folder = course(tmp_path, GATES.replace("[Am, C]", "[Am]"), LAMP, LAST)
    fixes = {finding.span.file: (finding.fix, bool(finding.edits)) for finding in found(folder)}
    assert fixes == {
        "a.md": ("add C to `teaches` of this block", True),
        "b.md": ("add C to `teaches` of `gates` in a.md, where it is used first", False),
        "c.md": ("add C to `teaches` of `gates` in a.md, where it is used first", False),
    }
    fixed = fix(load(folder))
    assert written(fixed) == {"a.md": GATES}
    assert len(fixed.made) == 1
    assert left(fixed, folder) == []


def test_a_lesson_that_was_moved_is_not_covered_up(tmp_path: Path) -> None:
    folder = course(tmp_path, GATES, LAST, LAMP)
    fixed = fix(load(folder))
    assert fixed.pages == ()
    fix_of_both = "put c.md before this page, or add Am7 to `teaches` of this block"
    assert left(fixed, folder) == [("b.md", Code.USED_BEFORE_TAUGHT, fix_of_both)]


def test_a_word_of_teaches_that_was_meant_otherwise_is_not_given_company(tmp_path: Path) -> None:
    folder = course(tmp_path, GATES, LAMP.replace("[Am7]", "[A7]"))
    fixed = fix(load(folder))
    assert fixed.pages == ()
    assert ("b.md", Code.TAUGHT_BUT_NOT_USED, "leave out A7, or write Am7") in left(fixed, folder)


def test_a_word_is_not_compared_with_what_was_taught_before(tmp_path: Path) -> None:
    """`D` is nearer to `D7`, but the course knows it; what nobody teaches is `D6`."""
    before = "```moves\nid: d\nstart: xx0232/---132 = D\nteaches: [D]\nsteps:\n- hold\n```\n"
    block = "```moves\nid: e\nstart: as taught D\nteaches: [D7]\nsteps:\n- 3 off = D6\n- 3 to B3 = D\n```\n"
    folder = course(tmp_path, before, block)
    assert ("b.md", Code.TAUGHT_BUT_NOT_USED, "leave out D7, or write D6") in left(fix(load(folder)), folder)


def test_a_name_that_another_finding_changes_is_not_taught(tmp_path: Path) -> None:
    tied = "      ties: [Am7 not C6]\n"
    folder = course(tmp_path, GATES, LAMP, LAST.replace("= Am7", "= C6", 1), options=tied)
    assert [(finding.code, finding.fix) for finding in found(folder)] == [(Code.TIE_DECIDED_OTHERWISE, "Am7")]
    fixed = fix(load(folder))
    assert written(fixed) == {"c.md": LAST}
    assert left(fixed, folder) == []


@pytest.mark.parametrize(
    "slip",
    [("start: x02210/--231- = Am", "start: x02210/--231 = Am"), ("- 3 to G2 = Am", "- 3 too"), ("```\n", "")],
)
def test_nothing_is_added_to_teaches_while_what_is_taught_can_not_be_read(
    tmp_path: Path, slip: tuple[str, str]
) -> None:
    """A block that can't be read, or has no end, may be the one that teaches it."""
    folder = course(tmp_path, GATES + "\n", LAMP.replace("[Am7]", "[]"))
    broken = GATES.replace("id: gates", "id: other").replace("[Am, C]", "[]").replace(*slip)
    (folder / "docs" / "a.md").write_text(GATES + "\n" + broken)
    assert any(finding.code is Code.USED_BEFORE_TAUGHT and finding.edits for finding in found(folder))
    assert fix(load(folder)).pages == ()


def test_what_is_wrong_in_the_prose_does_not_hold_it_back(tmp_path: Path) -> None:
    folder = course(tmp_path, GATES, LAMP.replace("[Am7]", "[]") + "\nYou hold `now: G`.\n")
    assert written(fix(load(folder))) == {"b.md": LAMP + "\nYou hold `now: G`.\n"}


def test_only_one_page_is_fixed_and_the_rest_is_looked_at(tmp_path: Path) -> None:
    folder = course(tmp_path, GATES.replace("- 3 to G2 = Am", "- 3 too"), LAMP.replace("[Am7]", "[]"))
    sources = load(folder)
    assert fix(dataclasses.replace(sources, only="b.md")).pages == ()


def test_a_name_that_nobody_wrote_is_not_taught(tmp_path: Path) -> None:
    """The move may be the slip: `2 off` in place of `3 off`, say."""
    folder = course(tmp_path, GATES, "# Lamp\n\n```moves\nid: lamp\nstart: as taught Am\nsteps:\n- 2 off\n```\n")
    (finding,) = found(folder)
    assert finding.fix == "add Am(add11) to `teaches` of this block"
    assert fix(load(folder)).pages == ()


def test_a_near_name_is_not_taught(tmp_path: Path) -> None:
    """No note denies it, so it may be misspelt: `E7` for `Em7`, say."""
    block = "# Lamp\n\n```moves\nid: lamp\nstart: as taught Am\nsteps:\n- 2 off ~ E7\n```\n"
    folder = course(tmp_path, GATES, block)
    assert [finding.fix for finding in found(folder)] == ["add E7 to `teaches` of this block"]
    assert fix(load(folder)).pages == ()
