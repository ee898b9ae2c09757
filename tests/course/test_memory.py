"""What did not change is not worked out again; what depends on a change is. Work is counted, not timed."""

from __future__ import annotations

import sys

import pytest
from fingerpost.course.build import build
from fingerpost.course.memory import Memory
from fingerpost.course.settings import Settings
from fingerpost.source.page import PageRead, read_page

LINES = "- 1 off = Gadd9\n- 1 to A2 = G\n- 3 off = G6\n- 3 to e3 = G\n"


def _page(number: int, start: str = "2 E3, 1 A2, 3 e3 = G", lines: str = LINES) -> PageRead:
    return read_page(f"p{number}.md", f"# L\n\n```moves\nid: b{number}\nstart: {start}\nsteps:\n{lines}```\n")


def _made(memory: Memory, pages: list[PageRead], settings: Settings | None = None) -> int:
    """How many blocks a build works out; the course must be the one that a build without memory makes."""
    before = memory.made
    assert build(pages, settings or Settings(), memory) == build(pages, settings or Settings())
    return memory.made - before


def test_only_the_changed_lesson_is_worked_out() -> None:
    memory = Memory()
    pages = [_page(number) for number in range(5)]
    assert _made(memory, pages) == 5
    assert _made(memory, pages) == 0
    pages[2] = _page(2, lines=LINES + "- hold\n")
    assert _made(memory, pages) == 1
    assert _made(memory, [_page(number) for number in range(5)]) == 1


def test_what_goes_on_from_a_changed_block_is_worked_out_too() -> None:
    memory = Memory()
    pages = [_page(0), _page(1, "after b0"), _page(2)]
    assert _made(memory, pages) == 3
    assert _made(memory, [_page(0, lines=LINES + "- 4 to D5 = G\n"), *pages[1:]]) == 2


def test_other_settings_let_all_go() -> None:
    memory = Memory()
    pages = [_page(number) for number in range(3)]
    _made(memory, pages)
    assert _made(memory, pages, Settings(tries=9)) == 3


def test_a_name_that_settled_a_tie_elsewhere_counts() -> None:
    memory = Memory()
    first = [_page(0, "x02010/--2-1- = Am7", "- hold\n"), _page(1, "302010/3-2-1-", "- hold\n")]
    _made(memory, first)
    assert _made(memory, [_page(0, "x35555/-13333 = C6", "- hold\n"), first[1]]) == 2


def _calls(pages: list[PageRead]) -> int:
    """How many calls of Python functions a build makes."""
    count = 0

    def counting(frame: object, event: str, argument: object) -> None:
        nonlocal count
        count += event == "call"

    sys.setprofile(counting)
    try:
        build(pages, Settings())
    finally:
        sys.setprofile(None)
    return count


@pytest.mark.parametrize("shape", ["one long block", "many lessons"])
def test_the_work_grows_no_faster_than_the_steps(shape: str) -> None:
    def pages(size: int) -> list[PageRead]:
        return [_page(0, lines=LINES * size)] if shape == "one long block" else [_page(n) for n in range(size)]

    _calls(pages(20))
    # No block may have more than four hundred steps.
    small, large = _calls(pages(10)), _calls(pages(100))
    assert large < 11 * small


def test_the_work_on_errors_grows_no_faster_either() -> None:
    def pages(size: int) -> list[PageRead]:
        return [_page(0, lines="- 4 off = G\n- 2 to E9 = Gadd9\n- 1 to e19 = C\n" * size)]

    _calls(pages(20))
    small, large = _calls(pages(13)), _calls(pages(130))
    assert large < 11 * small


def test_only_the_changed_line_and_what_hangs_on_it_is_worked_out() -> None:
    memory = Memory(lines=Memory())
    assert memory.lines is not None
    lines = LINES * 25
    _made(memory, [_page(0, lines=lines)])
    before = memory.lines.made
    _made(memory, [_page(0, lines=lines.replace("- 1 off = Gadd9", "- 1 off = Gadd9 @0:01", 1))])
    assert 1 <= memory.lines.made - before <= 3


def test_a_name_that_settled_a_tie_elsewhere_counts_in_lines_too() -> None:
    memory = Memory(lines=Memory())
    second = _page(1, "302010/3-2-1-", "- hold\n")
    for first in ("x02010/--2-1- = Am7", "x35555/-13333 = C6", "x02010/--2-1- = Am7"):
        _made(memory, [_page(0, first, "- hold\n"), second])
