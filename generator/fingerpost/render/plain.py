"""Plain text on its way into markup: escaped, free of control characters, and ids that any page may carry."""

from __future__ import annotations

import html
import re

_CONTROLS = re.compile(r"[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f\ufffe\uffff\ud800-\udfff]")
_SPECIAL = re.compile(f"[&<>\"'{_CONTROLS.pattern[1:-1]}]")
_UNFIT = re.compile(r"[^\w.:-]+")


def without_controls(text: str) -> str:
    """The text without characters that neither HTML nor XML can hold; tabs and line ends stay."""
    return _CONTROLS.sub("", text)


def escaped(text: str) -> str:
    """The text as the content of an element or of a quoted attribute."""
    # Most texts need nothing done, and a page holds some thousands of them.
    return html.escape(without_controls(text), quote=True) if _SPECIAL.search(text) else text


def html_id(text: str) -> str:
    """The text as an id: what is not a letter, digit or one of `_.:-` becomes a hyphen."""
    return _UNFIT.sub("-", without_controls(text)) or "-"
