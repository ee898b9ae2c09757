"""A reader's place in a chord symbol, and the error that says where a symbol goes wrong."""

from __future__ import annotations

import re
from typing import NoReturn

_WORD = re.compile(r"[^\s,()/]+|[^\s]", re.DOTALL)
_GAP = re.compile(r"[\s,]*")
_LONGEST_QUOTE = 24


class SymbolError(ValueError):
    """A text is no chord symbol: where (position and length in code points, from 0), why, and what was expected."""

    def __init__(self, message: str, position: int, length: int, expected: str) -> None:
        super().__init__(f"{message}; expected {expected}")
        self.message = message
        self.position = position
        self.length = length
        self.expected = expected


class Scanner:
    """Goes through a symbol from left to right. Commas and blanks are gaps; parentheses are counted."""

    def __init__(self, text: str) -> None:
        self.text = text
        self.position = 0
        self.start = 0
        self._open: list[int] = []

    @property
    def at_end(self) -> bool:
        """Whether nothing is left."""
        return self.position >= len(self.text)

    @property
    def inside(self) -> bool:
        """Whether a parenthesis is open."""
        return bool(self._open)

    def accept(self, pattern: re.Pattern[str]) -> re.Match[str] | None:
        """Takes what the pattern matches here, or nothing."""
        match = pattern.match(self.text, self.position)
        if match is None:
            return None
        self.start, self.position = self.position, match.end()
        return match

    def sees(self, pattern: re.Pattern[str]) -> bool:
        """Whether the pattern matches here."""
        return pattern.match(self.text, self.position) is not None

    def skip(self) -> None:
        """Goes over blanks, commas and parentheses."""
        while True:
            self.accept(_GAP)
            mark = self.text[self.position : self.position + 1]
            if mark == "(" and not self.inside:
                self._open.append(self.position)
            elif mark == ")" and self.inside:
                self._open.pop()
            else:
                return
            self.position += 1

    def close(self) -> None:
        """Raises where a parenthesis was opened and is still open."""
        if self._open:
            raise SymbolError("this parenthesis is never closed", self._open[0], 1, "a closing parenthesis")

    def fail_here(self, message: str, expected: str) -> NoReturn:
        """Raises for the word that stands here; `{}` in the message is that word."""
        word = _WORD.match(self.text, self.position)
        found = word[0] if word else ""
        raise SymbolError(message.format(_quoted(found)), self.position, len(found), expected)

    def fail_back(self, message: str, expected: str) -> NoReturn:
        """Raises for what was taken last; `{}` in the message is that text."""
        found = self.text[self.start : self.position]
        raise SymbolError(message.format(_quoted(found)), self.start, len(found), expected)


def _quoted(text: str) -> str:
    return f'"{text}"' if len(text) <= _LONGEST_QUOTE else f'"{text[:_LONGEST_QUOTE]}..."'
