"""A fence from its first line to its last (CommonMark 0.31, 4.5), and a `moves` block whose end is missing."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import NamedTuple

from fingerpost.diagnostics import Code, Diagnostic, Edit, Severity, Span
from fingerpost.source.containers import TAB, Container, Walk, continued
from fingerpost.source.syntax import Fence

INFO = "moves"
"""The first word after a fence that makes it ours."""

LIST_INDENT = 4
"""Blanks that a list level needs before what goes on with it, by Python-Markdown's rule (CommonMark needs fewer)."""

FENCE = re.compile(r"(`{3,})([^`]*)$|(~{3,})(.*)$")
FENCE_MARKS = ("`", "~")
BLOCK_LIKE = re.compile(r"\s+\S|-(?:\s|$)|#(?!#)|[A-Za-z_][A-Za-z_ -]*:(?:\s|$)")
"""How a line of a block looks; told only where the end of a block has to be guessed."""


class Opening(NamedTuple):
    """A fence's first line: its marks and info string, its own indentation and the containers it stands in.

    line counts from 0 in the text, at from 0 in that line; first_line is the number of the text's line 0 in the file.
    meant: it is read as a block though it does not say that it is one.
    """

    file: str
    first_line: int
    marks: str
    info: str
    indent: int
    stack: tuple[Container, ...]
    line: int
    at: int
    on_item_line: bool
    meant: bool = False

    @property
    def ours(self) -> bool:
        """Whether this is a `moves` block, or is to be read as if it were one."""
        return self.meant or self.says_so

    @property
    def says_so(self) -> bool:
        """Whether it says that it is one."""
        return self.info.split(maxsplit=1)[:1] == [INFO]

    def span(self, lines: list[str]) -> Span:
        """The marks with the info string."""
        number = self.first_line + self.line
        return Span(self.file, number, self.at + 1, number, len(lines[self.line]) + 1)


@dataclass(frozen=True, slots=True)
class FenceRead:
    """The line to go on with, the fence where it is ours, and what is wrong with it."""

    next: int
    fence: Fence | None = None
    findings: tuple[Diagnostic, ...] = ()


class _Line(NamedTuple):
    """A line of the body without what stands before it, and how much of the file's line that is."""

    text: str
    at: int


def read_fence(lines: list[str], opening: Opening) -> FenceRead:
    """Reads on from the line after the opening. A fence that is not ours goes on to the end of its container."""
    body: list[_Line] = []
    swallowed: list[int] = []
    plain = not opening.stack and not opening.indent
    for at in range(opening.line + 1, len(lines)):
        if plain and lines[at].lstrip()[:1] not in FENCE_MARKS:
            body.append(_Line(lines[at], 0))
            continue
        walk = Walk(lines[at])
        if opening.stack and continued(walk, opening.stack) < len(opening.stack):
            return _unclosed(lines, opening, body) if opening.ours else _other(lines, opening, at, swallowed)
        mark = _mark(walk)
        if mark and _closes(mark, opening.marks):
            return _closed(lines, opening, body) if opening.ours else _other(lines, opening, at + 1, swallowed)
        if opening.ours:
            if mark.strip(mark[:1]) and FENCE.match(mark):
                return _unclosed(lines, opening, body)
            body.append(_content(walk, opening.indent))
        elif mark.startswith(opening.marks) and mark.strip(mark[0]).split(maxsplit=1)[:1] == [INFO]:
            swallowed.append(at)
    return _unclosed(lines, opening, body) if opening.ours else _other(lines, opening, len(lines), swallowed)


def _other(lines: list[str], opening: Opening, after: int, swallowed: list[int]) -> FenceRead:
    """A fence that is not ours. Where it would be long enough to end above a block that it holds, it likely should."""
    if not swallowed:
        return FenceRead(after)
    message = (
        f"This fence goes on over the block on line {opening.first_line + swallowed[0]}, which is not shown as one"
    )
    expected = (
        f"a line of its own with {opening.marks} above it, or a longer fence here if the block is to be shown as text"
    )
    span = opening.span(lines)
    return FenceRead(after, None, (Diagnostic(span, Severity.WARNING, Code.FENCE_UNCLOSED, message, expected),))


def _mark(walk: Walk) -> str:
    """What the line holds where it may be a fence, else nothing."""
    rest = walk.rest
    return rest.rstrip(" \t") if rest[:1] in FENCE_MARKS and walk.indent() < TAB else ""


def _closes(rest: str, marks: str) -> bool:
    return len(rest) >= len(marks) and not rest.strip(marks[0])


def _content(walk: Walk, indent: int) -> _Line:
    """The line less the indentation of its fence; of a tab that this cuts, blanks are left."""
    if indent:
        walk.eat(indent)
    left = min(walk.spare, walk.at)
    return _Line(" " * left + walk.text[walk.at :], walk.at - left)


def _closed(lines: list[str], opening: Opening, body: list[_Line]) -> FenceRead:
    fence = _fence(lines, opening, body, closed=True)
    return FenceRead(fence.last_line - opening.first_line + 1, fence, _indent_fault(lines, opening, fence))


def _unclosed(lines: list[str], opening: Opening, body: list[_Line]) -> FenceRead:
    """A block without its end: it is read as far as its lines look like a block, and the page goes on after it.

    The end is missing where the file or the container ends, or a fence with an info string stands in the block. A
    fence that is too short to end the block is taken for the end that was meant.
    """
    kept = _block_like(body)
    stop = body[kept].text.strip() if kept < len(body) else ""
    too_short = "" if stop.strip(opening.marks[0]) else stop
    fence = _fence(lines, opening, body[:kept], closed=bool(too_short))
    message, where = "This block has no end", f"below line {fence.last_line}"
    if too_short:
        message = f"This block begins with {len(opening.marks)} marks and ends with {len(too_short)}"
        where = f"on line {fence.last_line}"
    expected = f"a line of its own with {opening.marks} after the last step"
    fix = f"Write {opening.marks} {where}."
    finding = Diagnostic(opening.span(lines), Severity.ERROR, Code.FENCE_UNCLOSED, message, expected, fix)
    found = (finding, *_indent_fault(lines, opening, fence))
    return FenceRead(fence.last_line - opening.first_line + 1, fence, found)


def _block_like(body: list[_Line]) -> int:
    """How many lines from the top look like lines of a block, empty ones at the end left out."""
    kept, after_blank = 0, False
    for number, (text, _) in enumerate(body, 1):
        if not text.strip():
            after_blank = True
        elif not BLOCK_LIKE.match(text) or (after_blank and text.startswith("#")):
            break
        else:
            kept, after_blank = number, False
    return kept


def _fence(lines: list[str], opening: Opening, body: list[_Line], closed: bool) -> Fence:
    start = opening.span(lines)
    last = start.line + len(body) + closed
    return Fence(
        prefix=lines[opening.line][: opening.at],
        body=tuple(text for text, _ in body),
        body_starts=tuple(at for _, at in body),
        span=Span(opening.file, start.line, start.column, last, len(lines[last - opening.first_line]) + 1),
        first_line=start.line,
        last_line=last,
        opening=lines[opening.line][opening.at :],
        closed=closed,
        miswritten=opening.meant,
    )


def _indent_fault(lines: list[str], opening: Opening, fence: Fence) -> tuple[Diagnostic, ...]:
    """A block in a list needs four blanks a level, or the list is broken where the page is made."""
    levels = 0
    for container in opening.stack:
        levels = levels + 1 if container.is_list else 0
    before = fence.prefix.rpartition(">")[2]
    have = len(before.expandtabs(TAB)) - (">" in fence.prefix and before.startswith(" "))
    short = LIST_INDENT * levels - have
    if opening.on_item_line or short <= 0:
        return ()
    message = f"This block is indented by {have} blank{'s' * (have != 1)} in a list, so the page breaks the list here"
    fix = f"Indent every line of the block by {short} blank{'s' * (short > 1)} more."
    edits = tuple(_indented(lines, opening, number, short) for number in range(fence.first_line, fence.last_line + 1))
    expected = f"{LIST_INDENT * levels} blanks"
    span = opening.span(lines)
    return (Diagnostic(span, Severity.WARNING, Code.FENCE_INDENT, message, expected, fix, edits),)


def _indented(lines: list[str], opening: Opening, number: int, blanks: int) -> Edit:
    """The edit that indents one line by so many blanks more."""
    text = lines[number - opening.first_line]
    column = min(opening.at - opening.indent, len(text)) + 1
    return Edit(Span(opening.file, number, column, number, column), " " * blanks if text.strip() else "")
