"""A review, whole: two courses compared, what is found in one and not in the other, and between which commits."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass

from fingerpost.course.comparison.difference import Comparison
from fingerpost.diagnostics import Diagnostic, Severity

_NUMBERED_LINE = re.compile(r"\blines? \d+")


@dataclass(frozen=True)
class Review:
    """What a review tells. base and head are commit ids, parting is where they parted; docs is the folder of pages.

    findings_new: what the change brings with it; findings_gone: what it puts right.
    """

    base: str
    parting: str
    head: str
    docs: str
    comparison: Comparison
    findings_new: tuple[Diagnostic, ...]
    findings_gone: tuple[Diagnostic, ...]
    settings_file: str = "mkdocs.yml"

    @property
    def errors_new(self) -> int:
        """How many errors the change brings with it."""
        return sum(finding.severity is Severity.ERROR for finding in self.findings_new)

    def path(self, file: str) -> str:
        """A page's file as a path from the repository's root."""
        return f"{self.docs}/{file}" if self.docs else file


def only_after(before: Sequence[Diagnostic], after: Sequence[Diagnostic]) -> tuple[Diagnostic, ...]:
    """The findings of `after` that `before` has not; one that only moved, to another line or file, is the same."""
    left = Counter(map(_in_file, before))
    rest = [finding for finding in after if not _taken(left, _in_file(finding))]
    moved = Counter(key[1:] for key in left.elements())
    return tuple(finding for finding in rest if not _taken(moved, _in_file(finding)[1:]))


def _taken(left: Counter[tuple[str, ...]], key: tuple[str, ...]) -> bool:
    """Whether there was one left of this kind; it is taken away."""
    if left[key] <= 0:
        return False
    left[key] -= 1
    return True


def _in_file(finding: Diagnostic) -> tuple[str, ...]:
    return (finding.span.file, str(finding.code), _NUMBERED_LINE.sub("line", finding.message))


def counted(number: int, one: str, many: str = "") -> str:
    """`1 page`, `2 pages`."""
    return f"{number} {one if number == 1 else many or one + 's'}"


def shortened(commit: str) -> str:
    """A commit's id as people write it."""
    return commit[:10]
