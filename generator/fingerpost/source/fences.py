"""Where the `moves` blocks of a page stand, and the paragraphs in which mentions may stand.

The original text is scanned by the rules of CommonMark 0.31 for containers, fenced and indented code and HTML
comments, so that nothing inside a longer fence, indented code or a comment is taken for a block. A comment hides
everything up to its end, empty lines included, wherever it begins.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from typing import NamedTuple

from fingerpost.diagnostics import Code, Diagnostic, Edit, Severity, Span
from fingerpost.source.containers import TAB, Container, Walk, continued, opened
from fingerpost.source.mentions import Piece, mentions_in
from fingerpost.source.syntax import Fence, Mention

INFO = "moves"
"""The first word after a fence that makes it ours."""

LIST_INDENT = 4
"""Blanks a list level needs before text that goes on with it, by Python-Markdown's rule (not CommonMark's)."""

FENCE = re.compile(r"(`{3,})([^`]*)$|(~{3,})(.*)$")
HEADING = re.compile(r"#{1,6}(?=[ \t]|$)")
UNDERLINE = re.compile(r"(?:=+|-+)[ \t]*$")
RULE = re.compile(r"(?:(?:\*[ \t]*){3,}|(?:-[ \t]*){3,}|(?:_[ \t]*){3,})$")
COMMENT, COMMENT_END = "<!--", "-->"
RAW_HTML = re.compile(r"<(pre|script|style|textarea)(?=[\s>]|$)", re.IGNORECASE)
CODE_OR_COMMENT = re.compile(r"(`+)(?!`).*?(?<!`)\1(?!`)|<!--(?:-?>|.*?-->)|(<!--)")
BLOCK_LIKE = re.compile(r"\s*$|\s+\S|-(?:\s|$)|#(?!#)|[A-Za-z_][A-Za-z_ -]*:(?:\s|$)")


@dataclass(frozen=True, slots=True)
class Scan:
    """What was found in a text, each in order."""

    fences: tuple[Fence, ...] = ()
    mentions: tuple[Mention, ...] = ()
    findings: tuple[Diagnostic, ...] = ()


class _Open(NamedTuple):
    """A fence that has been opened: its marks, the containers it stands in, and where its line is."""

    marks: str
    indent: int
    stack: tuple[Container, ...]
    line: int
    at: int
    ours: bool


def lines_of(text: str) -> list[str]:
    """The lines of a text, ended as MkDocs reads them: by LF, CRLF or CR."""
    return text.replace("\r\n", "\n").replace("\r", "\n").split("\n")


def scan(file: str, text: str, first_line: int = 1) -> Scan:
    """Finds the `moves` fences and the mentions of a text whose first line is line `first_line` of the file.

    The text is a page without front matter, or what a site generator hands over: without byte-order mark, a suffix of
    the file.
    """
    if "`" not in text and "~~~" not in text:
        return Scan()
    scanner = _Scanner(file, lines_of(text), first_line)
    scanner.run()
    return Scan(tuple(scanner.fences), mentions_in(file, scanner.paragraphs), tuple(sorted(scanner.findings)))


@dataclass(slots=True)
class _Scanner:
    file: str
    lines: list[str]
    first_line: int
    at: int = 0
    stack: tuple[Container, ...] = ()
    paragraph: list[Piece] = field(default_factory=list)
    paragraphs: list[list[Piece]] = field(default_factory=list)
    fences: list[Fence] = field(default_factory=list)
    findings: list[Diagnostic] = field(default_factory=list)

    def run(self) -> None:
        while self.at < len(self.lines):
            self.line(self.lines[self.at])
        self.end_paragraph()

    def line(self, text: str) -> None:
        """One line outside of any code or comment; a fence or a comment that begins here is read to its end."""
        walk = Walk(text)
        depth = continued(walk, self.stack)
        fresh = opened(walk, in_paragraph=bool(self.paragraph) and depth == len(self.stack))
        lazy = bool(self.paragraph) and depth < len(self.stack) and not fresh
        if not (lazy and self.goes_on(walk)):
            if fresh or depth < len(self.stack):
                self.end_paragraph()
            self.stack = (*self.stack[:depth], *fresh)
        self.leaf(walk, on_item_line=any(container.is_list for container in fresh))

    def goes_on(self, walk: Walk) -> bool:
        """Whether the line may go on with a paragraph though it leaves its container (a lazy line)."""
        rest = walk.rest
        begins = FENCE.match(rest) or HEADING.match(rest) or RULE.match(rest) or rest.startswith(COMMENT)
        return bool(rest) and not (begins and walk.indent() < TAB)

    def leaf(self, walk: Walk, on_item_line: bool) -> None:
        self.at += 1
        rest = walk.rest
        if not rest:
            return self.end_paragraph()
        if walk.indent() >= TAB:
            return self.words(walk) if self.paragraph else None
        if fence := FENCE.match(rest):
            self.end_paragraph()
            return self.fence(walk, fence, on_item_line)
        if raw := RAW_HTML.match(rest):
            self.end_paragraph()
            return self.skip_to(f"</{raw.group(1)}>", walk.at)
        if HEADING.match(rest) or (self.paragraph and UNDERLINE.match(rest)) or RULE.match(rest):
            return self.heading(walk, rest)
        return self.words(walk)

    def heading(self, walk: Walk, rest: str) -> None:
        if HEADING.match(rest):
            self.end_paragraph()
        self.words(walk)
        self.end_paragraph()

    def words(self, walk: Walk) -> None:
        """Text in which mentions may stand; up to a comment that goes on over the following lines."""
        line, start = self.first_line + self.at - 1, len(walk.text) - len(walk.rest)
        text = walk.text[start:]
        comment = self.open_comment(text)
        if comment is None:
            self.paragraph.append(Piece(text, line, start + 1))
            return
        self.paragraph.append(Piece(text[:comment], line, start + 1))
        self.skip_to(COMMENT_END, start + comment + len(COMMENT))

    def open_comment(self, text: str) -> int | None:
        """Where a comment begins that is not ended on its line; one that has no end anywhere must begin the line."""
        if COMMENT not in text:
            return None
        begins = next((found.start(2) for found in CODE_OR_COMMENT.finditer(text) if found.group(2)), None)
        if begins and not any(COMMENT_END in line for line in self.lines[self.at :]):
            return None
        return begins

    def skip_to(self, end: str, start: int) -> None:
        """Passes over everything up to an end mark, in this line from `start` or in a later one; goes on after it."""
        text, at = self.lines[self.at - 1], self.at - 1
        while (found := text.lower().find(end, start)) < 0:
            at, start = at + 1, 0
            if at >= len(self.lines):
                self.at = at
                return
            text = self.lines[at]
        self.at = at + 1
        after = text[found + len(end) :]
        if after.strip():
            self.paragraph.append(Piece(after, self.first_line + at, found + len(end) + 1))

    def end_paragraph(self) -> None:
        if self.paragraph:
            self.paragraphs.append(self.paragraph)
            self.paragraph = []

    def fence(self, walk: Walk, found: re.Match[str], on_item_line: bool) -> None:
        marks, info = (found.group(1), found.group(2)) if found.group(1) else (found.group(3), found.group(4))
        ours = info.split()[:1] == [INFO]
        indent = walk.indent()
        walk.eat(indent)
        fence = _Open(marks, indent, self.stack, self.at - 1, walk.at, ours)
        if ours and not on_item_line:
            self.check_indent(fence, walk)
        self.read_fence(fence)

    def read_fence(self, fence: _Open) -> None:
        body: list[tuple[str, int]] = []
        while self.at < len(self.lines):
            walk = Walk(self.lines[self.at])
            if continued(walk, fence.stack) < len(fence.stack):
                break
            rest, indent = walk.rest.rstrip(" \t"), walk.indent()
            if indent < TAB and _closes(rest, fence.marks):
                self.at += 1
                return self.take(fence, body, closed=True)
            if fence.ours and indent < TAB and FENCE.match(rest):
                return self.unclosed(fence, body, rest)
            walk.eat(fence.indent)
            body.append((" " * walk.spare + walk.text[walk.at :], walk.at - walk.spare))
            self.at += 1
        if fence.ours:
            self.unclosed(fence, body, "")

    def unclosed(self, fence: _Open, body: list[tuple[str, int]], stop: str) -> None:
        """A block without its end: it is read as far as its lines look like a block, and the page goes on after it."""
        kept = _block_like(body)
        mistaken = stop if kept == len(body) and set(stop) == {fence.marks[0]} else ""
        self.at = fence.line + 1 + kept + bool(mistaken)
        self.take(fence, body[:kept], closed=bool(mistaken))
        message = "This block has no end."
        if mistaken:
            message = f"This block begins with {len(fence.marks)} marks and ends with {len(mistaken)}."
        last = self.first_line + fence.line + kept
        self.findings.append(
            Diagnostic(
                self.opening(fence),
                Severity.ERROR,
                Code.FENCE_UNCLOSED,
                message,
                f"a line of its own with {fence.marks} below the last step",
                f"Write {fence.marks} {'on' if mistaken else 'below'} line {last + bool(mistaken)}.",
            )
        )

    def take(self, fence: _Open, body: list[tuple[str, int]], closed: bool) -> None:
        if not fence.ours:
            return
        first = self.first_line + fence.line
        spans = tuple(
            Span(self.file, first + number, at + 1, first + number, at + 1 + len(text))
            for number, (text, at) in enumerate(body, 1)
        )
        opening = self.opening(fence)
        last = first + len(body) + closed
        whole = Span(self.file, first, opening.column, last, len(self.lines[last - self.first_line]) + 1)
        text = self.lines[fence.line]
        self.fences.append(
            Fence(
                prefix=text[: fence.at],
                body=tuple(text for text, _ in body),
                body_spans=spans,
                span=whole,
                first_line=first,
                last_line=last,
                opening=text[fence.at :],
                closed=closed,
            )
        )

    def opening(self, fence: _Open) -> Span:
        """The span of the opening fence with its info string."""
        line, text = self.first_line + fence.line, self.lines[fence.line]
        return Span(self.file, line, fence.at + 1, line, len(text) + 1)

    def check_indent(self, fence: _Open, walk: Walk) -> None:
        """A block in a list needs four blanks a level, or the list is broken where the page is made."""
        levels = _list_levels(fence.stack)
        wanted = LIST_INDENT * levels
        before = self.lines[fence.line][: fence.at]
        have = len(before.rpartition(">")[2].removeprefix(" ") if ">" in before else before.expandtabs(TAB))
        if not levels or have >= wanted:
            return
        start = Span(self.file, self.first_line + fence.line, fence.at + 1, self.first_line + fence.line, fence.at + 1)
        self.findings.append(
            Diagnostic(
                self.opening(fence),
                Severity.WARNING,
                Code.FENCE_INDENT,
                f"This block is indented by {have} blanks, which breaks the list that it stands in.",
                f"{wanted} blanks",
                f"Indent every line of the block by {wanted - have} more.",
                (Edit(start, " " * (wanted - have)),) if False else (),
            )
        )


def _closes(rest: str, marks: str) -> bool:
    return len(rest) >= len(marks) and rest[:1] == marks[0] and not rest.strip(marks[0])


def _list_levels(stack: tuple[Container, ...]) -> int:
    """How many list items the innermost quote holds around this place."""
    levels = 0
    for container in stack:
        levels = levels + 1 if container.is_list else 0
    return levels


def _block_like(body: list[tuple[str, int]]) -> int:
    """How many lines from the top look like lines of a block, empty ones at the end left out."""
    kept, after_blank = 0, False
    for number, (text, _) in enumerate(body, 1):
        if not text.strip():
            after_blank = True
            continue
        if not BLOCK_LIKE.match(text) or (after_blank and text.startswith("#")):
            break
        kept, after_blank = number, False
    return kept
