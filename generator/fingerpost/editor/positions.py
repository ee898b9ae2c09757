"""Places between an editor and us: it counts code units from 0, we count code points from 1; lines end as in LSP.

Language Server Protocol 3.17, "Text Documents" and "Position": lines end with LF, CRLF or CR and nothing else, and
`character` counts units of the encoding agreed upon (UTF-8, UTF-16 or UTF-32).
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import cached_property

LINE_END = re.compile(r"\r\n|\r|\n")
BYTE_ORDER_MARK = "\ufeff"
UTF_16 = "utf-16"
UNITS: Mapping[str, Callable[[str], int]] = {
    "utf-8": lambda text: len(text.encode("utf-8")),
    UTF_16: lambda text: len(text.encode("utf-16-le")) // 2,
    "utf-32": len,
}


@dataclass(frozen=True)
class Lines:
    """The lines of a text as an editor holds it, and how it counts in them."""

    text: str
    encoding: str = UTF_16

    @cached_property
    def starts(self) -> tuple[int, ...]:
        """The offset of each line, in code points."""
        return (0, *(found.end() for found in LINE_END.finditer(self.text)))

    @cached_property
    def ends(self) -> tuple[int, ...]:
        """The offset of the end of each line, its line end left out."""
        return (*(found.start() for found in LINE_END.finditer(self.text)), len(self.text))

    @property
    def plain(self) -> str:
        """The text as a page is read: without byte-order mark, its lines ended by LF."""
        return LINE_END.sub("\n", self.text.removeprefix(BYTE_ORDER_MARK))

    @property
    def newline(self) -> str:
        """The line end that the text uses; LF where it has none."""
        found = LINE_END.search(self.text)
        return found.group() if found else "\n"

    def line(self, number: int) -> str:
        """A line counted from 1, without its line end and byte-order mark; "" where there is none."""
        if not 1 <= number <= len(self.starts):
            return ""
        return self.text[self._start(number) : self.ends[number - 1]]

    def to_client(self, line: int, column: int) -> tuple[int, int]:
        """Line and code unit, both from 0, of a line and a code point, both from 1; what is beyond the end is cut."""
        line = max(1, min(line, len(self.starts)))
        whole = self.text[self.starts[line - 1] : self.ends[line - 1]]
        points = max(0, column - 1) + self._start(line) - self.starts[line - 1]
        return line - 1, self._units(whole[:points])

    def from_client(self, line: int, character: int) -> tuple[int, int]:
        """The other way round; a place inside a character is the beginning of it."""
        number = max(1, min(line + 1, len(self.starts)))
        offset = self.offset(line, character)
        return number, max(1, offset - self._start(number) + 1)

    def offset(self, line: int, character: int) -> int:
        """How many code points stand before a place of the editor; its end where the text has no such place."""
        if line >= len(self.starts):
            return len(self.text)
        at, end = self.starts[max(0, line)], self.ends[max(0, line)]
        whole = self.text[at:end]
        if whole.isascii():
            return min(at + max(0, character), end)
        for char in whole:
            width = self._units(char)
            if width > character:
                break
            at, character = at + 1, character - width
        return at

    def _start(self, number: int) -> int:
        start = self.starts[number - 1]
        return start + 1 if number == 1 and self.text.startswith(BYTE_ORDER_MARK) else start

    def _units(self, text: str) -> int:
        return len(text) if text.isascii() else UNITS[self.encoding](text)


def whole(text: str) -> str:
    """The text with what is no character (half of a pair that stands alone) replaced by U+FFFD."""
    return text if text.isascii() else re.sub("[\ud800-\udfff]", "\ufffd", text)
