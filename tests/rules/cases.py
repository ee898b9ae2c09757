"""Reads the cases of this folder: pages in Markdown, and under them the findings that are expected.

A case is a heading `## what it is about`; perhaps a line `Options: {...}`, perhaps one `Files: a.png ...`; one or more
pages in fences of four backticks, `markdown` and the page's name (`page.md` where none is given); and a fence
`findings` with one line a finding: `file line:column-end severity code`, then ` -> fix` where there is one. The file is
left out for `page.md`.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import yaml
from fingerpost.course.acceptance import settle
from fingerpost.course.build import build
from fingerpost.course.settings import Settings
from fingerpost.diagnostics import Diagnostic
from fingerpost.source.page import read_page
from fingerpost.workspace.links import link_faults

FOLDER = Path(__file__).parent
HEADING = re.compile(r"^## (.+)$", re.M)
OPTIONS = re.compile(r"^Options: (.+)$", re.M)
FILES = re.compile(r"^Files: (.+)$", re.M)
PAGE = re.compile(r"^````markdown ?(\S*)\n(.*?)^````$", re.M | re.S)
EXPECTED = re.compile(r"^```findings\n(.*?)^```$", re.M | re.S)


@dataclass(frozen=True)
class Case:
    """One case, and where it stands."""

    file: str
    name: str
    pages: tuple[tuple[str, str], ...]
    expected: tuple[str, ...]
    options: dict[str, Any] = field(default_factory=dict)
    files: tuple[str, ...] = ()

    def __str__(self) -> str:
        return f"{self.file}: {self.name}"

    def findings(self) -> list[Diagnostic]:
        """Everything that is found in its pages, by place, the pages in their order."""
        settings, problems = Settings.from_mapping(self.options)
        assert not problems
        read = [read_page(name, text) for name, text in self.pages]
        course, found = build(read, settings)
        order = [name for name, _ in self.pages]
        every = [*(finding for page in read for finding in page.findings), *found]
        every += link_faults(read, course, settings, self.files)
        settled = settle(every, (accepted for page in read for accepted in page.acceptances))
        return sorted(settled.standing, key=lambda finding: (order.index(finding.span.file), finding))

    def found(self) -> tuple[str, ...]:
        """The findings as a case writes them."""
        return tuple(map(line_of, self.findings()))


def line_of(finding: Diagnostic) -> str:
    """A finding as a case writes it."""
    span = finding.span
    file = "" if span.file == "page.md" else f"{span.file} "
    end = f"{span.end_column}" if span.end_line == span.line else f"{span.end_line}:{span.end_column}"
    fix = f" -> {finding.fix}" if finding.fix else ""
    return f"{file}{span.line}:{span.column}-{end} {finding.severity} {finding.code}{fix}"


def cases() -> Iterator[Case]:
    """All cases of all files."""
    for path in sorted(FOLDER.glob("*.md")):
        parts = HEADING.split(path.read_text(encoding="utf-8"))
        for name, text in zip(parts[1::2], parts[2::2], strict=True):
            yield _case(path.name, name, text)


def _case(file: str, name: str, text: str) -> Case:
    options = OPTIONS.search(text)
    pages = tuple((named or "page.md", body) for named, body in PAGE.findall(text))
    expected = EXPECTED.search(text)
    lines = expected[1].splitlines() if expected else []
    return Case(file, name, pages, tuple(lines), yaml.safe_load(options[1]) if options else {}, _files(text))


def _files(text: str) -> tuple[str, ...]:
    files = FILES.search(text)
    return tuple(files[1].split()) if files else ()
