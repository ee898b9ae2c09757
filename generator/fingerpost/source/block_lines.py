"""One line of a block by itself: how far it is indented, whether it is a comment, a key, a step or just words."""

from __future__ import annotations

import re
from typing import NamedTuple

from fingerpost.diagnostics import Edit
from fingerpost.source.findings import Findings
from fingerpost.source.syntax import Token

KEY = re.compile(r"(<<|[A-Za-z_][\w-]{0,30}|[A-Za-z_][A-Za-z_\- ]{0,30}?)[ \t]*:(?=\s|$)")
RUN_ON_KEY = re.compile(r"([a-z_]+):(?=\S)")
HYPHEN = re.compile(r"-(?=\s|$)")
WORDS_BELOW = re.compile(r"([|>])[-+0-9]{0,2}\s*(?:\s#.*)?")
COMMENT = re.compile(r"(?<!\S)#(?!\S)")
TAB = 4


class BlockLine(NamedTuple):
    """A line without its indentation; hyphen where it begins with one, words what follows that."""

    indent: int
    whole: Token
    hyphen: Token | None
    words: Token

    @property
    def words_indent(self) -> int:
        """How far the words stand from the margin."""
        return self.indent + len(self.whole.text) - len(self.words.text)


def block_line(line: Token, findings: Findings) -> BlockLine | None:
    """The line taken apart, or None for an empty line or a comment."""
    text = line.text.strip()
    if not text or text.startswith("#"):
        return None
    lead = len(line.text) - len(line.text.lstrip())
    whole = cut(line, lead, lead + len(text))
    indent = _indent(line, lead, findings)
    if not HYPHEN.match(text):
        return BlockLine(indent, whole, None, whole)
    start = len(text) - len(text[1:].lstrip())
    return BlockLine(indent, whole, cut(whole, 0, 1), cut(whole, start, len(text)))


def key_and_value(words: Token, known: frozenset[str], findings: Findings) -> tuple[Token, Token] | None:
    """`key: value` taken apart, the value perhaps empty; None where the words are not that.

    A known key without a blank after its colon is found fault with and taken all the same.
    """
    found = KEY.match(words.text)
    if found is None:
        found = RUN_ON_KEY.match(words.text)
        if found is None or found.group(1) not in known:
            return None
        place = words.span.part(found.end(), found.end())
        fix = f"{found.group()} {words.text[found.end() :]}"
        message = f"After `{found.group()}` a blank is missing"
        findings.slip(place, message, "a blank after the colon", fix, Edit(place, " "))
    value = words.text[found.end() :].lstrip()
    return cut(words, 0, found.end(1)), cut(words, len(words.text) - len(value), len(words.text))


def cut(token: Token, start: int, end: int) -> Token:
    """The piece of a one-line token between two offsets."""
    span = token.span
    if start == 0 and end == len(token.text) == span.end_column - span.column and span.line == span.end_line:
        return token
    return Token(token.text[start:end], span.part(start, end))


def without_comment(token: Token) -> Token:
    """The token up to a ` # ` that begins a comment."""
    comment = COMMENT.search(token.text)
    return cut(token, 0, len(token.text[: comment.start()].rstrip())) if comment else token


def _indent(line: Token, lead: int, findings: Findings) -> int:
    """The width of the indentation; a tab is found fault with, and counts to the next multiple of four."""
    blank = line.text[:lead]
    if "\t" not in blank:
        return lead
    width = len(blank.expandtabs(TAB))
    span = line.span.part(0, lead)
    message = "This line is indented with a tab, which is as wide as each program likes"
    findings.slip(span, message, "blanks", f"Indent it by {width} blanks.", Edit(span, " " * width))
    return width
