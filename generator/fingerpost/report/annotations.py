"""Findings as workflow commands, one a line, which a CI host shows beside the lines of a change.

The host shows a few of each weight for one step, so the worst come first and the rest is counted. In a message `%`, CR
and LF are escaped, in a property also `:` and `,`, so that no text of the author's can end a command or begin one.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence

from fingerpost.diagnostics import Diagnostic, Severity
from fingerpost.report.sarif import sentences
from fingerpost.report.text import summary
from fingerpost.report.visible import visible

MOST_OF_A_WEIGHT = 10
COMMANDS: Mapping[Severity, str] = {Severity.ERROR: "error", Severity.WARNING: "warning", Severity.NOTE: "notice"}
_IN_MESSAGE = str.maketrans({"%": "%25", "\r": "%0D", "\n": "%0A"})
_IN_PROPERTY = _IN_MESSAGE | str.maketrans({":": "%3A", ",": "%2C"})
_BREAK = re.compile("([\r\n])")


def write(findings: Sequence[Diagnostic], pages: int) -> Iterator[str]:
    """The commands, errors first and each weight in the order of its places, then a line that counts all of them."""
    shown = 0
    for weight in Severity:
        chosen = [finding for finding in findings if finding.severity is weight][:MOST_OF_A_WEIGHT]
        shown += len(chosen)
        yield from map(command, chosen)
    more = len(findings) - shown
    yield summary(findings, pages) + (f" {more} more are not shown here: run `fingerpost check`." if more else "")


def command(finding: Diagnostic) -> str:
    """One finding as a command. The end is named where it is on the same line, as the host asks."""
    span = finding.span
    properties = {"file": span.file, "line": span.line, "col": span.column, "endLine": span.end_line}
    if span.end_line == span.line and span.end_column > span.column:
        properties["endColumn"] = span.end_column
    properties["title"] = str(finding.code)
    said = ",".join(f"{name}={_escaped(str(value), _IN_PROPERTY)}" for name, value in properties.items())
    return f"::{COMMANDS[finding.severity]} {said}::{_escaped(sentences(finding), _IN_MESSAGE)}"


def _escaped(text: str, by: Mapping[int, str]) -> str:
    """The text with what has a meaning escaped, and every other control character made visible."""
    pieces = _BREAK.split(text)
    return "".join(piece if piece in ("\r", "\n") else visible(piece) for piece in pieces).translate(by)
