"""What may follow a move or a start: a name and a cue. The grammar stands in grammar.py."""

from __future__ import annotations

import re

from fingerpost.diagnostics import Code
from fingerpost.source.cursor import Cursor, UnreadableError, said
from fingerpost.source.syntax import NameSaid, Token

MARK = re.compile(r"[=~]")
AT = re.compile(r"@")
TIME = re.compile(r"(?:[0-9]{1,2}:[0-5][0-9]|[0-9]{1,3}):[0-5][0-9](?:\.[0-9]{1,3})?(?![0-9A-Za-z:.])")
NEXT_TAIL = re.compile(r"[=~@]|(?:passing|silent|and)(?!\S)")


def name(cursor: Cursor) -> NameSaid:
    """`= Em7` or `~ Em6`; the cursor sees the mark."""
    mark = cursor.expect(MARK, lambda word: UnreadableError(word.span, "A name begins otherwise", "`=` or `~`"))
    found = symbol(cursor, f"After `{mark.text}` a chord is missing", f"a chord, such as `{mark.text} Em7`")
    return NameSaid(found, strict=mark.text == "=", mark=mark)


def symbol(cursor: Cursor, message: str, expected: str) -> Token:
    """A chord as the author writes it, up to the next tail or comma."""
    start = cursor.skip()
    cursor.at = _symbol_end(cursor.text, start)
    if cursor.at == start:
        raise UnreadableError(cursor.word().span, message, expected)
    return cursor.cut(start, cursor.at)


def time(cursor: Cursor) -> Token:
    """A time in the recording."""
    return cursor.expect(TIME, _no_time)


def _no_time(word: Token) -> UnreadableError:
    expected = "minutes and seconds, such as `0:41`, with hours `1:02:03`"
    message = f"{said(word)} is no time" if word.text else "A time is missing here"
    return UnreadableError(word.span, message, expected, Code.BAD_VALUE)


def _symbol_end(text: str, start: int) -> int:
    """Where a symbol ends: before the next tail, or a comma outside parentheses; blanks at its end left out."""
    depth, end = 0, start
    for index in range(start, len(text)):
        character = text[index]
        if character.isspace():
            continue
        depth += (character == "(") - (character == ")")
        begins_word = index == start or text[index - 1].isspace()
        if (character == "," and depth <= 0) or (begins_word and NEXT_TAIL.match(text, index)):
            return end
        end = index + 1
    return end
