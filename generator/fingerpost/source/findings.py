"""The findings of one block while it is read, bounded so that a hostile block stays cheap and its report readable."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field

from fingerpost.diagnostics import Code, Diagnostic, Edit, Severity, Span

MOST_FINDINGS = 200
"""After so many the rest of the block is left unread, and a last finding says so. By our own choice."""


LONGEST_QUOTE = 40


def quoted(text: str) -> str:
    """The author's own text in a sentence, cut where it is very long."""
    return f"`{text if len(text) <= LONGEST_QUOTE else text[:LONGEST_QUOTE] + '…'}`"


@dataclass(slots=True)
class Findings:
    """A list that is full at MOST_FINDINGS."""

    found: list[Diagnostic] = field(default_factory=list)

    @property
    def full(self) -> bool:
        """Whether there are so many that reading on serves nobody."""
        return len(self.found) >= MOST_FINDINGS

    def add(self, findings: Iterable[Diagnostic]) -> None:
        """Adds findings as they come."""
        self.found.extend(findings)

    def error(self, span: Span, code: Code, message: str, expected: str = "", fix: str = "", *edits: Edit) -> None:
        """Something that can't be read or makes the page wrong."""
        self.found.append(Diagnostic(span, Severity.ERROR, code, message, expected, fix, edits))

    def slip(self, span: Span, message: str, expected: str, fix: str, *edits: Edit) -> None:
        """Something that is read as it was meant, and should be written otherwise."""
        self.found.append(Diagnostic(span, Severity.WARNING, Code.BAD_VALUE, message, expected, fix, edits))

    def all(self, block: Span) -> tuple[Diagnostic, ...]:
        """All findings by place, with one about the block where the list was full."""
        if self.full:
            message = f"This block has {MOST_FINDINGS} faults or more; what follows them was not read"
            self.error(block, Code.BLOCK_UNREADABLE, message, "a block that can be read")
        return tuple(sorted(self.found))
