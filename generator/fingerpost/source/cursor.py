"""A place in one line of the author's text: looks ahead, takes tokens, and says exactly where something else stands."""

from __future__ import annotations

import re
from collections.abc import Callable

from fingerpost.diagnostics import Code, Diagnostic, Severity, Span
from fingerpost.source.findings import quoted
from fingerpost.source.syntax import Token

BLANKS = re.compile(r"\s+")
WORD = re.compile(r"[^\s,]+|,")


class UnreadableError(Exception):
    """Reading stopped at a span of the line; it becomes a finding where the reading was started."""

    def __init__(
        self, span: Span, message: str, expected: str, code: Code = Code.MOVE_UNREADABLE, fix: str = ""
    ) -> None:
        """Keeps what the finding needs. fix, where given, is text for the span itself."""
        super().__init__(message)
        self.span, self.message, self.expected, self.code, self.fix = span, message, expected, code, fix

    def finding(self, fix: str) -> Diagnostic:
        """The same as a finding with this fix; what can't be read makes the page wrong, so it is an error."""
        return Diagnostic(self.span, Severity.ERROR, self.code, self.message, self.expected, fix)


class Cursor:
    """Walks over the text of one token from left to right; blanks between tokens are passed over."""

    __slots__ = ("at", "span", "text", "token")

    def __init__(self, token: Token) -> None:
        """Starts before the first word."""
        self.token, self.text, self.span, self.at = token, token.text, token.span, 0

    def skip(self) -> int:
        """Passes over blanks; returns where the next word starts."""
        if self.text[self.at : self.at + 1].isspace() and (blanks := BLANKS.match(self.text, self.at)):
            self.at = blanks.end()
        return self.at

    @property
    def ended(self) -> bool:
        """Whether nothing but blanks is left."""
        return self.skip() >= len(self.text)

    def sees(self, pattern: re.Pattern[str]) -> bool:
        """Whether the pattern comes next."""
        return pattern.match(self.text, self.skip()) is not None

    def take(self, pattern: re.Pattern[str]) -> Token | None:
        """Takes what the pattern matches next, or nothing."""
        if (found := pattern.match(self.text, self.skip())) is None:
            return None
        self.at = found.end()
        return self.cut(found.start(), found.end())

    def expect(self, pattern: re.Pattern[str], wrong: Callable[[Token], UnreadableError]) -> Token:
        """Takes what the pattern matches next; else raises what `wrong` makes of the word that stands there."""
        if (token := self.take(pattern)) is None:
            raise wrong(self.word())
        return token

    def expect_end(self, expected: str) -> None:
        """Raises unless nothing is left."""
        if not self.ended:
            raise UnreadableError(self.word().span, f"Here stands {said(self.word())}", expected)

    def word(self) -> Token:
        """The word that comes next, without taking it; empty at the end of the line."""
        found = WORD.match(self.text, self.skip())
        return self.cut(self.at, found.end() if found else len(self.text))

    def cut(self, start: int, end: int) -> Token:
        """The text between two offsets, with its place."""
        return Token(self.text[start:end], self.span.part(start, end))

    def since(self, start: int) -> Span:
        """The span from an offset to where the cursor is, without blanks passed over in looking ahead."""
        return self.span.part(start, len(self.text[: self.at].rstrip()))


def said(word: Token) -> str:
    """How a finding speaks of a word that stands somewhere."""
    return quoted(word.text) if word.text else "nothing"


def after(what: str, word: Token) -> str:
    """The sentence about a word that can't stand where it stands, or about one that is missing."""
    return f"{said(word)} can't follow {what}" if word.text else f"Something is missing after {what}"


def whole_word(word: str) -> re.Pattern[str]:
    """A pattern for a word that is not the beginning of a longer one."""
    return re.compile(rf"{word}(?![0-9A-Za-z])")
