"""The text of a page from its bytes, whatever they are."""

from __future__ import annotations

from dataclasses import dataclass

from fingerpost.diagnostics import Code, Diagnostic, Severity, Span
from fingerpost.source.decoding import read_bytes

MOST_BYTES = 16_000_000


@dataclass(frozen=True, slots=True)
class PageText:
    """A page's text, with plain newlines and without a byte-order mark; file is its path from the sources' folder."""

    file: str
    text: str


def decode(file: str, data: bytes) -> tuple[PageText, tuple[Diagnostic, ...]]:
    """The text of a page and what was wrong with its bytes; what is no UTF-8 becomes U+FFFD."""
    text, findings = read_bytes(file, data)
    return PageText(file, text.replace("\r\n", "\n").replace("\r", "\n")), findings


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


def is_binary(data: bytes) -> bool:
    """Whether these bytes are no text at all, such as a picture's; text in another encoding is text all the same."""
    if b"\0" not in data or data.startswith((b"\xff\xfe", b"\xfe\xff")):
        return False
    try:
        data.decode("utf-8")
    except UnicodeDecodeError:
        return True
    return False


def binary(file: str) -> Diagnostic:
    """The finding for a page that is no text, and so is not read."""
    message = "This page is no text, so it is not read: it holds zero bytes, as pictures and sounds do"
    fix = "take the file out, or give it the ending of its kind"
    return Diagnostic(Span(file, 1, 1, 1, 1), Severity.ERROR, Code.INVALID_UTF8, message, "a page of Markdown", fix)


def no_address(file: str) -> Diagnostic | None:
    """The finding for a page whose name is not UTF-8 on the disk: such a name makes no address on the web."""
    try:
        file.encode("utf-8")
    except UnicodeEncodeError:
        return Diagnostic(
            Span(file, 1, 1, 1, 1),
            Severity.ERROR,
            Code.UNREADABLE_FILE,
            "The name of this page is not UTF-8 text, so the page would have no address, and is not read",
            "a name in UTF-8",
            "give the file another name",
        )
    return None
