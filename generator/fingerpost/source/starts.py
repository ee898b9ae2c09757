"""The forms of `start`. The grammar stands in grammar.py."""

from __future__ import annotations

import re

from fingerpost.source.actions import put_down
from fingerpost.source.cursor import Cursor, UnreadableError, whole_word
from fingerpost.source.syntax import (
    Action,
    AfterStart,
    AsTaughtStart,
    FingersStart,
    OpenStart,
    PreviousStart,
    ShapeStart,
    Start,
    StartForm,
    Token,
)
from fingerpost.source.tails import MARK, name, symbol

SHAPE = re.compile(r"[xX0-9][-xX0-9]*(?:/[^\s=~]*)?(?=\s*(?:[=~]|$))")
OPEN, PREVIOUS, AFTER = map(whole_word, ("open", "previous", "after"))
AS_TAUGHT = re.compile(r"as\s+taught(?![0-9A-Za-z])")
ID = re.compile(r"[^\s=~]+")
JOINT = re.compile(r",|and(?![0-9A-Za-z])")
A_START = "`open`, fingers such as `2 E3, 1 A2`, a shape such as `x32010`, `previous`, `after ID` or `as taught CHORD`"


def start(cursor: Cursor) -> Start:
    """The whole value of `start`."""
    form = _form(cursor)
    said_name = name(cursor) if cursor.sees(MARK) else None
    cursor.expect_end("nothing more, or `=` and a chord")
    return Start(cursor.token, form, said_name)


def _form(cursor: Cursor) -> StartForm:
    begin = cursor.skip()
    if shape := cursor.take(SHAPE):
        return ShapeStart(shape)
    if cursor.take(OPEN):
        return _open(cursor, begin)
    if cursor.take(PREVIOUS):
        return PreviousStart(cursor.since(begin))
    if cursor.take(AFTER):
        return AfterStart(cursor.expect(ID, _no_id))
    if cursor.take(AS_TAUGHT):
        return AsTaughtStart(symbol(cursor, "After `as taught` a chord is missing", "a chord, such as `as taught C`"))
    return FingersStart((put_down(cursor, A_START), *_further(cursor)))


def _open(cursor: Cursor, begin: int) -> StartForm:
    """`open`, or `open, strum A-e`: no finger is down, and what follows says which strings are struck."""
    form = OpenStart(cursor.since(begin))
    further = _further(cursor)
    return FingersStart(further) if further else form


def _further(cursor: Cursor) -> tuple[Action, ...]:
    found = []
    while cursor.take(JOINT):
        found.append(put_down(cursor, A_START))
    return tuple(found)


def _no_id(word: Token) -> UnreadableError:
    return UnreadableError(
        word.span, "After `after` the id of a block is missing", "an id, such as `after slack-water`"
    )
