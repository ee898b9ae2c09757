"""What the guide says of each finding's weight, and of which `--fix` mends, is what is found in all cases."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator

from fingerpost.course.rules.weights import MENDED, weights
from fingerpost.diagnostics import Code, Diagnostic, Severity
from fingerpost.source.page import read_page

from tests.source.cases import pages

from .cases import cases


def _all() -> Iterator[Diagnostic]:
    for case in cases():
        yield from case.findings()
    for case in pages():
        yield from read_page("page.md", case.page).findings


FOUND = list(_all())


def test_no_case_finds_with_another_weight() -> None:
    seen: defaultdict[Code, set[Severity]] = defaultdict(set)
    for finding in FOUND:
        seen[finding.code].add(finding.severity)
    assert {code: found - set(weights(code)) for code, found in seen.items() if found - set(weights(code))} == {}


def test_what_is_mended_is_what_has_edits_in_some_case() -> None:
    assert {finding.code for finding in FOUND if finding.edits} == MENDED


def test_a_note_or_a_warning_is_not_said_of_a_code_that_never_is_one() -> None:
    shown = {(finding.code, finding.severity) for finding in FOUND}
    of_pages = {code for code, _ in shown}
    told = {(code, weight) for code in of_pages for weight in weights(code)}
    assert told - shown == set()
