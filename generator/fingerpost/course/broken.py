"""Blocks with errors: which errors of reading are theirs, what the notice says in their place, what was meant."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from fingerpost.course.start import StartRead
from fingerpost.course.words import quoted
from fingerpost.diagnostics import Diagnostic, Severity, Span
from fingerpost.source.grammar import read_move
from fingerpost.source.syntax import BlockSyntax, MoveLine, Token


class ErrorsByBlock:
    """The errors that reading a page found, by block; both are gone through once, in order."""

    def __init__(self, findings: Iterable[Diagnostic]) -> None:
        self.left: Iterator[Diagnostic] = iter(sorted(f for f in findings if f.severity is Severity.ERROR))
        self.next = next(self.left, None)

    def inside(self, block: BlockSyntax) -> list[Diagnostic]:
        """Those within a block, which must come after the blocks asked for before."""
        out: list[Diagnostic] = []
        while self.next is not None and self.next.span.line <= block.span.end_line:
            if self.next.span.line >= block.span.line:
                out.append(self.next)
            self.next = next(self.left, None)
        return out


def meant_lines(syntax: BlockSyntax, errors: Iterable[Diagnostic]) -> dict[Span, MoveLine]:
    """For the steps that could not be read, the line that the fix of the finding about them writes."""
    fixes = {finding.span.line: finding.fix for finding in errors if finding.fix}
    out: dict[Span, MoveLine] = {}
    for step in syntax.steps:
        fix = fixes.get(step.span.line, "") if step.line is None else ""
        meant = read_move(Token(fix, step.span)).value if fix else None
        if meant is not None:
            out[step.span] = meant
    return out


def notice(errors: Iterable[Diagnostic], start: StartRead) -> tuple[str, ...]:
    """What is wrong with a broken block, a sentence each, in the order of the lines."""
    messages = tuple(_message(finding) for finding in sorted(errors))
    if start.waits_for:
        return (*messages, f"It goes on from the block {quoted(start.waits_for)}, which can't be made out.")
    return messages or ("It has no id, or a line that can't be followed.",)


def _message(finding: Diagnostic) -> str:
    expected = f" Expected: {finding.expected}." if finding.expected else ""
    return f"Line {finding.span.line}: {finding.message.removesuffix('.')}.{expected}"
