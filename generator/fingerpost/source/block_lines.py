"""One line of a block by itself: how far it is indented, whether it is a comment, a key, a step or just words."""

from __future__ import annotations

import re
from typing import NamedTuple

from fingerpost.diagnostics import Edit
from fingerpost.source.findings import Findings
from fingerpost.source.syntax import Token

KEY = re.compile(r"(<<|[A-Za-z_][\w-]{0,30}|[A-Za-z_][A-Za-z_\- ]{0,30}?)[ \t]*:(?=\s|$)")
RUN_ON_KEY = re.compile(r"([a-z_]+):(?=\S)")
COLONS_TWICE = re.compile(r"([a-z_]+)(::+)(?=\s|$)")
TURNED_COLON = re.compile(r"([a-z_]+:[a-z])(?=\s|$)")
WITHOUT_COLON = re.compile(r"([a-z_]+)(?=\s|$)")
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
        return _slip_of_the_colon(words, known, findings)
    return _taken_apart(words, found.group(1), found.end())


def key_without_colon(words: Token, known: frozenset[str], findings: Findings) -> tuple[Token, Token] | None:
    """A known key and its value where only the colon between them is missing: found fault with and taken."""
    found = WITHOUT_COLON.match(words.text)
    if found is None or found.group() not in known:
        return None
    place = words.span.part(found.end(), found.end())
    fix = f"{found.group()}:{words.text[found.end() :]}"
    message = f"After `{found.group()}` a colon is missing"
    findings.slip(place, message, "a colon after the key", fix, Edit(place, ":"))
    return _taken_apart(words, found.group(), found.end())


def _slip_of_the_colon(words: Token, known: frozenset[str], findings: Findings) -> tuple[Token, Token] | None:
    """The same of a known key whose colon stands twice, is turned with its last letter, or has no blank after it."""
    if (found := COLONS_TWICE.match(words.text)) and found.group(1) in known:
        place, key = words.span.part(*found.span(2)), found.group(1)
        findings.slip(
            place, f"`{key}` has two colons", "one colon", f"{key}:{words.text[found.end() :]}", Edit(place, ":")
        )
    elif (found := TURNED_COLON.match(words.text)) and (key := found.group().replace(":", "")) in known:
        place = words.span.part(found.end() - 2, found.end())
        fix = f"{key}:{words.text[found.end() :]}"
        findings.slip(place, f"The colon stands inside `{key}`", "it after the key", fix, Edit(place, f"{key[-1]}:"))
    elif (found := RUN_ON_KEY.match(words.text)) and (key := found.group(1)) in known:
        place = words.span.part(found.end(), found.end())
        fix = f"{found.group()} {words.text[found.end() :]}"
        findings.slip(
            place, f"After `{found.group()}` a blank is missing", "a blank after the colon", fix, Edit(place, " ")
        )
    else:
        return None
    return _taken_apart(words, key, found.end())


def _taken_apart(words: Token, key: str, end: int) -> tuple[Token, Token]:
    """The key, and as its value what stands after an offset, without blanks before it.

    Where the colon stands inside the key, the key's place takes it in.
    """
    value = words.text[end:].lstrip()
    name = Token(key, words.span.part(0, len(key) if words.text.startswith(key) else end))
    return name, cut(words, len(words.text) - len(value), len(words.text))


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
