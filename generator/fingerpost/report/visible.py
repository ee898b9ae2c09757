"""Text of the author's made fit to be shown: control characters become visible, so that none can drive a terminal."""

from __future__ import annotations

PICTURES = 0x2400
"""Where Unicode keeps the pictures of the first 32 control characters, such as U+241B for escape."""
DELETE, DELETE_PICTURE = 0x7F, "\u2421"
BOX = "\u25a1"


def visible(text: str) -> str:
    """The text with each character that is not for printing shown as one that is; its length stays the same.

    Tabs stay. So the marks under a line still stand where they should, and marks of direction can't turn a line round.
    """
    if text.isprintable():
        return text
    return "".join(char if char == "\t" or char.isprintable() else _picture(char) for char in text)


def _picture(char: str) -> str:
    code = ord(char)
    if code < 0x20:
        return chr(PICTURES + code)
    return DELETE_PICTURE if code == DELETE else BOX
