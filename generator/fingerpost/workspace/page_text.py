"""The text of a page from its bytes, whatever they are."""

from __future__ import annotations

from dataclasses import dataclass

from fingerpost.diagnostics import Code, Diagnostic, Severity, Span

MOST_BYTES = 16_000_000


@dataclass(frozen=True, slots=True)
class PageText:
    """A page's text, with plain newlines and without a byte-order mark; file is its path from the sources' folder."""

    file: str
    text: str


def decode(file: str, data: bytes) -> tuple[PageText, tuple[Diagnostic, ...]]:
    """The text of a page and what was wrong with its bytes; a byte that is no UTF-8 becomes U+FFFD."""
    try:
        return PageText(file, _plain(data.decode("utf-8-sig"))), ()
    except UnicodeDecodeError as error:
        text = data.decode("utf-8-sig", errors="replace")
        return PageText(file, _plain(text)), (_not_utf8(file, data, _offset(data, error)),)


def too_large(file: str, size: int) -> Diagnostic:
    """The finding for a page that is not read because of its size in bytes."""
    return Diagnostic(
        Span(file, 1, 1, 1, 1),
        Severity.ERROR,
        Code.UNREADABLE_FILE,
        f"This page has {size:,} bytes, so it is not read",
        f"at most {MOST_BYTES:,} bytes",
        "split it into several lessons",
    )


def _plain(text: str) -> str:
    return text.replace("\r\n", "\n").replace("\r", "\n")


def _offset(data: bytes, error: UnicodeDecodeError) -> int:
    """Where the bad byte is, counting a byte-order mark, which `utf-8-sig` leaves out of its count."""
    return error.start + (len(data) - len(error.object))


def _not_utf8(file: str, data: bytes, offset: int) -> Diagnostic:
    before = _plain(data[:offset].decode("utf-8-sig"))
    line, column = before.count("\n") + 1, len(before) - before.rfind("\n")
    return Diagnostic(
        Span(file, line, column, line, column + 1),
        Severity.ERROR,
        Code.INVALID_UTF8,
        f"Byte {offset + 1} of this file (0x{data[offset]:02x}) is not UTF-8 text",
        "text saved as UTF-8",
        "save the file again with the encoding UTF-8",
    )
