"""A slip in the text, found while its meaning is made out; raised, caught at the line that it spoils, and reported."""

from __future__ import annotations

from fingerpost.diagnostics import Code, Diagnostic, Edit, Severity, Span


class Slip(Exception):  # noqa: N818 - the name says what it is to the reader of a finding
    """Carries the finding that says what is wrong with the text here."""

    def __init__(self, finding: Diagnostic) -> None:
        super().__init__(finding.message)
        self.finding = finding


def error(
    span: Span, code: Code, message: str, expected: str = "", fix: str = "", edits: tuple[Edit, ...] = ()
) -> Diagnostic:
    """A finding that makes the page wrong."""
    return Diagnostic(span, Severity.ERROR, code, message, expected, fix, edits)


def warning(
    span: Span, code: Code, message: str, expected: str = "", fix: str = "", edits: tuple[Edit, ...] = ()
) -> Diagnostic:
    """A finding that is likely a slip."""
    return Diagnostic(span, Severity.WARNING, code, message, expected, fix, edits)


def note(
    span: Span, code: Code, message: str, expected: str = "", fix: str = "", edits: tuple[Edit, ...] = ()
) -> Diagnostic:
    """A finding that is advice."""
    return Diagnostic(span, Severity.NOTE, code, message, expected, fix, edits)


def slip(span: Span, code: Code, message: str, expected: str = "", fix: str = "") -> Slip:
    """The same as `error`, to be raised."""
    return Slip(error(span, code, message, expected, fix))
