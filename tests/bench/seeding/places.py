"""A slip, and the page of the clean course into which it is put."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field

STEP = re.compile(r"^- ")


@dataclass(frozen=True)
class Slip:
    """A page with one slip: line counts from 1 in the new text, (start, end) are columns from 0 of the wrong token.

    near: further lines at which the slip may as well be told, such as the one below a step that is missing. also:
    places on other pages, by file and line. order: the pages in the order in which they now come, if that is the slip.
    """

    kind: str
    file: str
    line: int
    token: tuple[int, int]
    lines: tuple[str, ...]
    near: tuple[int, ...] = ()
    also: tuple[tuple[str, int], ...] = ()
    order: tuple[str, ...] = ()


@dataclass(frozen=True)
class Page:
    """A lesson of the clean course; inside: which of its lines (from 0) stand in a block."""

    file: str
    lines: tuple[str, ...]
    inside: frozenset[int] = field(default=frozenset())

    @classmethod
    def of(cls, file: str, text: str) -> Page:
        """The page with its blocks found."""
        lines, within, inside = text.split("\n"), False, set[int]()
        for number, line in enumerate(lines):
            if line.startswith("```"):
                within = not within and line == "```moves"
            elif within:
                inside.add(number)
        return cls(file, tuple(lines), frozenset(inside))

    def changed(self, kind: str, at: int, start: int, end: int, new: str) -> Slip:
        """One token of a line replaced."""
        line = self.lines[at]
        text = line[:start] + new + line[end:]
        return Slip(kind, self.file, at + 1, (start, start + len(new)), (*self.lines[:at], text, *self.lines[at + 1 :]))

    def steps(self) -> list[tuple[int, int]]:
        """First line and line after the last of every step."""
        starts = [at for at in sorted(self.inside) if STEP.match(self.lines[at])]
        return [
            (at, next(n for n in range(at + 1, len(self.lines)) if not self.lines[n].startswith("  "))) for at in starts
        ]

    def blocks(self) -> list[tuple[int, int]]:
        """The line of each block's fence, and the line after its end."""
        begun = [at for at, line in enumerate(self.lines) if line == "```moves"]
        return [(at, next(n for n in range(at, len(self.lines)) if self.lines[n] == "```") + 1) for at in begun]


Kind = Callable[[Page], Iterator[Slip]]
CourseKind = Callable[[Mapping[str, str]], Iterator[Slip]]
