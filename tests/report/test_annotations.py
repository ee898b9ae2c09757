"""Workflow commands: escaped as the host asks, the worst first, no more than it shows.

The escapes and the ten of each weight are those of standards.md, "Open formats".
"""

from __future__ import annotations

import re

from fingerpost.diagnostics import Severity
from fingerpost.report import annotations

from .findings import FIXABLE, FOUND, HOSTILE, many


def test_a_finding_is_one_line() -> None:
    assert annotations.command(FOUND) == (
        "::error file=course/fog.md,line=14,col=3,endLine=14,endColumn=8,title=finger-not-down::"
        "Finger 3 is not down. Expected: a finger that is down: 1 or 2. Fix: 2 off."
    )


def test_a_finding_over_several_lines_names_no_end_column() -> None:
    assert annotations.command(FIXABLE).startswith(
        "::warning file=the course/é%2C fog.md,line=2,col=1,endLine=3,title="
    )


def test_no_text_ends_a_command_or_begins_one() -> None:
    (line, _) = annotations.write([HOSTILE], 1)
    assert line.startswith("::notice file=a%0A%3A%3Astop-commands%3A%3Ax%2Cb%3A%25.md,")
    assert "100 %25%0D%0A::error::" in line
    assert not re.search(r"[\x00-\x1f\x7f-\x9f\u202e]", line)


def test_the_worst_come_first_and_the_rest_is_counted() -> None:
    findings = [*many(Severity.NOTE, 12), *many(Severity.WARNING, 11), *many(Severity.ERROR, 13)]
    *commands, last = annotations.write(findings, 3)
    assert [line.split()[0] for line in commands] == ["::error"] * 10 + ["::warning"] * 10 + ["::notice"] * 10
    assert [int(line.partition("line=")[2].partition(",")[0]) for line in commands[:10]] == list(range(1, 11))
    assert last == "13 errors, 11 warnings, 12 notes in 3 pages. 6 more are not shown here: run `fingerpost check`."


def test_nothing_found_is_one_plain_line() -> None:
    assert list(annotations.write([], 2)) == ["Nothing to put right in 2 pages."]
