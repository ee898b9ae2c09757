"""Colours of a report on a terminal; they only repeat what the words say."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from fingerpost.diagnostics import Severity

Paint = Callable[[str, str], str]
"""Gives a text in the colour of a role: a severity, or `place`, `mark`, `dim`."""

_CODES: Mapping[str, str] = {
    Severity.ERROR: "1;31",
    Severity.WARNING: "1;33",
    Severity.NOTE: "1;36",
    "place": "1",
    "mark": "1;32",
    "dim": "2",
}


def plain(text: str, role: str) -> str:
    """The text as it is."""
    return text


def coloured(text: str, role: str) -> str:
    """The text between the escape sequences (ECMA-48, SGR) that set its colour and take it back."""
    return f"\x1b[{_CODES[role]}m{text}\x1b[0m"
