"""Which finger, string and fret the author's tokens stand for on this neck."""

from __future__ import annotations

from fingerpost.course.slip import slip
from fingerpost.course.words import listed, quoted
from fingerpost.diagnostics import Code
from fingerpost.music.fretboard import Fretboard
from fingerpost.music.shape import Finger
from fingerpost.music.tuning import Tuning
from fingerpost.source.syntax import Place, Token

LONGEST_NUMBER = 4


def finger_of(token: Token) -> Finger:
    """The finger that a token names. Raises Slip."""
    try:
        return Finger.from_mark(token.text)
    except ValueError:
        message = f"{quoted(token.text)} is no finger"
        raise slip(token.span, Code.UNKNOWN_FINGER, message, "1, 2, 3, 4, or T for the thumb") from None


def number_of(token: Token) -> int | None:
    """The whole number that a token writes, or None."""
    text = token.text
    return int(text) if text.isascii() and text.isdigit() and len(text) <= LONGEST_NUMBER else None


def string_of(token: Token, tuning: Tuning) -> int:
    """The string that a token names by letter or number. Raises Slip."""
    number = number_of(token)
    if number is not None and 1 <= number <= tuning.strings:
        return number
    string = tuning.string_called(token.text)
    if string is not None:
        return string
    raise slip(token.span, Code.UNKNOWN_STRING, *_no_string(token.text, tuning))


def _no_string(text: str, tuning: Tuning) -> tuple[str, str, str]:
    """What is wrong, what was expected, and the nearest fix, for a word that names no string."""
    names = [tuning.letter(string) or str(string) for string in range(tuning.strings, 0, -1)]
    expected = "one of " + ", ".join(names)
    alike = strings_with_letter(text, tuning)
    if len(alike) > 1:
        numbers = listed([str(string) for string in alike])
        return f"{quoted(text)} could be string {numbers} in this tuning ({tuning})", "the string's number", numbers
    if alike:
        return f"No string is called {quoted(text)}", expected, names[tuning.strings - alike[0]]
    return f"There is no string {quoted(text)} in this tuning ({tuning})", expected, _of_two_digits(text, tuning)


def _of_two_digits(text: str, tuning: Tuning) -> str:
    """The string, or the range of strings, that was meant by two numbers without a dash between them; else ""."""
    strings = [str(string) for string in range(1, tuning.strings + 1)]
    if len(text) != 2 or not set(text) <= set(strings):
        return ""
    return text[0] if text[0] == text[1] else f"{text[0]}-{text[1]}"


def strings_with_letter(text: str, tuning: Tuning) -> list[int]:
    """The strings whose open note is written so, small or large, highest-numbered first."""
    wanted = text.casefold()
    return [s for s in range(tuning.strings, 0, -1) if str(tuning.pitch(s).note).casefold() == wanted]


def fret_of(token: Token, fretboard: Fretboard) -> int:
    """The fret that a token names, on this neck. Raises Slip."""
    number, last = number_of(token), fretboard.highest_fret
    if number is not None and 1 <= number <= last:
        return number
    expected = f"a fret from 1 to {last}" + (
        f" (counted from the capo at fret {fretboard.capo})" if fretboard.capo else ""
    )
    if number == 0:
        message, fix = "Fret 0 is the open string, so no finger presses it", "lift the finger with `off`"
    elif number is not None:
        twice = len(token.text) == 2 and token.text[0] == token.text[1]
        message, fix = f"There is no fret {number} on this neck", token.text[0] if twice else str(last)
    else:
        message, fix = f"{quoted(token.text)} is no fret", ""
    raise slip(token.span, Code.UNKNOWN_FRET, message, expected, fix)


def place_of(place: Place, fretboard: Fretboard) -> tuple[int, int, int]:
    """Fret, first and last string (highest-numbered first) of a place. Raises Slip."""
    low, high = string_of(place.low, fretboard.tuning), string_of(place.high, fretboard.tuning)
    fret = fret_of(place.fret, fretboard)
    if place.high_fret != place.fret and fret_of(place.high_fret, fretboard) != fret:
        raise slip(place.high_fret.span, Code.UNKNOWN_FRET, "A bar lies on one fret", f"fret {fret}", str(fret))
    return fret, max(low, high), min(low, high)
