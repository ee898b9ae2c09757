"""The one-line language of moves and starts, read by hand.

    move     = actions { tail }
    actions  = action { ( "," | "and" ) action }
    action   = finger ( "to" place | "off" | "for" finger )
             | "shift" ( "+" | "-" ) number
             | "mute" string [ "by" finger ]
             | "strum" ( "all" | range { range } )
             | "hold" | "rest" | "back"
    place    = spot [ "-" spot ]                    a bar: both spots have the same fret
    spot     = letter fret | number ":" fret        G2, Bb3, 4:2
    range    = string [ "-" string ]
    string   = letter | number
    finger   = "1" | "2" | "3" | "4" | "T"
    tail     = ( "=" | "~" ) symbol | "@" time | "passing" | "silent"
    time     = [ hours ":" ] minutes ":" seconds

    start    = form [ ( "=" | "~" ) symbol ]
    form     = "open" | "previous" | "after" id | "as taught" symbol | shape
             | put { "," put }
    put      = finger [ "to" ] place | "mute" string [ "by" finger ] | "strum" ranges

A dash between two spots or strings may be a hyphen or a typographic dash. A symbol goes on to the next tail, comma or
`and` that stands outside its parentheses; whether it is a chord is judged later. So are strings and frets: only what
no tuning and no neck can have is refused here.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import Generic, TypeVar

from fingerpost.diagnostics import Code, Diagnostic, Severity
from fingerpost.source.cursor import Cursor, Unreadable
from fingerpost.source.mending import mended
from fingerpost.source.syntax import (
    Action,
    AfterStart,
    AsTaughtStart,
    Back,
    ExchangeFinger,
    FingersStart,
    Hold,
    LiftFinger,
    MoveLine,
    MuteString,
    NameSaid,
    OpenStart,
    Place,
    PlaceFinger,
    PreviousStart,
    Rest,
    ShapeStart,
    ShiftHand,
    Start,
    StartForm,
    StrumStrings,
    Token,
)

LONGEST_LINE = 400
"""A move line of more code points is refused unread, so that a hostile line costs nothing. By our own choice."""

DASH = re.compile(r"[-‐‑‒–—−]")
FINGER = re.compile(r"[1-4T](?![0-9A-Za-z])")
LETTER = re.compile(r"[A-Ha-h](?:bb|##|[b#♭♯])?(?![A-Za-z])")
NUMBER = re.compile(r"[0-9]{1,2}(?![0-9A-Za-z])")
STRING_BEFORE_COLON = re.compile(r"[0-9]{1,2}(?=\s*:)")
COLON = re.compile(r":")
FRET = re.compile(r"[0-9]{1,3}(?![0-9A-Za-z])")
SIGNED = re.compile(r"[+\-−–][0-9]{1,2}(?![0-9A-Za-z])")
JOINT = re.compile(r",|and\b")
MARK = re.compile(r"[=~]")
AT = re.compile(r"@")
TIME = re.compile(r"(?:[0-9]{1,2}:)?[0-9]{1,3}:[0-5][0-9](?:\.[0-9]{1,3})?(?![0-9:.])")
TAIL = re.compile(r"(?:[=~@]|(?:passing|silent|and)(?!\S))")
LETTERS = re.compile(r"[A-Za-z]+")
WORDS = {
    word: re.compile(rf"{word}(?![0-9A-Za-z])")
    for word in (
        *("to", "off", "for", "shift", "mute", "by", "strum", "all", "hold", "rest", "back", "passing", "silent"),
        *("open", "previous", "after", "taught"),
    )
}
AS_TAUGHT = re.compile(r"as\s+taught(?![0-9A-Za-z])")
SHAPE = re.compile(r"[xX0-9][-xX0-9]*(?:/[^\s=~]*)?(?=\s*(?:[=~]|$))")

A_FINGER = "1, 2, 3, 4 or T"
A_PLACE = "a string and a fret, such as `G2` or `3:2`"
A_STRING = "a string by its letter, such as `G`, or by its number, such as `3:2`"
AN_ACTION = f"a finger ({A_FINGER}), `shift`, `mute`, `strum`, `hold`, `rest` or `back`"

T = TypeVar("T")


@dataclass(frozen=True, slots=True)
class Reading(Generic[T]):
    """What a line says, None where it could not be read, and the findings about it."""

    value: T | None
    findings: tuple[Diagnostic, ...] = ()


def read_move(token: Token) -> Reading[MoveLine]:
    """Reads one move line. Never raises; a line that can't be read gives None and one error at the exact word."""
    return _read(token, _move)


def read_start(token: Token) -> Reading[Start]:
    """Reads the value of `start`."""
    return _read(token, _start)


def read_strum(token: Token) -> Reading[StrumStrings]:
    """Reads the value of `strum` in a block: `A-e`, `A D B` or `all`, with or without the word `strum` before it."""
    return _read(token, _strum_value)


def read_cue(token: Token) -> Reading[Token]:
    """Reads the value of `cue`: `0:41` or `1:02:03`, with or without `@`."""
    return _read(token, _cue_value)


def _read(token: Token, rule: Callable[[Cursor], T]) -> Reading[T]:
    try:
        return Reading(_whole(token, rule))
    except Unreadable as unreadable:
        fix = unreadable.fix or mended(token.text, lambda text: _reads(replace(token, text=text), rule))
        return Reading(None, (replace(unreadable.finding(), fix=fix),))


def _reads(token: Token, rule: Callable[[Cursor], object]) -> bool:
    try:
        _whole(token, rule)
    except Unreadable:
        return False
    return True


def _whole(token: Token, rule: Callable[[Cursor], T]) -> T:
    if len(token.text) > LONGEST_LINE or "\n" in token.text:
        raise Unreadable(token.span, "This is too long for one move.", f"one line of at most {LONGEST_LINE} characters")
    return rule(Cursor(token))


def _move(cursor: Cursor) -> MoveLine:
    if cursor.ended:
        raise Unreadable(cursor.token.span, "A move is missing here.", AN_ACTION)
    line = MoveLine(cursor.token, (_action(cursor),))
    while not cursor.ended:
        line = _further(cursor, line)
    return line


def _further(cursor: Cursor, line: MoveLine) -> MoveLine:
    """One more action or tail of the line."""
    if cursor.take(JOINT):
        return replace(line, actions=(*line.actions, _action(cursor)))
    word = cursor.word()
    if cursor.sees(MARK):
        return replace(line, name=_once(line.name, word, _name(cursor)))
    if cursor.take(AT):
        return replace(line, cue=_once(line.cue, word, _time(cursor)))
    if token := cursor.take(WORDS["passing"]):
        return replace(line, passing=_once(line.passing, word, token))
    if token := cursor.take(WORDS["silent"]):
        return replace(line, silent=_once(line.silent, word, token))
    raise Unreadable(
        word.span,
        f"After the move stands {said(word)}.",
        "nothing more, or `,`, `and`, `= CHORD`, `~ CHORD`, `@0:41`, `passing` or `silent`",
    )


def _once(before: object | None, word: Token, value: T) -> T:
    if before is not None:
        raise Unreadable(word.span, f"{said(word)} says for the second time what the line has said already.", "it once")
    return value


def _action(cursor: Cursor) -> Action:
    word = cursor.word()
    letters = LETTERS.match(word.text)
    rule = ACTIONS.get(letters.group()) if letters else None
    if rule is not None:
        start = cursor.skip()
        cursor.at += len(letters.group()) if letters else 0
        return rule(cursor, start)
    return _finger_action(cursor)


def _finger_action(cursor: Cursor) -> Action:
    start, finger = cursor.skip(), _finger(cursor, AN_ACTION)
    if cursor.take(WORDS["to"]):
        place = _place(cursor)
        return PlaceFinger(finger, place, cursor.since(start))
    if cursor.take(WORDS["off"]):
        return LiftFinger(finger, cursor.since(start))
    if cursor.take(WORDS["for"]):
        replaced = _finger(cursor)
        return ExchangeFinger(finger, replaced, cursor.since(start))
    word = cursor.word()
    raise Unreadable(
        word.span,
        f"After finger {finger.text} stands {said(word)}.",
        "`to` and a place, `off`, or `for` and another finger",
    )


def _finger(cursor: Cursor, expected: str = A_FINGER) -> Token:
    return cursor.expect(FINGER, lambda word: _no_finger(word, expected))


def _no_finger(word: Token, expected: str) -> Unreadable:
    if re.fullmatch(r"[0-9]+|[A-Za-z]", word.text):
        fix = "T" if word.text == "t" else ""
        return Unreadable(word.span, f"There is no finger {word.text}.", A_FINGER, Code.UNKNOWN_FINGER, fix)
    return Unreadable(word.span, f"{said(word, True)} stands where a move is due.", expected)


def _place(cursor: Cursor) -> Place:
    start, (low, fret) = cursor.skip(), _spot(cursor)
    if not cursor.take(DASH):
        return Place(low, fret, low, fret, cursor.since(start))
    high, high_fret = _spot(cursor)
    if int(fret.text) != int(high_fret.text):
        raise Unreadable(
            high_fret.span,
            f"A bar lies on one fret, and this one is on {fret.text} and on {high_fret.text}.",
            f"fret {fret.text} at both ends",
            Code.UNKNOWN_FRET,
        )
    return Place(low, fret, high, high_fret, cursor.since(start))


def _spot(cursor: Cursor) -> tuple[Token, Token]:
    """A string and a fret on it."""
    if string := cursor.take(STRING_BEFORE_COLON):
        cursor.take(COLON)
    else:
        string = cursor.expect(LETTER, _no_string)
    adjoins = cursor.at
    fret = cursor.expect(FRET, lambda word: _no_fret(word, string))
    if fret.span.column != cursor.token.span.column + adjoins:
        gap = cursor.cut(adjoins, cursor.at).span
        raise Unreadable(gap, f"String {string.text} and fret {fret.text} stand apart.", "string and fret written together")
    if int(fret.text) == 0:
        message = f"A finger can't press fret 0 of string {string.text}: that is the open string."
        raise Unreadable(fret.span, message, "a fret from 1 up; `off` leaves a string open", Code.UNKNOWN_FRET)
    return string, fret


def _no_string(word: Token) -> Unreadable:
    letters = LETTERS.match(word.text)
    if letters is None:
        return Unreadable(word.span, f"{said(word, True)} stands where a string and a fret are due.", A_PLACE)
    name = Token(letters.group(), word.span.part(0, letters.end()))
    return Unreadable(name.span, f"There is no string {name.text}.", A_STRING, Code.UNKNOWN_STRING)


def _no_fret(word: Token, string: Token) -> Unreadable:
    return Unreadable(
        word.span,
        f"After string {string.text} stands {said(word)}.",
        "a fret, such as `2`",
        Code.UNKNOWN_FRET,
    )


def _string(cursor: Cursor) -> Token:
    return cursor.take(NUMBER) or cursor.expect(LETTER, _no_string)


def _shift(cursor: Cursor, start: int) -> ShiftHand:
    by = cursor.expect(SIGNED, _no_shift)
    return ShiftHand(by, cursor.since(start))


def _no_shift(word: Token) -> Unreadable:
    return Unreadable(word.span, f"After `shift` stands {said(word)}.", "how many frets, such as `+2` or `-1`")


def _mute(cursor: Cursor, start: int) -> MuteString:
    string = _string(cursor)
    finger = _finger(cursor) if cursor.take(WORDS["by"]) else None
    return MuteString(string, finger, cursor.since(start))


def _strum(cursor: Cursor, start: int) -> StrumStrings:
    if cursor.take(WORDS["all"]):
        return StrumStrings((), cursor.since(start))
    ranges = [_range(cursor)]
    while cursor.sees(NUMBER) or (cursor.sees(LETTER) and not cursor.sees(JOINT)):
        ranges.append(_range(cursor))
    return StrumStrings(tuple(ranges), cursor.since(start))


def _range(cursor: Cursor) -> tuple[Token, Token]:
    first = _string(cursor)
    return (first, _string(cursor)) if cursor.take(DASH) else (first, first)


def _strum_value(cursor: Cursor) -> StrumStrings:
    start = cursor.skip()
    cursor.take(WORDS["strum"])
    strum = _strum(cursor, start)
    _expect_end(cursor, "strings only, such as `A-e` or `A D B`")
    return strum


def _expect_end(cursor: Cursor, expected: str) -> None:
    if not cursor.ended:
        word = cursor.word()
        raise Unreadable(word.span, f"Here stands {said(word)}.", expected)


def _name(cursor: Cursor) -> NameSaid:
    mark = cursor.take(MARK)
    assert mark is not None
    cursor.skip()
    end = _symbol_end(cursor.text, cursor.at)
    if end == cursor.at:
        raise Unreadable(cursor.word().span, f"After `{mark.text}` a chord is missing.", "a chord, such as `= Em7`")
    symbol = cursor.cut(cursor.at, end)
    cursor.at = end
    return NameSaid(symbol, strict=mark.text == "=")


def _symbol_end(text: str, start: int) -> int:
    """Where a symbol ends: before the next tail, or a comma outside parentheses."""
    depth, end = 0, start
    for index in range(start, len(text)):
        character = text[index]
        depth += (character == "(") - (character == ")")
        if character.isspace():
            continue
        fresh = index == start or text[index - 1].isspace()
        if (character == "," and depth <= 0) or (fresh and TAIL.match(text, index)):
            return end
        end = index + 1
    return end


def _time(cursor: Cursor) -> Token:
    return cursor.expect(TIME, _no_time)


def _no_time(word: Token) -> Unreadable:
    return Unreadable(word.span, f"{said(word, True)} is no time.", "minutes and seconds, such as `0:41`")


def _cue_value(cursor: Cursor) -> Token:
    cursor.take(AT)
    time = _time(cursor)
    _expect_end(cursor, "the time only, such as `0:41`")
    return time


def _start(cursor: Cursor) -> Start:
    form = _start_form(cursor)
    name = _name(cursor) if cursor.sees(MARK) else None
    _expect_end(cursor, "nothing more, or `=` and a chord")
    return Start(cursor.token, form, name)


def _start_form(cursor: Cursor) -> StartForm:
    start = cursor.skip()
    if cursor.sees(SHAPE) and (shape := cursor.take(SHAPE)):
        return ShapeStart(shape)
    if cursor.take(WORDS["open"]):
        return OpenStart(cursor.since(start))
    if cursor.take(WORDS["previous"]):
        return PreviousStart(cursor.since(start))
    if cursor.take(WORDS["after"]):
        return AfterStart(cursor.expect(re.compile(r"[^\s=~]+"), _no_id))
    if cursor.take(AS_TAUGHT):
        return AsTaughtStart(_symbol(cursor))
    return _fingers(cursor)


def _no_id(word: Token) -> Unreadable:
    return Unreadable(word.span, "After `after` the id of a block is missing.", "an id, such as `after slack-water`")


def _symbol(cursor: Cursor) -> Token:
    cursor.skip()
    end = _symbol_end(cursor.text, cursor.at)
    if end == cursor.at:
        raise Unreadable(cursor.word().span, "A chord is missing here.", "a chord, such as `as taught C`")
    symbol = cursor.cut(cursor.at, end)
    cursor.at = end
    return symbol


def _fingers(cursor: Cursor) -> FingersStart:
    actions = [_put(cursor)]
    while cursor.take(JOINT):
        actions.append(_put(cursor))
    return FingersStart(tuple(actions))


A_START = (
    "`open`, fingers such as `2 E3, 1 A2`, a shape such as `x32010`, `previous`, `after ID` or `as taught CHORD`"
)


def _put(cursor: Cursor) -> Action:
    start = cursor.skip()
    for word in ("mute", "strum"):
        if cursor.take(WORDS[word]):
            return _mute(cursor, start) if word == "mute" else _strum(cursor, start)
    finger = _finger(cursor, A_START)
    cursor.take(WORDS["to"])
    place = _place(cursor)
    return PlaceFinger(finger, place, cursor.since(start))


def said(word: Token, first: bool = False) -> str:
    """How a finding speaks of a word that stands somewhere; `first` where it begins the sentence."""
    return f"“{word.text}”" if word.text else "Nothing" if first else "nothing"


ACTIONS: dict[str, Callable[[Cursor, int], Action]] = {
    "shift": _shift,
    "mute": _mute,
    "strum": _strum,
    "hold": lambda cursor, start: Hold(cursor.since(start)),
    "rest": lambda cursor, start: Rest(cursor.since(start)),
    "back": lambda cursor, start: Back(cursor.since(start)),
}
