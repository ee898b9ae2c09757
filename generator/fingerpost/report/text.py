"""Findings as text for a person: place, what is wrong, the line itself, what was expected, the fix, and a count."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence

from fingerpost.diagnostics import Diagnostic, Severity, Span
from fingerpost.report.paint import Paint, plain
from fingerpost.report.visible import visible

LineOf = Callable[[str, int], str | None]
LONGEST_LINE = 120
_PLURAL = {Severity.ERROR: "errors", Severity.WARNING: "warnings", Severity.NOTE: "notes"}


def write(findings: Sequence[Diagnostic], line_of: LineOf, pages: int, paint: Paint = plain) -> Iterator[str]:
    """The report, line by line. line_of gives a line of a file (counted from 1) or None; pages: how many were read."""
    for finding in findings:
        yield from finding_lines(finding, line_of, paint)
        yield ""
    yield summary(findings, pages)


def finding_lines(finding: Diagnostic, line_of: LineOf, paint: Paint = plain) -> Iterator[str]:
    """One finding: its place and message, the source line with a mark under it, what was expected, the fix."""
    span, weight = finding.span, paint(str(finding.severity), finding.severity)
    place, code = paint(f"{place_of(span)}:", "place"), paint(f"[{finding.code}]", "dim")
    yield f"{place} {weight}: {visible(full_stop(finding.message))} {code}"
    yield from _source(span, line_of(span.file, span.line), paint)
    if finding.expected:
        yield f"  {paint('expected:', 'dim')} {visible(finding.expected)}"
    if finding.fix:
        yield f"  {paint('fix:', 'dim')} {visible(finding.fix)}"


def place_of(span: Span) -> str:
    """`file:line:column`, as editors read it."""
    return f"{visible(span.file)}:{span.line}:{span.column}"


def one_line(finding: Diagnostic) -> str:
    """A finding in one line, for a log."""
    tail = "".join(
        f" {label}: {full_stop(text)}" for label, text in (("Expected", finding.expected), ("Fix", finding.fix)) if text
    )
    return visible(f"{place_of(finding.span)}: {full_stop(finding.message)}{tail} [{finding.code}]")


def summary(findings: Iterable[Diagnostic], pages: int) -> str:
    """How many findings of each weight, and over how many pages."""
    found = list(findings)
    counts = [(sum(finding.severity is weight for finding in found), weight) for weight in Severity]
    said = [f"{count} {weight if count == 1 else _PLURAL[weight]}" for count, weight in counts if count]
    where = "1 page" if pages == 1 else f"{pages} pages"
    return f"{', '.join(said) or 'Nothing to put right'} in {where}."


def accepted(count: int) -> str:
    """How many findings the authors let be."""
    return f"{count} finding{'s are' if count > 1 else ' is'} accepted in place, with a reason."


def full_stop(sentence: str) -> str:
    """The sentence with a full stop, unless it ends in a mark of its own."""
    return sentence if sentence.endswith((".", "!", "?")) else f"{sentence}."


def _source(span: Span, line: str | None, paint: Paint) -> Iterator[str]:
    """The line and a row of carets under the span, tabs kept so that the carets stand where they should."""
    if line is None or not line.strip():
        return
    start = max(0, span.column - 1 - LONGEST_LINE // 2) if len(line) > LONGEST_LINE else 0
    shown = visible(line[start : start + LONGEST_LINE])
    before = shown[: span.column - 1 - start]
    last = span.end_column - 1 - start if span.end_line == span.line else len(shown)
    width = max(1, min(last, len(shown)) - len(before))
    margin = str(span.line)
    lead = "".join(char if char == "\t" else " " for char in before)
    yield f"  {paint(f'{margin} |', 'dim')} {shown}"
    yield f"  {paint(' ' * len(margin) + ' |', 'dim')} {lead}{paint('^' * width, 'mark')}"
