"""What a hand does, read from a line: fingers, places, strings and strumming. The grammar stands in grammar.py."""

from __future__ import annotations

import re
from collections.abc import Callable

from fingerpost.diagnostics import Code
from fingerpost.source.cursor import Cursor, UnreadableError, after, said, whole_word
from fingerpost.source.syntax import (
    Action,
    Back,
    ExchangeFinger,
    Hold,
    LiftFinger,
    MuteString,
    Place,
    PlaceFinger,
    Rest,
    ShiftHand,
    StrumStrings,
    Token,
)

DASHES = "-‐‑‒–—−"
"""What an author may take for the dash of a range: the keyboard's, and those that writing programs put in its place."""
DASH = re.compile(f"[{DASHES}]")
FINGER = re.compile(r"[1-4T](?![0-9A-Za-z:])")
LETTER = re.compile(r"[A-Ha-h](?:bb|##|[b#♭♯])?(?![A-Za-z])")
NUMBER = re.compile(r"[0-9]{1,2}(?![0-9A-Za-z])")
STRING_BEFORE_COLON = re.compile(r"[0-9]{1,2}(?=:)")
COLON = re.compile(r":")
FRET = re.compile(r"[0-9]{1,3}(?![0-9A-Za-z])")
SIGNED = re.compile(r"[+\-−–][0-9]{1,2}(?![0-9A-Za-z])")
STRANGE_NAME = re.compile(r"[A-Za-z]{1,3}(?![A-Za-z])")
LETTERS = re.compile(r"[A-Za-z]+")
TO, OFF, FOR, BY, ALL = map(whole_word, ("to", "off", "for", "by", "all"))
NOT_A_STRING = whole_word("and")

A_FINGER = "1, 2, 3, 4 or T"
A_PLACE = "a string and a fret, such as `G2` or `3:2`"
A_STRING = "a string by its letter, such as `G`, or by its number, such as `3`"
AN_ACTION = f"a finger ({A_FINGER}), `shift`, `mute`, `strum`, `hold`, `rest` or `back`"


def action(cursor: Cursor) -> Action:
    """One action of a move line."""
    start = cursor.skip()
    letters = LETTERS.match(cursor.text, start)
    rule = ACTIONS.get(letters.group()) if letters else None
    if letters is None or rule is None:
        return _finger_action(cursor, start)
    cursor.at = letters.end()
    return rule(cursor, start)


def put_down(cursor: Cursor, expected: str) -> Action:
    """One entry of a start: a finger and its place (`to` may be left out), or a string damped, or what is strummed."""
    start = cursor.skip()
    letters = LETTERS.match(cursor.text, start)
    if letters and letters.group() in ("mute", "strum"):
        return action(cursor)
    number = finger(cursor, expected)
    cursor.take(TO)
    spot = place(cursor)
    return PlaceFinger(number, spot, cursor.since(start))


def finger(cursor: Cursor, expected: str = A_FINGER) -> Token:
    """A finger by its number, or T for the thumb."""
    return cursor.expect(FINGER, lambda word: _no_finger(word, expected))


def place(cursor: Cursor) -> Place:
    """One spot, or two with a dash for a bar."""
    start, (low, fret) = cursor.skip(), _spot(cursor)
    if not cursor.take(DASH):
        return Place(low, fret, low, fret, cursor.since(start))
    high, high_fret = _spot(cursor)
    if int(fret.text) != int(high_fret.text):
        message = f"A bar lies on one fret, and this one is on {fret.text} and on {high_fret.text}"
        wrong, right = (fret, high_fret) if len(fret.text) > len(high_fret.text) else (high_fret, fret)
        raise UnreadableError(wrong.span, message, f"fret {right.text} at both ends", Code.UNKNOWN_FRET, right.text)
    return Place(low, fret, high, high_fret, cursor.since(start))


def strum(cursor: Cursor, start: int) -> StrumStrings:
    """The strings that are struck, after the word `strum`."""
    if cursor.take(ALL):
        return StrumStrings((), cursor.since(start))
    ranges = [_range(cursor)]
    while cursor.sees(NUMBER) or (cursor.sees(LETTER) and not cursor.sees(NOT_A_STRING)):
        ranges.append(_range(cursor))
    return StrumStrings(tuple(ranges), cursor.since(start))


def _finger_action(cursor: Cursor, start: int) -> Action:
    number = finger(cursor, AN_ACTION)
    if cursor.take(TO):
        spot = place(cursor)
        return PlaceFinger(number, spot, cursor.since(start))
    if cursor.take(OFF):
        return LiftFinger(number, cursor.since(start))
    if cursor.take(FOR):
        replaced = finger(cursor)
        return ExchangeFinger(number, replaced, cursor.since(start))
    word = cursor.word()
    message = after(f"finger {number.text}", word)
    raise UnreadableError(word.span, message, "`to` and a place, `off`, or `for` and another finger")


def _no_finger(word: Token, expected: str) -> UnreadableError:
    if re.fullmatch(r"[0-9]{1,3}|[A-Za-z]", word.text):
        fix = "T" if word.text == "t" else ""
        return UnreadableError(word.span, f"There is no finger {word.text}", A_FINGER, Code.UNKNOWN_FINGER, fix)
    return UnreadableError(word.span, _due(word, _what(expected)), expected)


def _what(expected: str) -> str:
    return {A_FINGER: "a finger", AN_ACTION: "a move"}.get(expected, "a start")


def _spot(cursor: Cursor) -> tuple[Token, Token]:
    """A string and a fret on it, written together."""
    string = cursor.take(STRING_BEFORE_COLON)
    if string:
        cursor.take(COLON)
    else:
        string = cursor.expect(LETTER, _no_string)
    end = cursor.at
    fret = cursor.expect(FRET, lambda word: _no_fret(word, string))
    if fret.span.column != cursor.span.column + end:
        message = f"String {string.text} and fret {fret.text} stand apart"
        raise UnreadableError(string.span.to(fret.span), message, "string and fret written together")
    if int(fret.text) == 0:
        message = f"A finger can't press fret 0 of string {string.text}: that is the open string"
        expected = "a fret from 1 up; `off` leaves a string open"
        raise UnreadableError(fret.span, message, expected, Code.UNKNOWN_FRET)
    return string, fret


def _no_fret(word: Token, string: Token) -> UnreadableError:
    message = f"{said(word)} is no fret" if word.text else f"A fret is missing after string {string.text}"
    return UnreadableError(word.span, message, "a fret, such as `2`", Code.UNKNOWN_FRET)


def _string(cursor: Cursor) -> Token:
    return cursor.take(NUMBER) or cursor.expect(LETTER, _no_string_alone)


def _no_string(word: Token) -> UnreadableError:
    return _unknown_string(word) or UnreadableError(word.span, _due(word, "a place on the neck"), A_PLACE)


def _no_string_alone(word: Token) -> UnreadableError:
    return _unknown_string(word) or UnreadableError(word.span, _due(word, "a string"), A_STRING)


def _due(word: Token, what: str) -> str:
    return f"{said(word)} stands where {what} is due" if word.text else f"{what.capitalize()} is missing here"


def _unknown_string(word: Token) -> UnreadableError | None:
    """The finding for a word that begins like a string's name with letters that no tuning has."""
    letters = STRANGE_NAME.match(word.text)
    if letters is None:
        return None
    span = word.span.part(0, letters.end())
    return UnreadableError(span, f"There is no string {letters.group()}", A_STRING, Code.UNKNOWN_STRING)


def _range(cursor: Cursor) -> tuple[Token, Token]:
    first = _string(cursor)
    return (first, _string(cursor)) if cursor.take(DASH) else (first, first)


def _shift(cursor: Cursor, start: int) -> ShiftHand:
    by = cursor.expect(SIGNED, _no_shift)
    return ShiftHand(by, cursor.since(start))


def _no_shift(word: Token) -> UnreadableError:
    return UnreadableError(word.span, after("`shift`", word), "how many frets, such as `+2` or `-1`")


def _mute(cursor: Cursor, start: int) -> MuteString:
    string = _string(cursor)
    damper = finger(cursor) if cursor.take(BY) else None
    return MuteString(string, damper, cursor.since(start))


ACTIONS: dict[str, Callable[[Cursor, int], Action]] = {
    "shift": _shift,
    "mute": _mute,
    "strum": strum,
    "hold": lambda cursor, start: Hold(cursor.since(start)),
    "rest": lambda cursor, start: Rest(cursor.since(start)),
    "back": lambda cursor, start: Back(cursor.since(start)),
}
"""The actions that begin with a word; all others begin with a finger."""
