"""A block within the bounds on its size that was made to cost much: what is spelled out of it stays short."""

from __future__ import annotations

import pytest
from fingerpost.course.build import build
from fingerpost.course.settings import Settings
from fingerpost.diagnostics import Code
from fingerpost.source.block import MOST_BYTES, MOST_LINES
from fingerpost.source.page import read_page
from fingerpost.source.steps import MOST_STEPS
from fingerpost.source.values import MOST_LISTED

HEAD = "```moves\nid: a\nstart: x02210/--231-\nsteps:\n"
LINES = MOST_STEPS // 2
HELD = "- hold = Am\n"


@pytest.mark.parametrize("lines", ["- 3 off = C\n- 3 to G2 = F\n", "- hold = G\n- hold = F\n"])
def test_a_block_of_nothing_but_wrong_names_is_left_after_some(lines: str) -> None:
    read = read_page("p.md", f"{HEAD}{lines * LINES}```\n")
    assert read.findings == ()
    made, found = build([read], Settings(), for_pages=False)
    of_names = [finding for finding in found if finding.code is Code.NAME_IS_WRONG]
    (left,) = [finding for finding in found if finding.code is Code.BLOCK_UNREADABLE]
    assert len(of_names) == 100
    assert left.span.line == of_names[-1].span.line + 1
    assert (
        left.message
        == f"This block has 100 findings or more above this line; {2 * LINES - 100} more steps were not judged"
    )
    assert made.lessons[0].blocks == ()


def test_what_comes_after_so_many_steps_is_said_and_not_read() -> None:
    wrong = "- 9 off = ?\n"
    for more, unread in ((1, "the last one was"), (30, "the last 30 were")):
        read = read_page("p.md", f"{HEAD}{HELD * MOST_STEPS}{wrong * more}```\n\nWords after it.\n")
        (finding,) = read.findings
        assert finding.code is Code.BLOCK_TOO_LARGE
        assert finding.message == f"This block has {MOST_STEPS + more} steps, and {unread} not read"
        assert finding.expected == "at most 400 steps in a block"
        assert finding.fix == "End the block above this step, and begin another one here with `start: previous`."
        first = HEAD.count("\n") + MOST_STEPS + 1
        assert (finding.span.line, finding.span.column) == (first, 1)
        (block,) = read.syntax.blocks
        assert [step.line is not None for step in block.steps] == [True] * MOST_STEPS + [False]
        assert (block.steps[-1].span.line, block.steps[-1].span.end_line) == (first, first + more - 1)
        assert block.source.count(wrong.strip()) == more


def test_as_many_steps_as_may_be_are_read() -> None:
    read = read_page("p.md", f"{HEAD}{HELD * MOST_STEPS}```\n")
    assert read.findings == ()
    assert len(read.syntax.blocks[0].steps) == MOST_STEPS


def test_the_steps_up_to_the_bound_are_checked_and_what_goes_on_from_there_is_not_accused() -> None:
    steps = "- 3 off = C\n" + "- hold\n" * (MOST_STEPS - 1) + "- 3 to G2 = Am\n"
    after = "```moves\nid: b\nstart: previous\nsteps:\n- 3 off = C\n```\n"
    made, found = build([read_page("p.md", f"{HEAD}{steps}```\n\n{after}")], Settings())
    assert [(finding.code, finding.span.line) for finding in found] == [(Code.NAME_IS_WRONG, HEAD.count("\n") + 1)]
    (lesson,) = made.lessons
    assert lesson.blocks == ()
    assert any("400 steps" in message or "401 steps" in message for message in lesson.broken[0].messages)


@pytest.mark.parametrize("written", ["teaches: [%s]", "teaches: %s"])
def test_what_comes_after_so_many_entries_of_a_list_is_said_and_not_read(written: str) -> None:
    for count in (MOST_LISTED, MOST_LISTED + 1):
        listed = written % ", ".join(["Am"] * count)
        read = read_page("p.md", f"```moves\nid: a\n{listed}\nsteps:\n- hold\n```\n")
        assert len(read.syntax.blocks[0].teaches) == MOST_LISTED
        said = [finding.message for finding in read.findings]
        assert said == ["`teaches` lists more than 100, and what follows these was not read"] * (count - MOST_LISTED)
        assert [finding.span.column for finding in read.findings] == [
            listed.rindex("Am") + 1 for _ in range(count - MOST_LISTED)
        ]


def test_a_block_a_line_over_the_bound_is_refused_unread() -> None:
    for lines, refused in ((MOST_LINES, False), (MOST_LINES + 1, True)):
        words = "    Keep quiet.\n" * (lines - 5)
        read = read_page("p.md", f"{HEAD}- move: hold\n  say: |\n{words}```\n")
        assert [finding.code for finding in read.findings] == [Code.BLOCK_TOO_LARGE] * refused


def test_what_is_refused_is_counted_in_bytes() -> None:
    for sign, refused in (("x", False), ("é", True)):
        words = sign * (MOST_BYTES // 2 + 100)
        read = read_page("p.md", f"{HEAD}- move: hold\n  say: {words}\n```\n")
        assert (Code.BLOCK_TOO_LARGE in [finding.code for finding in read.findings]) is refused
