"""Texts of strangers on one line, cut politely: what can't be seen, or would steer a reader, is spelled out."""

from __future__ import annotations

import unicodedata

_LINE_END = " \u23ce "
# Letters and marks that show nothing at all, though Unicode counts them as printable.
_BLANK = frozenset("\u034f\u115f\u1160\u17b4\u17b5\u2800\u3164\uffa0")
_SELECTORS = range(0xFE00, 0xFE10), range(0xE0100, 0xE01F0)


def spelled_out(text: str) -> str:
    """The text on one line: control, direction and other unseen characters as `[U+202E]`, every blank as a space."""
    return "".join(map(_shown, text.replace("\r\n", "\n")))


def clipped(text: str, most: int = 300) -> str:
    """The text spelled out, cut where it is longer than `most` characters."""
    shown = spelled_out(text[: most + 1])
    return shown if len(text) <= most and len(shown) <= most else f"{shown[: most - 1]}\u2026"


def _shown(char: str) -> str:
    if char == "\n":
        return _LINE_END
    if char == "\t" or unicodedata.category(char) == "Zs":
        return " "
    hidden = char in _BLANK or any(ord(char) in selectors for selectors in _SELECTORS)
    return f"[U+{ord(char):04X}]" if hidden or not char.isprintable() else char
