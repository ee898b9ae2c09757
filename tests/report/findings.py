"""Findings for the tests of this folder, among them some whose text would do harm where it is not escaped."""

from __future__ import annotations

from fingerpost.diagnostics import Code, Diagnostic, Edit, Severity, Span

FOUND = Diagnostic(
    Span("course/fog.md", 14, 3, 14, 8),
    Severity.ERROR,
    Code.FINGER_NOT_DOWN,
    "Finger 3 is not down",
    "a finger that is down: 1 or 2",
    "2 off",
)
FIXABLE = Diagnostic(
    Span("the course/é, fog.md", 2, 1, 3, 4),
    Severity.WARNING,
    Code.BAD_VALUE,
    "A slip",
    "a word",
    "another",
    (Edit(Span("the course/é, fog.md", 2, 1, 2, 1), "x "), Edit(Span("the course/é, fog.md", 3, 1, 3, 4), "")),
)
HOSTILE = Diagnostic(
    Span("a\n::stop-commands::x,b:%.md", 1, 1, 1, 2),
    Severity.NOTE,
    Code.BAD_VALUE,
    "100 %\r\n::error::\x1b[31m\u202ex",
)


def many(weight: Severity, count: int) -> list[Diagnostic]:
    """So many findings of one weight, on one line each."""
    return [Diagnostic(Span("a.md", line, 1, line, 2), weight, Code.BAD_VALUE, "No") for line in range(1, count + 1)]
