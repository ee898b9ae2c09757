"""Edits put into a text: what they do not name keeps every character, line endings and byte-order mark included."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterable, Sequence

from fingerpost.diagnostics import Diagnostic, Edit, Span

LINE_END = re.compile(r"\r\n|\r|\n")
Place = tuple[int, int]


def chosen(findings: Iterable[Diagnostic]) -> tuple[Diagnostic, ...]:
    """The findings whose edits can be made together: one that touches an earlier one's edit has to wait."""
    taken: set[Edit] = set()
    out: list[Diagnostic] = []
    for finding in findings:
        new = [edit for edit in finding.edits if edit not in taken]
        if finding.edits and not any(_touch(edit.span, other.span) for edit in new for other in taken):
            taken.update(new)
            out.append(finding)
    return tuple(out)


def edited(text: str, edits: Iterable[Edit]) -> str:
    """The text with edits that do not touch each other. Line ends of any kind count as one line's end.

    A line end in an edit becomes that of the text. Raises IndexError for a place that the text does not have.
    """
    starts = [0, *(found.end() for found in LINE_END.finditer(text))]
    ends = [*(found.start() for found in LINE_END.finditer(text)), len(text)]
    newline = _newline(text)
    for edit in sorted(set(edits), reverse=True):
        start = _offset(starts, ends, (edit.span.line, edit.span.column))
        end = _offset(starts, ends, (edit.span.end_line, edit.span.end_column))
        text = text[:start] + edit.text.replace("\n", newline) + text[end:]
    return text


def _offset(starts: Sequence[int], ends: Sequence[int], place: Place) -> int:
    line, column = place
    offset = starts[line - 1] + column - 1
    if line < 1 or column < 1 or offset > ends[line - 1]:
        raise IndexError(f"there is no place {line}:{column}")
    return offset


def _newline(text: str) -> str:
    """The line end that the text uses most; LF where it has none."""
    return max(Counter(LINE_END.findall(text)).items(), key=lambda kind: kind[1], default=("\n", 0))[0]


def _touch(one: Span, other: Span) -> bool:
    """Whether two stretches share a place; an end that meets a beginning counts."""
    if one.file != other.file:
        return False
    return _start(one) <= _end(other) and _start(other) <= _end(one)


def _start(span: Span) -> Place:
    return span.line, span.column


def _end(span: Span) -> Place:
    return span.end_line, span.end_column
