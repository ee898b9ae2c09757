"""Texts with one letter more, for words of the hand in which a letter was left out: a string, a fret, a dash."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from fingerpost.diagnostics import Span
from fingerpost.music.tuning import Tuning
from fingerpost.source.syntax import Token
from fingerpost.source.typing_slips import filled_in

LONGEST_WORD = 10
"""A longer word is not looked at. By our own choice."""


def letters_left_out(words: Token, fault: Span, tuning: Tuning) -> Iterator[Token]:
    """The words with a letter more where reading stopped: at the end of the word before, then in it, then beyond.

    A word such as `strum` or `to` before it lacks nothing.
    """
    if words.span.line != fault.line:
        return
    stop, end = fault.column - words.span.column, fault.end_column - words.span.column
    last = len(words.text[:stop].rstrip())
    begin = max(words.text[:last].rfind(" ") + 1, last - LONGEST_WORD)
    before = () if words.text[begin:last].isalpha() and last - begin > 1 else range(last, begin - 1, -1)
    places = [*before, *range(stop, min(end, stop + LONGEST_WORD) + 1)]
    texts = (text for at in places for text in filled_in(words.text, at, _letters(words.text, at, tuning)))
    yield from (replace(words, text=text) for text in dict.fromkeys(texts))


def _letters(text: str, at: int, tuning: Tuning) -> str:
    """What a place or a range of strings is written with; first what this text names its strings by.

    Of the strings, for the end of a range the highest comes first, and for its beginning the lowest: most are struck.
    """
    letters = [letter for letter in tuning.letters if letter is not None and len(letter) == 1]
    if text[at : at + 1] == "-":
        letters.reverse()
    named = any(letter in text for letter in letters)
    digits = "123456789"
    return "".join((*letters, digits, "-:") if named else (digits, *letters, "-:"))
