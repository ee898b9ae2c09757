"""Bytes of a file to text: never refused; what is not UTF-8 is shown as U+FFFD and reported where it stands."""

from __future__ import annotations

from fingerpost.diagnostics import Code, Diagnostic, Severity, Span

MOST_PLACES = 20
"""Faults reported one by one; a file in another encoding has thousands."""


def read_bytes(file: str, data: bytes) -> tuple[str, tuple[Diagnostic, ...]]:
    """The text without byte-order mark, and a finding for each run of bytes that is not UTF-8."""
    try:
        return data.decode("utf-8-sig"), ()
    except UnicodeDecodeError:
        text = data.decode("utf-8-sig", "replace")
    return text, _faults(file, text)


def _faults(file: str, text: str) -> tuple[Diagnostic, ...]:
    found: list[Diagnostic] = []
    for number, line in enumerate(text.replace("\r\n", "\n").replace("\r", "\n").split("\n"), 1):
        start = line.find("\ufffd")
        while start >= 0 and len(found) < MOST_PLACES:
            end = start
            while line[end : end + 1] == "\ufffd":
                end += 1
            found.append(_fault(Span(file, number, start + 1, number, end + 1)))
            start = line.find("\ufffd", end)
    return tuple(found)


def _fault(span: Span) -> Diagnostic:
    message = "Here stand bytes that are no text in UTF-8; the page shows “\ufffd” for them"
    fix = "Save the file as UTF-8 and write the character anew."
    return Diagnostic(span, Severity.ERROR, Code.INVALID_UTF8, message, "a file saved as UTF-8", fix)
