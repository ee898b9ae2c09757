"""One slip, one finding: what a block with errors leaves open is not held against those that build on it."""

from __future__ import annotations

import pytest
from fingerpost.course.model import Course
from fingerpost.diagnostics import Diagnostic

from .read_course import course

TEACHER = "```moves\nid: teacher\nstart: x02210/--231- = Am\nteaches: [Am, Asus2]\nsteps:\n{}\n```\n"
STUDENT = "```moves\nid: student\nstart: as taught {}\nsteps:\n{}\n```\n"


def told(*pages: str) -> tuple[Course, list[tuple[str, int, str]]]:
    """The course, and of each finding its page, line and code."""
    made, found = course(*pages)
    return made, [_brief(finding) for finding in found]


def _brief(finding: Diagnostic) -> tuple[str, int, str]:
    return finding.span.file, finding.span.line, str(finding.code)


def test_what_stands_above_an_error_is_as_sure_as_elsewhere() -> None:
    """So a later block that starts from it is shown, and its own slip is found."""
    teacher = TEACHER.format("- 1 off = Asus2\n- 9 to B1 = Am")
    made, found = told(teacher, STUDENT.format("Am", "- 1 off = Asus2"))
    assert found == [("p1.md", 7, "unknown-finger")]
    assert [block.id for block in made.lessons[1].blocks] == ["student"]
    _, found = told(teacher, STUDENT.format("Asus2", "- 1 to B1 = C"))
    assert found == [("p1.md", 7, "unknown-finger"), ("p2.md", 5, "name-is-wrong")]


@pytest.mark.parametrize(
    "line", ["- 9 off = Asus2", "- zzz = Asus2", "- move: zzz\n  name: Asus2", "- 4 off = Asus2", "- zzz"]
)
def test_a_chord_that_a_broken_line_may_show_is_no_fault_of_what_asks_for_it(line: str) -> None:
    made, found = told(TEACHER.format(line), STUDENT.format("Asus2", "- 1 to B1 = Am"), "See `chord: Asus2`.\n")
    assert [page for page, _, _ in found] == ["p1.md"]
    assert [broken.id for broken in made.lessons[1].broken] == ["student"]
    assert made.lessons[1].broken[0].messages == ("It goes on from the block `teacher`, which can't be made out.",)
    assert [mention.step for mention in made.lessons[2].mentions] == [None]


def test_a_chord_that_no_block_promises_is_still_found_missing() -> None:
    _, found = told(
        TEACHER.format("- zzz = Asus2"), STUDENT.format("F", "- hold"), "See `chord: G` and `step: gone`.\n"
    )
    assert found == [
        ("p1.md", 6, "move-unreadable"),
        ("p2.md", 3, "unresolved-start"),
        ("p3.md", 1, "unresolved-mention"),
        ("p3.md", 1, "unresolved-mention"),
    ]


def test_a_chord_named_where_it_is_not_taught_is_waited_for_if_the_block_that_teaches_it_is_broken() -> None:
    """Else its shape would be said to be in two minds, or one that nobody taught would be taken."""
    shown = "```moves\nid: {}\nstart: {} = Asus2\nsteps:\n- hold\n```\n"
    others = [shown.format("low", "x02200/--21--"), shown.format("high", "x09900/--12--")]
    made, found = told(*others, TEACHER.format("- zzz = Asus2"), STUDENT.format("Asus2", "- hold"))
    assert found[0] == ("p3.md", 6, "move-unreadable")
    assert {code for _, _, code in found[1:]} == {"used-before-taught"}
    assert {page for page, _, _ in found[1:]} == {"p1.md", "p2.md"}
    assert [broken.id for broken in made.lessons[3].broken] == ["student"]


def test_two_guesses_at_a_shape_are_not_held_against_who_asks_for_it() -> None:
    teacher = TEACHER.format("- zzz = Am\n- 1 off = Asus2\n- 1 to e3\n- 3 off = Asus2")
    _, found = told(teacher, STUDENT.format("Asus2", "- hold"))
    assert {page for page, _, _ in found} == {"p1.md"}


@pytest.mark.parametrize("line", ["- move: 9 off\n  id: softer", "- move: 1 off\n  id: softer\n- zzz"])
def test_a_step_of_a_broken_block_is_known_by_its_own_name(line: str) -> None:
    after = "```moves\nid: b\nstart: after softer\nsteps:\n- 1 to B1\n```\n"
    _, found = told(TEACHER.format(line), "See `step: softer`.\n", after)
    assert [page for page, _, _ in found] == ["p1.md"]


@pytest.mark.parametrize("teaches", ["[Am, zzz]", "zzz", "Am and others", "{Am: Asus2}"])
def test_what_a_block_says_that_it_teaches_is_not_missed_while_it_cant_be_read(teaches: str) -> None:
    teacher = TEACHER.format("- 1 off = Asus2").replace("[Am, Asus2]", teaches)
    other = "```moves\nid: other\nstart: x32010/-32-1- = C\nteaches: [C]\nsteps:\n- hold\n```\n"
    _, found = told(other, teacher, STUDENT.format("Am", "- 1 off = Asus2"))
    assert {(page, line) for page, line, _ in found} == {("p2.md", 4)}


def test_a_name_tells_nothing_of_what_lies_behind_a_finger() -> None:
    """Dsus4 sounds the same whether finger 2 is down on string 1 or not; D after it does not."""
    steps = "- 2 off = Dsus2\n- zzz\n- 4 to e3 = Dsus4\n- 4 off = D\n- 3 off"
    block = f"```moves\nid: d\nstart: xx0232/---132 = D\nsteps:\n{steps}\n```\n"
    _, found = told(block)
    assert found == [("p1.md", 6, "move-unreadable")]
    _, found = told(block.replace("- zzz\n", "- zzz\n- 2 to e2 = D\n"))
    assert found == [("p1.md", 6, "move-unreadable")]
    _, found = told(block.replace("- zzz\n", "- zzz\n- 2 to e2 = D\n").replace("- 3 off", "- 3 off = G"))
    assert found == [("p1.md", 6, "move-unreadable"), ("p1.md", 10, "name-is-wrong")]
