"""A block within the bounds on its size that was made to cost much: what is spelled out of it stays short."""

from __future__ import annotations

import pytest
from fingerpost.course.build import build
from fingerpost.course.settings import Settings
from fingerpost.diagnostics import Code
from fingerpost.source.block import MOST_BYTES, MOST_LINES
from fingerpost.source.page import read_page

HEAD = "```moves\nid: a\nstart: x02210/--231-\nsteps:\n"
LINES = (MOST_LINES - 10) // 2


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


def test_a_block_a_line_over_the_bound_is_refused_unread() -> None:
    for lines, refused in ((MOST_LINES, False), (MOST_LINES + 1, True)):
        steps = "- hold\n" * (lines - 3)
        read = read_page("p.md", f"{HEAD}{steps}```\n")
        assert [finding.code for finding in read.findings] == [Code.BLOCK_TOO_LARGE] * refused


def test_what_is_refused_is_counted_in_bytes() -> None:
    for sign, refused in (("x", False), ("é", True)):
        words = sign * (MOST_BYTES // 2 + 100)
        read = read_page("p.md", f"{HEAD}- move: hold\n  say: {words}\n```\n")
        assert (Code.BLOCK_TOO_LARGE in [finding.code for finding in read.findings]) is refused
