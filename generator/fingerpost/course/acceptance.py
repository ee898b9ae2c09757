"""Which findings the author has accepted in place, and what is wrong with the acceptances themselves.

Warnings and notes can be accepted, and those errors that are a matter of taste or order. What makes a page wrong or
unreadable can't: the reader would pay for it.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace

from fingerpost.course.option_values import nearest
from fingerpost.course.slip import warning
from fingerpost.course.words import quoted
from fingerpost.diagnostics import Code, Diagnostic, Edit, Severity
from fingerpost.source.acceptances import Acceptance

ACCEPTABLE_ERRORS = frozenset(
    (
        Code.NAME_IS_LOOSE,
        Code.TIE_DECIDED_OTHERWISE,
        Code.MENTION_DENIED,
        Code.USED_BEFORE_TAUGHT,
        Code.DEAD_LINK,
        Code.BLOCKED_BY_POLICY,
        Code.FENCE_MISWRITTEN,
        Code.MENTION_MISWRITTEN,
    )
)
"""The errors that can be accepted; every warning and every note can."""

ABOUT_ACCEPTANCES = frozenset(
    (Code.ACCEPTANCE_WITHOUT_REASON, Code.ACCEPTANCE_UNKNOWN, Code.ACCEPTANCE_REFUSED, Code.ACCEPTANCE_LAPSED)
)
_CODES = {str(code): code for code in Code}


@dataclass(frozen=True)
class Settled:
    """Findings that stand, those about acceptances among them, and findings that are accepted; each by place."""

    standing: tuple[Diagnostic, ...]
    accepted: tuple[Diagnostic, ...]


class Accepting:
    """The acceptances of a page or of a course that hold: each with a known code and a reason."""

    def __init__(self, acceptances: Iterable[Acceptance] = ()) -> None:
        self.all = tuple(acceptances)
        self.by_place: dict[tuple[str, Code], list[tuple[Acceptance, range]]] = {}
        for one in self.all:
            code = _CODES.get(one.code.text.lower())
            if code is not None and one.reason and one.covers is not None:
                lines = range(one.covers[0], one.covers[1] + 1)
                self.by_place.setdefault((one.span.file, code), []).append((one, lines))

    def of(self, finding: Diagnostic) -> list[Acceptance]:
        """The acceptances that name this finding's code and cover its line, whether it may be accepted or not."""
        named = self.by_place.get((finding.span.file, finding.code), ())
        return [one for one, lines in named if finding.span.line in lines]

    def take(self, finding: Diagnostic) -> bool:
        """Whether the finding is accepted."""
        return may_be_accepted(finding) and bool(self.of(finding))


def may_be_accepted(finding: Diagnostic) -> bool:
    """Whether an author may let this finding be."""
    if finding.code in ABOUT_ACCEPTANCES:
        return False
    return finding.severity is not Severity.ERROR or finding.code in ACCEPTABLE_ERRORS


def settle(findings: Iterable[Diagnostic], acceptances: Iterable[Acceptance]) -> Settled:
    """Takes out what is accepted, and adds what is wrong with the acceptances of the pages.

    An acceptance that accepts nothing is told only where no error stands: after an error, findings that hang on it are
    held back, and what they would be accepted by must not be taken out meanwhile.
    """
    accepting, found = Accepting(acceptances), _once_each(findings)
    accepted = {finding for finding in found if accepting.take(finding)}
    standing = found - accepted
    met = {one: finding for finding in found for one in accepting.of(finding)}
    met |= {one: finding for finding in accepted for one in accepting.of(finding)}
    lapses = not any(finding.severity is Severity.ERROR for finding in standing)
    faults = {fault for one in accepting.all for fault in _faults(one, met.get(one), lapses)}
    return Settled(tuple(sorted(standing | faults)), tuple(sorted(accepted)))


def _once_each(findings: Iterable[Diagnostic]) -> set[Diagnostic]:
    """The findings without those that another one repeats with a fix, which its block's meaning gave."""
    found = set(findings)
    return found - {replace(finding, fix="") for finding in found if finding.fix}


def _faults(one: Acceptance, met: Diagnostic | None, lapses: bool) -> Iterator[Diagnostic]:
    """What is wrong with an acceptance; met: a finding with its code on a line that it covers."""
    written = one.code.text
    if written.lower() not in _CODES:
        yield _unknown(one)
    elif not one.reason:
        message = f"{quoted(written)} is to be accepted without a reason, so it is not"
        expected = "a colon after the code and why it may stay, such as `the recording says it so`"
        yield warning(one.span, Code.ACCEPTANCE_WITHOUT_REASON, message, expected)
    elif met is not None and not may_be_accepted(met):
        message = f"{quoted(written)} can't be accepted here: the page would be wrong or unreadable"
        yield warning(one.code.span, Code.ACCEPTANCE_REFUSED, message, f"this put right: {met.message}", met.fix)
    elif met is None and lapses:
        message = f"There is no finding {quoted(written)} here that could be accepted"
        edits = (Edit(one.removal, ""),)
        yield warning(one.span, Code.ACCEPTANCE_LAPSED, message, "no comment that accepts it", "take it out", edits)


def _unknown(one: Acceptance) -> Diagnostic:
    written = one.code.text
    message = f"There is no finding {quoted(written)}"
    expected = "the code in brackets at the end of a finding's first line"
    return warning(one.code.span, Code.ACCEPTANCE_UNKNOWN, message, expected, nearest(written.lower(), _CODES))
