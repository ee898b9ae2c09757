"""A place in one line of the author's text: looks ahead, takes tokens, and says exactly where something else stands."""

from __future__ import annotations

import re
from collections.abc import Callable

from fingerpost.diagnostics import Code, Diagnostic, Severity, Span
from fingerpost.source.syntax import Token

BLANKS = re.compile(r"\s+")
WORD = re.compile(r"[^\s,]+|,")


class Unreadable(Exception):
    """Reading stopped at a span of the line; turned into a finding by the reader that started it."""

    def __init__(self, span: Span, message: str, expected: str, code: Code = Code.MOVE_UNREADABLE, fix: str = "") -> None:
        """Keeps what the finding needs."""
        super().__init__(message)
        self.span, self.message, self.expected, self.code, self.fix = span, message, expected, code, fix

    def finding(self) -> Diagnostic:
        """The same as a finding; what can't be read makes the page wrong, so it is an error."""
        return Diagnostic(self.span, Severity.ERROR, self.code, self.message, self.expected, self.fix)


class Cursor:
    """Walks over the text of one token from left to right; blanks between tokens are passed over."""

    def __init__(self, token: Token) -> None:
        """Starts before the first word."""
        self.token, self.text, self.at = token, token.text, 0

    def skip(self) -> int:
        """Passes over blanks; returns where the next word starts."""
        if blanks := BLANKS.match(self.text, self.at):
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

    def expect(self, pattern: re.Pattern[str], wrong: Callable[[Token], Unreadable]) -> Token:
        """Takes what the pattern matches next; else raises what `wrong` makes of the word that stands there."""
        if (token := self.take(pattern)) is None:
            raise wrong(self.word())
        return token

    def word(self) -> Token:
        """The word that comes next, without taking it; empty at the end of the line."""
        found = WORD.match(self.text, self.skip())
        return self.cut(self.at, found.end() if found else len(self.text))

    def cut(self, start: int, end: int) -> Token:
        """The text between two offsets, with its place."""
        return Token(self.text[start:end], self.token.span.part(start, end))

    def since(self, start: int) -> Span:
        """The span from an offset to where the cursor is."""
        return self.token.span.part(start, self.at)
