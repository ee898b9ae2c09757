"""Findings that an author accepts in place, by a comment: `# accept CODE: reason`, `<!-- accept CODE: reason -->`.

In a block, where `#` begins a comment:

    - 3 off = Am7 # accept CODE: reason      covers its own line
    # accept CODE: reason                    covers the next line that is neither empty nor a comment
    # accept CODE: reason                    above the first key of the block: covers the whole block

In prose, where a comment is HTML:

    <!-- accept CODE: reason --> Words.      covers the paragraph in which it stands
    <!-- accept CODE: reason -->             alone: covers the next paragraph, or the whole of the block that follows

A comment is one only where the word after `accept` is followed by a colon, or is a finding's code; others say nothing.
A colon behind `accept` too is let be: `accept: CODE: reason` says the same.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import islice

from fingerpost.diagnostics import Code, Span
from fingerpost.source.block_lines import WORDS_BELOW, cut
from fingerpost.source.mentions import Piece
from fingerpost.source.syntax import Fence, Token

SAID = re.compile(
    r"\s*accept(?:\s+|\s*:\s+)(?P<code>[^\s:]+)\s*(?P<colon>:?)\s*(?P<reason>.*?)\s*", re.IGNORECASE | re.DOTALL
)
HTML_COMMENT = re.compile(r"<!--.*?-->", re.DOTALL)
CODE_OR_COMMENT = re.compile(r"(?<!`)(`+)(?!`).*?(?<!`)\1(?!`)|<!--(?P<said>.*?)-->", re.DOTALL)
TRAILING = re.compile(r"(?<!\S)#(?=\s+accept(?:\s|:))", re.IGNORECASE)
KEY_OF_PROSE = re.compile(r"(?:-[ \t]+)?(?:say|title|image)[ \t]*:(?=\s|$)[ \t]*(?P<value>.*)")
ANY_KEY = re.compile(r"(?:-(?:\s|$)|[A-Za-z_][\w-]*[ \t]*:(?:\s|$))")
MOST_ON_A_LINE = 100
"""So many comments and pieces of code of a line of prose are looked at. By our own choice."""
_CODES = frozenset(map(str, Code))


@dataclass(frozen=True, slots=True)
class Acceptance:
    """A finding accepted in place.

    span: the whole comment; code: as written, with its place; reason: "" where none is given. covers: the first and
    the last line, counted from 1, whose findings it accepts; None where nothing follows it. removal: what goes when
    the comment is taken out.
    """

    span: Span
    code: Token
    reason: str
    covers: tuple[int, int] | None
    removal: Span


@dataclass(frozen=True, slots=True)
class Comment:
    """A comment of the prose that accepts something, before it is known what it covers."""

    span: Span
    code: Token
    reason: str
    removal: Span


def in_block(fence: Fence) -> Iterator[Acceptance]:
    """The acceptances in a block."""
    if not any("accept" in text.lower() for text in fence.body):
        return
    begun = False
    for number, line, prose in _with_prose(fence.lines):
        text = line.text.strip()
        if text.startswith("#") and not prose:
            lead = len(line.text) - len(line.text.lstrip())
            covers = _next_line(fence, number) if begun else (fence.first_line, fence.last_line)
            yield from _accepting(line, lead, _line_of(line.span, fence.closed or number + 1 < len(fence.body)), covers)
            continue
        begun = begun or bool(text)
        if not prose and (found := TRAILING.search(line.text)):
            start = len(line.text[: found.start()].rstrip())
            removal = line.span.part(start, len(line.text))
            yield from _accepting(line, found.start(), removal, (line.span.line, line.span.line))


def _with_prose(lines: Sequence[Token]) -> Iterator[tuple[int, Token, bool]]:
    """Each line with its number, and whether `#` is part of the words on it, as it is in those for reading."""
    margin, below = -1, False
    for number, line in enumerate(lines):
        text = line.text.strip()
        indent = len(line.text) - len(line.text.lstrip())
        if margin >= 0 and text and (indent <= margin or (not below and ANY_KEY.match(text))):
            margin, below = -1, False
        if margin < 0 and (found := KEY_OF_PROSE.match(text)):
            margin, below = indent, bool(WORDS_BELOW.fullmatch(found["value"]))
            yield number, line, True
        else:
            yield number, line, margin >= 0 and (below or not text.startswith("#"))


def _accepting(line: Token, at: int, removal: Span, covers: tuple[int, int] | None) -> Iterator[Acceptance]:
    text = line.text.rstrip()
    marks = len(text[at:]) - len(text[at:].lstrip("#"))
    if said := _said(text[at + marks :]):
        code = cut(line, at + marks + said.start("code"), at + marks + said.end("code"))
        yield Acceptance(line.span.part(at, len(text)), code, _reason(said), covers, removal)


def _said(text: str) -> re.Match[str] | None:
    said = SAID.fullmatch(text)
    return said if said and (said["colon"] or said["code"].lower() in _CODES) else None


def _reason(said: re.Match[str]) -> str:
    return " ".join(said["reason"].split()) if said["colon"] else ""


def _next_line(fence: Fence, number: int) -> tuple[int, int] | None:
    for line in fence.lines[number + 1 :]:
        if line.text.strip() and not line.text.lstrip().startswith("#"):
            return line.span.line, line.span.line
    return None


def _line_of(span: Span, more: bool) -> Span:
    """The whole line, its end included where another follows."""
    end = (span.line + 1, 1) if more else (span.line, span.end_column)
    return Span(span.file, span.line, 1, *end)


def comments_in(file: str, lines: Sequence[str], first_line: int, piece: Piece, until: int) -> Iterator[Comment]:
    """The accepting comments that begin in a piece of a paragraph.

    lines: those of the text, the first being line `first_line` of the file; until: how many of them are searched for
    the end of a comment that goes on over lines.
    """
    if "accept" not in "".join(lines[piece.line - first_line : until]).lower():
        return
    first = piece.line - first_line
    text = "\n".join(lines[first:until])
    last = text.rfind("-->")
    text = text[: last + 1] + text[last + 1 :].replace("<!--", "\0" * 4)  # none of these ends, so none is sought
    for found in islice(CODE_OR_COMMENT.finditer(text, piece.column - 1), MOST_ON_A_LINE):
        if found.start() >= len(lines[first]):
            return
        if said := _said(found["said"] or ""):
            span = _span(file, text, piece.line, found.start(), found.end())
            start = found.start("said") + said.start("code")
            code = Token(said["code"], _span(file, text, piece.line, start, start + len(said["code"])))
            yield Comment(span, code, _reason(said), _without(span, lines, first_line))


def _span(file: str, text: str, line: int, start: int, end: int) -> Span:
    (first, column), (last, end_column) = (
        (line + text.count("\n", 0, at), at - text.rfind("\n", 0, at)) for at in (start, end)
    )
    return Span(file, first, column, last, end_column)


def _without(span: Span, lines: Sequence[str], first_line: int) -> Span:
    """What goes with a comment: its lines where nothing else is on them, else the blanks after it."""
    before = lines[span.line - first_line][: span.column - 1]
    last = lines[span.end_line - first_line]
    after = last[span.end_column - 1 :]
    if not before.strip(" \t>") and not after.strip():
        more = span.end_line - first_line + 1 < len(lines)
        end = (span.end_line + 1, 1) if more else (span.end_line, len(last) + 1)
        return Span(span.file, span.line, 1, *end)
    blanks = len(after) - len(after.lstrip())
    return Span(span.file, span.line, span.column, span.end_line, span.end_column + blanks)


def in_prose(
    comments: Iterable[Comment], paragraphs: Iterable[Sequence[Piece]], fences: Iterable[Fence]
) -> Iterator[Acceptance]:
    """The comments with the lines that they cover."""
    comments = list(comments)
    if not comments:
        return
    told = [pieces for pieces in paragraphs if any(_without_comments(piece.text).strip() for piece in pieces)]
    stretches = sorted(
        [
            *((pieces[0].line, pieces[-1].line) for pieces in told),
            *((fence.first_line, fence.last_line) for fence in fences),
        ]
    )
    for comment in comments:
        covers = next((stretch for stretch in stretches if stretch[1] >= comment.span.line), None)
        yield Acceptance(comment.span, comment.code, comment.reason, covers, comment.removal)


def _without_comments(text: str) -> str:
    end = text.rfind("-->") + len("-->") if "-->" in text else 0
    return HTML_COMMENT.sub("", text[:end]) + text[end:]
