"""From the actions of a line to the moves of a hand."""

from __future__ import annotations

from fingerpost.course.slip import slip
from fingerpost.course.spots import finger_of, place_of, string_of
from fingerpost.course.words import quoted
from fingerpost.diagnostics import Code
from fingerpost.music.fretboard import Fretboard
from fingerpost.music.move import Exchange, Lift, Move, Mute, Place, Shift, Strum
from fingerpost.source.syntax import (
    Action,
    Back,
    ExchangeFinger,
    Hold,
    LiftFinger,
    MuteString,
    PlaceFinger,
    Rest,
    ShiftHand,
    StrumStrings,
)

LONGEST_SHIFT = 3


def move_of(action: Action, fretboard: Fretboard) -> Move | None:
    """What the action has the hand do; None for those that move nothing by themselves. Raises Slip."""
    match action:
        case PlaceFinger(finger, place):
            mover = finger_of(finger)
            fret, low, high = place_of(place, fretboard)
            return Place(mover, fret, low, high)
        case LiftFinger(finger):
            return Lift(finger_of(finger))
        case ExchangeFinger(finger, replaced):
            return Exchange(finger_of(finger), finger_of(replaced))
        case ShiftHand():
            return _shift(action)
        case MuteString(string, by):
            return Mute(string_of(string, fretboard.tuning), None if by is None else finger_of(by))
        case StrumStrings():
            return strum_of(action, fretboard)
        case Hold() | Rest() | Back():
            return None


def strum_of(action: StrumStrings, fretboard: Fretboard) -> Strum:
    """The strings that are struck, each range taken with all between; no range is `all`. Raises Slip."""
    if not action.ranges:
        return Strum(frozenset(range(1, fretboard.strings + 1)))
    strings: set[int] = set()
    for first, last in action.ranges:
        low, high = string_of(first, fretboard.tuning), string_of(last, fretboard.tuning)
        strings |= set(range(min(low, high), max(low, high) + 1))
    return Strum(frozenset(strings))


def _shift(action: ShiftHand) -> Shift:
    text = action.by.text.replace("−", "-")
    digits = text.lstrip("+-")
    if not (digits.isascii() and digits.isdigit() and len(digits) < LONGEST_SHIFT and len(text) - len(digits) <= 1):
        message = f"{quoted(action.by.text)} is no number of frets"
        raise slip(action.by.span, Code.MOVE_UNREADABLE, message, "a number of frets, such as +2 or -1")
    return Shift(int(text))
