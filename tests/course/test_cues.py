"""The cue that is out of order is told, not the right ones beside it; and what was meant, where one time alone fits."""

from __future__ import annotations

import pytest
from fingerpost.course.build import build
from fingerpost.course.settings import Settings
from fingerpost.diagnostics import Code
from fingerpost.source.page import read_page

Told = list[tuple[str, str]]


def told(*cues: str) -> Told:
    """The cues that are told, each with its fix."""
    steps = "".join(f"- {'3 off' if at % 2 == 0 else '3 to G2'} @{cue}\n" for at, cue in enumerate(cues))
    text = f"```moves\nid: a\nstart: x02210/--231- = Am\nsteps:\n{steps}```\n"
    _, found = build([read_page("a.md", text)], Settings())
    lines = text.split("\n")
    return [
        (lines[finding.span.line - 1][finding.span.column - 1 : finding.span.end_column - 1], finding.fix)
        for finding in found
        if finding.code is Code.CUES_OUT_OF_ORDER
    ]


@pytest.mark.parametrize(
    ("cues", "expected"),
    [
        (("0:38", "0:52", "1:05", "1:21"), []),
        (("0:38", "0:38", "1:05"), []),
        (("0:38", "0:52", "0:05", "1:21"), [("0:05", "1:05")]),
        (("0:38", "5:02", "1:05", "1:21"), [("5:02", "0:52")]),
        (("0:38", "0:52", "5:01", "1:21"), [("5:01", "1:01")]),
        (("0:38", "9:52", "1:05", "1:21"), [("9:52", "0:52")]),
        (("8:38", "0:52", "1:05", "1:21"), [("8:38", "0:38")]),
        (("0:38", "0:52", "1:05", "0:01"), [("0:01", "")]),
        (("0:38", "5:02", "1:05"), [("5:02", "0:52")]),
        (("5:02", "1:05"), [("5:02", "0:52")]),
        (("0:41", "0:14"), [("0:14", "")]),
        (("0:41", "0:14", "1:02", "1:02"), [("0:14", "")]),
        (("0:10", "9:59", "9:58", "0:20", "0:30", "0:40"), [("9:59", ""), ("9:58", "")]),
        (("0:59:58", "1:59:59", "1:00:01"), [("1:59:59", "0:59:59")]),
        (("0:01.5", "0:10.5", "0:03.5"), [("0:10.5", "")]),
    ],
)
def test_the_longest_ordered_run_is_right(cues: tuple[str, ...], expected: Told) -> None:
    assert told(*cues) == expected


def test_a_message_names_the_cue_that_it_clashes_with() -> None:
    text = "```moves\nid: a\nstart: open\nsteps:\n- hold @0:38\n- hold @5:02\n- hold @1:05\n```\n"
    _, found = build([read_page("a.md", text)], Settings())
    (finding,) = [finding for finding in found if finding.code is Code.CUES_OUT_OF_ORDER]
    assert finding.message == "The cue `5:02` comes after `1:05`, the one below it"
    assert finding.expected == "a time from 0:38 to 1:05"


def test_all_but_one_of_the_cues_that_run_backwards_are_told() -> None:
    assert len(told(*(f"{(500 - at) // 60}:{(500 - at) % 60:02}" for at in range(300)))) == 299
