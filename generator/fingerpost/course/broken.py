"""Blocks with errors: which errors of reading are theirs, and what the notice says in their place."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from fingerpost.course.start import StartRead
from fingerpost.course.words import quoted
from fingerpost.diagnostics import Diagnostic, Severity
from fingerpost.source.syntax import BlockSyntax


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


def notice(errors: Iterable[Diagnostic], start: StartRead) -> tuple[str, ...]:
    """What is wrong with a broken block, a sentence each, in the order of the lines."""
    messages = tuple(dict.fromkeys(_message(finding) for finding in sorted(errors)))
    if start.waits_for:
        return (*messages, f"It goes on from the block {quoted(start.waits_for)}, which can't be made out.")
    return messages or ("It has no id, or a line that can't be followed.",)


def _message(finding: Diagnostic) -> str:
    expected = f" Expected: {finding.expected}." if finding.expected else ""
    return f"Line {finding.span.line}: {finding.message.removesuffix('.')}.{expected}"
