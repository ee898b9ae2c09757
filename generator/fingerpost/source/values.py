"""The values of a block's keys: words, ids, counts, stroke patterns and lists, each as tokens with their places."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from itertools import islice
from typing import TypeVar

from fingerpost.diagnostics import Code
from fingerpost.source.block_lines import cut, without_comment
from fingerpost.source.findings import Findings, quoted
from fingerpost.source.grammar import Reading
from fingerpost.source.outline import PROSE, Entry
from fingerpost.source.quoting import unquoted
from fingerpost.source.references import reference, refuse
from fingerpost.source.syntax import Image, Token

ID = re.compile(r"[a-z0-9]+(?:-[a-z0-9]+)*")
COUNT = re.compile(r"[0-9]{1,2}")
STROKES = re.compile(r"(?:[DUdu\-.,|xX↓↑ ]|\b(?:down|up|rest)\b)+", re.IGNORECASE)
OUTSIDE_BRACKETS = re.compile(r"(?:\([^()]*\)|[^,()]|[()])+")
LONGEST_ID = 80
MOST_LISTED = 100
"""What comes after so many entries of a list is not read, so that a hostile block costs little. By our own choice."""

T = TypeVar("T")


@dataclass(frozen=True, slots=True)
class Values:
    """Reads entries of the outline; what is wrong with them goes to the findings."""

    findings: Findings

    def words(self, entry: Entry | None) -> Token | None:
        """The words of a key as one token, or None with a finding where there are none."""
        if entry is None or not self._has_words(entry):
            return None
        if entry.key.text in PROSE:
            whole = joined(entry.words, "\n" if entry.lines else " ")
            return whole if entry.lines else unquoted(whole)
        if len(entry.words) > 1:
            message = f"`{entry.key.text}` is one line, and here a second one follows"
            self.findings.error(entry.words[1].span, Code.BAD_VALUE, message, "one line")
        return self.literal(entry.words[0])

    def literal(self, token: Token) -> Token | None:
        """A value that is not for reading: without comment and quotes; None with a finding for a reference."""
        if found := reference(token):
            refuse(found, self.findings)
            return None
        return unquoted(without_comment(token))

    def read(self, entry: Entry | None, reader: Callable[[Token], Reading[T]]) -> T | None:
        """What a reader of lines makes of the words."""
        token = self.words(entry)
        return self.taken(reader(token)) if token else None

    def taken(self, reading: Reading[T]) -> T | None:
        """The value of a reading; its findings are kept."""
        self.findings.add(reading.findings)
        return reading.value

    def id(self, entry: Entry | None) -> Token | None:
        """A stable id."""
        token = self.words(entry)
        if token is None or (ID.fullmatch(token.text) and len(token.text) <= LONGEST_ID):
            return token
        expected = f"lower-case letters, digits and single hyphens, {LONGEST_ID} at most"
        self.findings.error(
            token.span, Code.BAD_VALUE, f"{quoted(token.text)} can't be an id", expected, slug(token.text)
        )
        return None

    def count(self, entry: Entry | None) -> Token | None:
        """A whole number of at most two digits."""
        return self._formed(entry, COUNT, "a whole number such as 2")

    def strokes(self, entry: Entry | None) -> Token | None:
        """A pattern of strokes."""
        return self._formed(entry, STROKES, "strokes down and up, `-` for none, such as `D DU -UDU`")

    def image(self, entry: Entry | None) -> Image | None:
        """`file.png what is to be seen`: the file, and the words that stand for it."""
        token = self.words(entry)
        if token is None:
            return None
        file = token.text.split(maxsplit=1)[0] if token.text.strip() else token.text
        rest = trimmed(cut(token, len(file), len(token.text)))
        return Image(cut(token, 0, len(file)), rest if rest.text else None)

    def list(self, entry: Entry | None) -> tuple[Token, ...]:
        """A list: `[G, Gadd9]`, `G, Gadd9`, or an entry a line."""
        if entry is None:
            return ()
        if not entry.items and not entry.words:
            self._has_words(entry)
        for item in entry.items:
            for inner in item.entries:
                message = f"`{inner.key.text}` is a key, and stands in a list of words"
                self.findings.error(
                    inner.key.span, Code.BAD_VALUE, message, f"words, such as `{entry.key.text}: G, Em`"
                )
        pieces = (*entry.words, *(word for item in entry.items for word in item.words))
        parts = list(islice((part for piece in pieces for part in listed(piece)), MOST_LISTED + 1))
        if len(parts) > MOST_LISTED:
            message = f"`{entry.key.text}` lists more than {MOST_LISTED}, and what follows these was not read"
            self.findings.error(parts[-1].span, Code.BAD_VALUE, message, f"at most {MOST_LISTED} in a list")
        tokens = (self.literal(part) for part in parts[:MOST_LISTED])
        return tuple(token for token in tokens if token and token.text)

    def _formed(self, entry: Entry | None, form: re.Pattern[str], expected: str) -> Token | None:
        token = self.words(entry)
        if entry is None or token is None or form.fullmatch(token.text):
            return token
        self.findings.error(token.span, Code.BAD_VALUE, f"`{entry.key.text}` is {quoted(token.text)}", expected)
        return None

    def _has_words(self, entry: Entry) -> bool:
        key = entry.key
        if entry.items:
            first = entry.items[0].hyphen.span
            self.findings.error(first, Code.BAD_VALUE, f"`{key.text}` is given a list", "words on one line")
        elif not entry.words:
            self.findings.error(
                key.span, Code.BAD_VALUE, f"`{key.text}` is given nothing", f"words after `{key.text}:`"
            )
        return not entry.items and bool(entry.words)


def slug(text: str) -> str:
    """The nearest id to some words; empty where they have no letter that an id may have."""
    plain = unicodedata.normalize("NFKD", text.lower()).encode("ascii", "ignore").decode()
    return "-".join(re.findall(r"[a-z0-9]+", plain))[:LONGEST_ID].strip("-")


def joined(words: list[Token], between: str) -> Token:
    """Words of several lines as one token."""
    return Token(between.join(word.text for word in words), words[0].span.to(words[-1].span))


def listed(piece: Token) -> Iterator[Token]:
    """The entries of a list in one line; a comma inside parentheses belongs to a chord."""
    text = without_comment(piece).text
    start, end = len(text) - len(text.lstrip("[ ")), len(text.rstrip("] "))
    for part in OUTSIDE_BRACKETS.finditer(text, start, end) if start < end else ():
        if part.group().strip():
            yield trimmed(cut(piece, part.start(), part.end()))


def trimmed(token: Token) -> Token:
    """The token without blanks at its ends."""
    lead = len(token.text) - len(token.text.lstrip())
    return cut(token, lead, max(lead, len(token.text.rstrip())))


def one_line(words: list[Token]) -> Token | None:
    """Words that stand on one line, without comment; nothing is found fault with."""
    return without_comment(words[0]) if len(words) == 1 else None
