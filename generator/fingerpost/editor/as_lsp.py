"""Our places and findings as the Language Server Protocol writes them."""

from __future__ import annotations

from collections.abc import Iterable

from lsprotocol import types

from fingerpost.course.rules.catalogue import CATALOGUE
from fingerpost.diagnostics import Diagnostic, Severity, Span
from fingerpost.editor.desk import Place
from fingerpost.editor.positions import Lines

SOURCE = "fingerpost"
WEIGHT = {
    Severity.ERROR: types.DiagnosticSeverity.Error,
    Severity.WARNING: types.DiagnosticSeverity.Warning,
    Severity.NOTE: types.DiagnosticSeverity.Information,
}


def range_of(span: Span, lines: Lines) -> types.Range:
    """A stretch of a text."""
    start, end = lines.to_client(span.line, span.column), lines.to_client(span.end_line, span.end_column)
    return types.Range(types.Position(*start), types.Position(*max(start, end)))


def findings_of(place: Place) -> list[Diagnostic]:
    """All findings about one open text, in order."""
    return [finding for finding in place.course.checked().findings if finding.span.file == place.file]


def diagnostic(finding: Diagnostic, lines: Lines) -> types.Diagnostic:
    """One finding, its expectation and its fix in the message, each on a line of its own as the check prints them."""
    return types.Diagnostic(
        range=range_of(finding.span, lines),
        message=message(finding),
        severity=WEIGHT[finding.severity],
        code=str(finding.code),
        source=SOURCE,
    )


def message(finding: Diagnostic) -> str:
    """What is wrong, what was expected, the nearest fix."""
    stop = "" if finding.message.endswith((".", "!", "?")) else "."
    said = [finding.message + stop]
    said += [f"expected: {finding.expected}"] if finding.expected else []
    said += [f"fix: {finding.fix}"] if finding.fix else []
    return "\n".join(said)


def diagnostics(findings: Iterable[Diagnostic], lines: Lines) -> list[types.Diagnostic]:
    """Findings in order."""
    return [diagnostic(finding, lines) for finding in findings]


def explanation(finding: Diagnostic) -> list[str]:
    """What the list of findings says of one: its title and why it matters."""
    told = CATALOGUE.get(finding.code)
    return [] if told is None else [f"{finding.code}: {told.title}", told.why]
