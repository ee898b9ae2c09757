"""The one-line language of moves and starts, read by hand.

    move     = actions { tail }
    actions  = action { ( "," | "and" ) action }    a tail may stand before a comma
    action   = finger ( "to" place | "off" | "for" finger )
             | "shift" ( "+" | "-" ) number
             | "mute" string [ "by" finger ]
             | "strum" strings
             | "hold" | "rest" | "back"
    place    = spot [ "-" spot ]                    a bar: both spots have the same fret
    spot     = letter fret | number ":" fret        G2, Bb3, 4:2; nothing between
    strings  = "all" | range { range }
    range    = string [ "-" string ]
    string   = letter | number
    finger   = "1" | "2" | "3" | "4" | "T"
    tail     = ( "=" | "~" ) symbol | "@" time | "passing" | "silent"
    time     = [ hours ":" ] minutes ":" seconds

    start    = form [ ( "=" | "~" ) symbol ]
    form     = "open" { "," put } | "previous" | "after" id | "as taught" symbol | shape
             | put { ( "," | "and" ) put }
    put      = finger [ "to" ] place | "mute" string [ "by" finger ] | "strum" strings

A dash between two spots or strings may be a hyphen or a typographic dash. A symbol goes on to the next tail, comma or
`and` that stands outside its parentheses; whether it is a chord is judged later. So are strings and frets: only what
no tuning and no neck can have is refused here.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from functools import lru_cache
from typing import Generic, TypeVar

from fingerpost.diagnostics import Diagnostic
from fingerpost.source import tails
from fingerpost.source.actions import AN_ACTION, action, strum
from fingerpost.source.cursor import Cursor, UnreadableError, after, said, whole_word
from fingerpost.source.mending import mended, retyped
from fingerpost.source.starts import JOINT, start
from fingerpost.source.syntax import MoveLine, Start, StrumStrings, Token

LONGEST_LINE = 400
"""A move line of more code points is refused unread, so that a hostile line costs nothing. By our own choice."""

PASSING, SILENT, STRUM = map(whole_word, ("passing", "silent", "strum"))

T = TypeVar("T")


@dataclass(frozen=True, slots=True)
class Reading(Generic[T]):
    """What a line says, None where it could not be read, and the findings about it."""

    value: T | None
    findings: tuple[Diagnostic, ...] = ()


# While an author types, all lines but one are read again.
@lru_cache(maxsize=4096)
def read_move(token: Token) -> Reading[MoveLine]:
    """Reads one move line. Never raises; a line that can't be read gives None and one error at the exact word.

    The error's fix is the whole line as it can be read, where a small change makes it so.
    """
    return _read(token, _move)


def move_or_none(token: Token) -> MoveLine | None:
    """The same without a finding, for many texts of which most can't be read."""
    return _or_none(token, _move)


def start_or_none(token: Token) -> Start | None:
    """As move_or_none, the value of `start`."""
    return _or_none(token, start)


def strum_or_none(token: Token) -> StrumStrings | None:
    """As move_or_none, the value of a block's `strum`."""
    return _or_none(token, _strum_value)


def read_start(token: Token) -> Reading[Start]:
    """Reads the value of `start`; as read_move."""
    return _read(token, start)


def read_strum(token: Token) -> Reading[StrumStrings]:
    """Reads the value of a block's `strum`: `A-e`, `A D B` or `all`, with or without the word before it."""
    return _read(token, _strum_value)


def read_cue(token: Token) -> Reading[Token]:
    """Reads the value of `cue`: `0:41` or `1:02:03`, with or without `@`; gives the time without it."""
    return _read(token, _cue_value)


def _read(token: Token, rule: Callable[[Cursor], T]) -> Reading[T]:
    try:
        return Reading(_whole(token, rule))
    except UnreadableError as fault:
        return Reading(None, (fault.finding(_fix(token, rule, fault)),))


def _fix(token: Token, rule: Callable[[Cursor], object], fault: UnreadableError) -> str:
    """The line put right: at the fault itself where its fix is known, else by the small rewrites, else retyped."""
    at, end = fault.span.column - token.span.column, fault.span.end_column - token.span.column
    if fault.fix:
        return token.text[:at] + fault.fix + token.text[end:]

    def reads(text: str) -> bool:
        return _or_none(replace(token, text=text), rule) is not None

    return mended(token.text, reads) or retyped(token.text, at, end, reads)


def _or_none(token: Token, rule: Callable[[Cursor], T]) -> T | None:
    try:
        return _whole(token, rule)
    except UnreadableError:
        return None


def _whole(token: Token, rule: Callable[[Cursor], T]) -> T:
    if len(token.text) > LONGEST_LINE or "\n" in token.text:
        raise UnreadableError(
            token.span, "This is too long for one move", f"one line, {LONGEST_LINE} characters at most"
        )
    return rule(Cursor(token))


def _move(cursor: Cursor) -> MoveLine:
    if cursor.ended:
        raise UnreadableError(cursor.span, "A move is missing here", AN_ACTION)
    line = MoveLine(cursor.token, (action(cursor),))
    while not cursor.ended:
        line = _further(cursor, line)
    return line


def _further(cursor: Cursor, line: MoveLine) -> MoveLine:
    """The line with one more action or tail."""
    if cursor.take(JOINT):
        return replace(line, actions=(*line.actions, action(cursor)))
    start = cursor.skip()
    if cursor.sees(tails.MARK):
        return replace(line, name=_once(line.name, tails.name(cursor), cursor, start))
    if cursor.take(tails.AT):
        return replace(line, cue=_once(line.cue, tails.time(cursor), cursor, start))
    if token := cursor.take(PASSING):
        return replace(line, passing=_once(line.passing, token, cursor, start))
    if token := cursor.take(SILENT):
        return replace(line, silent=_once(line.silent, token, cursor, start))
    word = cursor.word()
    expected = "nothing more, or `,`, `and`, `= CHORD`, `~ CHORD`, `@0:41`, `passing` or `silent`"
    raise UnreadableError(word.span, after("the move", word), expected)


def _once(before: object | None, value: T, cursor: Cursor, start: int) -> T:
    if before is not None:
        word = cursor.cut(start, cursor.at)
        raise UnreadableError(word.span, f"{said(word)} says again what the line has said already", "it once")
    return value


def _strum_value(cursor: Cursor) -> StrumStrings:
    begin = cursor.skip()
    cursor.take(STRUM)
    strings = strum(cursor, begin)
    cursor.expect_end("strings only, such as `A-e` or `A D B`")
    return strings


def _cue_value(cursor: Cursor) -> Token:
    cursor.take(tails.AT)
    time = tails.time(cursor)
    cursor.expect_end("the time only, such as `0:41`")
    return time
