"""Findings as JSON, one object a line: a contract that other programs read."""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator

from fingerpost.diagnostics import Diagnostic


def as_object(finding: Diagnostic) -> dict[str, str | int]:
    """One finding with exactly the keys of the contract; places count from 1 in code points, the end is exclusive."""
    span = finding.span
    return {
        "file": span.file,
        "line": span.line,
        "column": span.column,
        "end_line": span.end_line,
        "end_column": span.end_column,
        "severity": str(finding.severity),
        "code": str(finding.code),
        "message": finding.message,
        "expected": finding.expected,
        "fix": finding.fix,
    }


def write(findings: Iterable[Diagnostic]) -> Iterator[str]:
    """A line for each finding."""
    # ASCII only: no sign of an author's text acts on the terminal that a line may be shown on.
    return (json.dumps(as_object(finding), ensure_ascii=True) for finding in findings)
