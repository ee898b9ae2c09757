"""Inline mentions: the code spans of a paragraph that say `chord: Em7`, `step: slack-water Gadd9` or `now: G6`.

Code spans are those of CommonMark 0.31 (6.1): opened and closed by runs of backticks of one length; a backslash keeps
a run from opening; a tag, an address in angle brackets or a comment that begins before them goes first.
"""

from __future__ import annotations

import re
from bisect import bisect_right
from collections.abc import Iterator, Sequence
from typing import NamedTuple

from fingerpost.diagnostics import Span
from fingerpost.source.syntax import Mention, Token

KINDS = ("chord", "step", "now")
MENTION = re.compile(rf"\s*({'|'.join(KINDS)}):\s+(?=\S)(.*)", re.DOTALL)
RUN = re.compile(r"`+")
NEXT = re.compile(
    r"\\.|(?P<run>`+)|<!--(?:-?>|(?P<comment>))"
    r"|</?[A-Za-z][A-Za-z0-9-]*(?:\s+[A-Za-z_:][\w.:-]*(?:\s*=\s*(?:\"[^\"]*\"|'[^']*'|[^\s\"'=<>`]+))?)*\s*/?>"
    r"|<[A-Za-z][A-Za-z0-9+.-]{1,31}:[^\s<>]*>",
    re.DOTALL,
)
WORD = re.compile(r"\S+")


class Piece(NamedTuple):
    """A line of a paragraph, or a part of it, and where it begins."""

    text: str
    line: int
    column: int


def mentions_in(file: str, paragraphs: list[list[Piece]]) -> tuple[Mention, ...]:
    """All mentions of a page in order, counted from 0."""
    found = (mention for pieces in paragraphs for mention in _of_paragraph(file, pieces))
    return tuple(Mention(kind, words, span, ordinal) for ordinal, (kind, words, span) in enumerate(found))


def _of_paragraph(file: str, pieces: list[Piece]) -> Iterator[tuple[str, tuple[Token, ...], Span]]:
    text = "\n".join(piece.text for piece in pieces)
    if not any(f"{kind}:" in text for kind in KINDS):
        return
    places = Places(file, pieces)
    for start, end, inner_start, inner_end in code_spans(text):
        if said := MENTION.fullmatch(text, inner_start, inner_end):
            end_of_words = said.start(2) + len(said.group(2).rstrip())
            words = _words(said.group(1), text, said.start(2), end_of_words, places)
            yield said.group(1), words, places.span(start, end)


def _words(kind: str, text: str, start: int, end: int, places: Places) -> tuple[Token, ...]:
    """What follows the colon: a block and a step in two words; a chord, which may hold blanks, in one."""
    found = [(start, end)]
    if kind == "step":
        found = [word.span() for word in WORD.finditer(text, start, end)]
    return tuple(Token(text[begin:stop].replace("\n", " "), places.span(begin, stop)) for begin, stop in found)


def code_spans(text: str) -> Iterator[tuple[int, int, int, int]]:
    """Start and end of each code span, and of what it holds."""
    by_length: dict[int, list[int]] = {}
    for run in RUN.finditer(text):
        by_length.setdefault(len(run.group()), []).append(run.start())
    at, last_comment_end = 0, text.rfind("-->")
    while found := NEXT.search(text, at):
        at = found.end()
        if found.group("comment") is not None and last_comment_end >= at:
            at = text.index("-->", at) + 3
        elif found.group("run"):
            closers = by_length.get(at - found.start(), [])
            following = bisect_right(closers, found.start())
            if following < len(closers):
                close = closers[following]
                yield found.start(), close + at - found.start(), at, close
                at = close + at - found.start()


class Places:
    """From offsets in a joined paragraph to lines and columns."""

    def __init__(self, file: str, pieces: Sequence[Piece]) -> None:
        """The paragraph is the texts of its pieces, joined by line ends."""
        self.file, self.pieces, self.starts = file, pieces, list[int]()
        offset = 0
        for piece in pieces:
            self.starts.append(offset)
            offset += len(piece.text) + 1

    def token(self, text: str, start: int, end: int) -> Token:
        """A stretch of the paragraph's text with its place."""
        return Token(text[start:end], self.span(start, end))

    def span(self, start: int, end: int) -> Span:
        """The place of a stretch."""
        (line, column), (end_line, end_column) = self.place(start), self.place(end)
        return Span(self.file, line, column, end_line, end_column)

    def place(self, offset: int) -> tuple[int, int]:
        """Line and column of an offset."""
        index = bisect_right(self.starts, offset) - 1
        piece = self.pieces[index]
        return piece.line, piece.column + offset - self.starts[index]
