"""One page put through everything that reads or shows it, and what must hold of that."""

from __future__ import annotations

import time
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from typing import TypeVar

from fingerpost.course.build import build
from fingerpost.course.settings import Settings
from fingerpost.diagnostics import Diagnostic
from fingerpost.report import annotations, json, sarif, text
from fingerpost.site.extension import FingerpostExtension
from fingerpost.source.page import read_page
from markdown import Markdown

from .allowed import foreign

FILE = "page.md"
MOST_SECONDS = 0.1
"""What a block may cost to check, in processor seconds; to show, SECONDS_A_STEP more for each picture and table."""
SECONDS_A_STEP = 0.01
PAUSES = (0.0, 0.0, 0.1, 0.5, 1.0, 2.0, 5.0)
"""What seems slow is measured again after so many seconds each: beside a busy neighbour all takes up to twice as long,
and that may last a while."""
TERMINAL_SIGNS = frozenset(chr(code) for code in (*range(32), *range(127, 160))) - {"\t", "\n"}
MARKDOWN = Markdown(extensions=[FingerpostExtension()])
T = TypeVar("T")


class BrokenPromiseError(AssertionError):
    """Something that must hold of every page does not hold of this one."""


@dataclass
class Tally:
    """What a run has seen; slowest: processor seconds and the page, of checking and of showing.

    timely: whether a slow page breaks a promise; not in tests, since a busy machine is slow."""

    checked: int = 0
    shown: int = 0
    findings: int = 0
    drawn: int = 0
    slowest: dict[str, tuple[float, str]] = field(default_factory=dict)
    timely: bool = True

    def timed(self, what: str, seconds: float, page: str) -> None:
        """Keeps the slowest of each."""
        if seconds > self.slowest.get(what, (0.0, ""))[0]:
            self.slowest[what] = (seconds, page)


def checked(page: str) -> tuple[Diagnostic, ...]:
    """The findings of a page that is a course by itself."""
    read = read_page(FILE, page)
    _, found = build([read], Settings(), for_pages=False)
    return tuple(sorted({*read.findings, *found}))


def in_time(what: str, make: Callable[[str], T], page: str, most: float, tally: Tally) -> T:
    """What is made of a page, in no more processor seconds than `most`.

    Of several measures the least tells, since what disturbs only ever slows.
    """
    made, took = _timed(make, page)
    for pause in PAUSES if tally.timely else ():
        if took <= most:
            break
        time.sleep(pause)
        took = min(took, _timed(make, page)[1])
    tally.timed(what, took, page)
    if tally.timely and took > most:
        raise BrokenPromiseError(f"to {what} took {took:.3f} s")
    return made


def _timed(make: Callable[[str], T], page: str) -> tuple[T, float]:
    began = time.process_time()
    return make(page), time.process_time() - began


def check(page: str, tally: Tally) -> None:
    """Checks a page: no exception, quick, every place inside, reports without signs that a terminal would obey."""
    found = in_time("check", checked, page, MOST_SECONDS, tally)
    places_inside(page, found)
    reports(page, found)
    tally.checked += 1
    tally.findings += len(found)


def places_inside(page: str, found: Sequence[Diagnostic]) -> None:
    """Every finding says something, at a place of the page."""
    lines = page.split("\n")
    for finding in found:
        span = finding.span
        inside = (
            1 <= span.line <= span.end_line <= len(lines)
            and 1 <= span.column <= len(lines[span.line - 1]) + 1
            and 1 <= span.end_column <= len(lines[span.end_line - 1]) + 1
            and (span.line, span.column) <= (span.end_line, span.end_column)
        )
        if not inside or not finding.message:
            raise BrokenPromiseError(f"no place of the page: {finding}")


def reports(page: str, found: Sequence[Diagnostic]) -> None:
    """The forms that a terminal or a CI host reads hold no sign that it would obey, and a command a line."""
    lines = page.split("\n")
    for form in (text.write(found, lambda _, line: lines[line - 1], 1), annotations.write(found, 1), json.write(found)):
        for line in form:
            if not TERMINAL_SIGNS.isdisjoint(line):
                raise BrokenPromiseError(f"a control character in a report: {line!r}")
    for line in annotations.write(found, 1):
        if "\n" in line or (line.count("::") and not line.startswith(("::error", "::warning", "::notice"))):
            raise BrokenPromiseError(f"an annotation that breaks out: {line!r}")


def markup_of(page: str) -> str:
    """The markup of a page."""
    return MARKDOWN.reset().convert(page)


def show(page: str, tally: Tally) -> None:
    """Makes the markup of a page, twice: nothing of others in it, both times the same; and its findings as SARIF."""
    markup = in_time("show", markup_of, page, MOST_SECONDS + SECONDS_A_STEP * page.count("\n- "), tally)
    if found := foreign(markup):
        raise BrokenPromiseError(f"let through: {found[:3]}")
    if markup_of(page) != markup or checked(page) != checked(page):
        raise BrokenPromiseError("two runs differ")
    sarif.write(checked(page))
    tally.shown += 1
    tally.drawn += "<svg" in markup
