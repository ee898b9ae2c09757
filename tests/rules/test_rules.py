"""Every finding at its place: the cases of this folder, and what must hold of every finding."""

from __future__ import annotations

import re
from dataclasses import replace
from importlib import import_module
from pathlib import Path

import pytest
from fingerpost.course import rules
from fingerpost.course.rules.catalogue import CATALOGUE, explain
from fingerpost.diagnostics import Code, Diagnostic
from fingerpost.workspace.edits import edited

from .cases import Case, cases

CASES = list(cases())
RULES = Path(rules.__path__[0])
OF_READING = {
    *(code for code in Code if code.value.startswith(("block-", "fence-", "invalid-", "unreadable-"))),
    *(Code.ANCHOR_OR_TAG, Code.UNKNOWN_KEY, Code.DUPLICATE_KEY, Code.MISSING_KEY, Code.FRONT_MATTER),
    *(Code.BAD_SETTING, Code.MISSING_IMAGE, Code.DEAD_REDIRECT, Code.PAGE_NOT_IN_NAV),
}
"""Codes that the reading of text, settings and files gives; their cases stand in tests/source and tests/workspace."""


@pytest.mark.parametrize("case", CASES, ids=str)
def test_finds_exactly_what_the_case_says(case: Case) -> None:
    assert case.found() == case.expected


@pytest.mark.parametrize("case", CASES, ids=str)
def test_every_finding_lies_within_its_page_and_says_something(case: Case) -> None:
    pages = dict(case.pages)
    for finding in case.findings():
        span = finding.span
        lines = pages[span.file].split("\n")
        assert (span.line, span.column) < (span.end_line, span.end_column)
        assert span.end_column <= len(lines[span.end_line - 1]) + 1
        assert lines[span.line - 1][span.column - 1].strip()
        assert finding.message
        assert finding.message[0].isupper() or not finding.message[0].isalpha()
        assert finding.expected


def test_every_code_of_meaning_has_a_case() -> None:
    shown = {line.partition(" -> ")[0].split()[-1] for case in CASES for line in case.expected}
    assert {str(code) for code in set(Code) - OF_READING} <= shown


def test_every_code_is_explained_once() -> None:
    assert list(CATALOGUE) == list(Code)
    for code in Code:
        told = explain(code)
        assert all((told.title, told.why, told.example, told.instead))
        assert told.example != told.instead


EDITED = [(case, finding) for case in CASES for finding in case.findings() if finding.edits]


@pytest.mark.parametrize(("case", "finding"), EDITED, ids=lambda value: str(value) if isinstance(value, Case) else "")
def test_a_safe_fix_removes_its_finding_and_brings_no_other(case: Case, finding: Diagnostic) -> None:
    (edit,) = finding.edits
    pages = tuple((name, edited(text, (edit,)) if name == edit.span.file else text) for name, text in case.pages)
    after = replace(case, pages=pages).findings()
    kinds = sorted((found.code, found.message) for found in case.findings())
    kinds.remove((finding.code, finding.message))
    assert sorted((found.code, found.message) for found in after) == kinds


def test_there_are_safe_fixes() -> None:
    assert len(EDITED) >= 8


def test_every_rule_has_its_reasons_in_a_file_of_its_own_idea() -> None:
    """A newcomer finds a rule by the name of its file, and the place where it is found by what that says."""
    explained: dict[Code, str] = {}
    for path in sorted(RULES.glob("*.py")):
        module = import_module(f"{rules.__name__}.{path.stem}") if path.stem != "__init__" else rules
        for code in getattr(module, "REASONS", {}):
            assert explained.setdefault(code, path.stem) == path.stem
            words = {word.rstrip("s") for word in path.stem.split("_")}
            assert words & {word.rstrip("s") for word in str(code).split("-")}, (code, path.stem)
        for found_in in re.findall(r"(?:source|course|workspace)/\w+\.py", module.__doc__ or ""):
            assert (RULES.parents[1] / found_in).is_file(), (path.stem, found_in)
    assert set(explained) == set(Code)
