"""Reads the cases of this folder.

Pages (pages-*.md): a heading `## what it is about`, the page in a fence of six backticks, and what is read from it in a
fence of three, `reads`. In the page, ⇥ stands for a tab. The words of each line of `reads` are those of telling.py.
Lines (lines-*.md): tables of a line and what is read from it, or of a line and its whole finding.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

FOLDER = Path(__file__).parent
HEADING = re.compile(r"^## (.+)$", re.M)
PAGE = re.compile(r"^``````markdown\n(.*?)^``````$", re.M | re.S)
READS = re.compile(r"^```reads\n(.*?)^```$", re.M | re.S)
ROW = re.compile(r"^\| (`+) ?(.*?) ?\1 \| (.*) \|$", re.M)


@dataclass(frozen=True)
class Case:
    """One page, and what is read from it."""

    name: str
    page: str
    reads: tuple[str, ...]

    def __str__(self) -> str:
        return self.name


def pages() -> Iterator[Case]:
    """All page cases."""
    for path in sorted(FOLDER.glob("pages-*.md")):
        parts = HEADING.split(path.read_text(encoding="utf-8"))
        for name, text in zip(parts[1::2], parts[2::2], strict=True):
            page, reads = PAGE.search(text), READS.search(text)
            assert page is not None, name
            assert reads is not None, name
            yield Case(f"{path.stem}: {name}", page[1].replace("⇥", "\t"), tuple(reads[1].splitlines()))


def rows(file: str) -> list[tuple[str, str]]:
    """The rows of the tables of one file: the line, and what stands beside it."""
    return [
        (found[1], found[2]) for found in map(_row, (FOLDER / file).read_text(encoding="utf-8").splitlines()) if found
    ]


def _row(line: str) -> tuple[str, str, str] | None:
    found = ROW.match(line)
    return (found[1], found[2].replace("\\|", "|"), found[3].replace("\\|", "|")) if found else None
