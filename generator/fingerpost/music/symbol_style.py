"""How symbols look in a course, and how notes are named in each style."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from fingerpost.music.interval import accidental
from fingerpost.music.pitch import Note


@dataclass(frozen=True, slots=True)
class SymbolStyle:
    """How symbols look. Every style is read back except German and solfege note names, which are for readers only."""

    major_seventh: Literal["maj7", "triangle"] = "maj7"
    diminished: Literal["dim", "circle"] = "dim"
    minor: Literal["m", "-"] = "m"
    notes: Literal["english", "german", "solfege"] = "english"
    accidentals: Literal["ascii", "real"] = "ascii"


PLAIN = SymbolStyle()
_SOLFEGE = {"C": "Do", "D": "Re", "E": "Mi", "F": "Fa", "G": "Sol", "A": "La", "B": "Si"}
_REAL = str.maketrans({"#": "♯", "b": "♭"})
_TIMES = ("", "", "double ", "triple ", "fourfold ", "fivefold ", "sixfold ")


def accidental_text(alter: int, style: SymbolStyle) -> str:
    """Accidentals for a number of semitones, in ASCII or as real signs."""
    return with_accidentals(accidental(alter), style)


def with_accidentals(text: str, style: SymbolStyle) -> str:
    """A text whose # and b are accidentals, with real signs where the style asks for them."""
    return text.translate(_REAL) if style.accidentals == "real" else text


def _german(note: Note) -> str:
    if note.letter == "B":
        return {0: "H", -1: "B"}.get(note.alter) or "H" + ("is" * note.alter if note.alter > 0 else "es" * -note.alter)
    if note.alter < 0 and note.letter in "AE":
        return note.letter + "s" + "es" * (-note.alter - 1)
    return note.letter + ("is" * note.alter if note.alter > 0 else "es" * -note.alter)


def note_text(note: Note, style: SymbolStyle = PLAIN) -> str:
    """A note's name in a style: `Bb`, `B♭`, German `B`, fixed solfege `Sib`."""
    if style.notes == "german":
        return _german(note)
    letter = _SOLFEGE[note.letter] if style.notes == "solfege" else note.letter
    return letter + accidental_text(note.alter, style)


def note_spoken(note: Note) -> str:
    """A note's name in English words: `B flat`."""
    return f"{note.letter} {alter_spoken(note.alter)}".strip()


def alter_spoken(alter: int) -> str:
    """Accidentals in words, with a blank after them: `sharp `, `double flat `; nothing for a plain note."""
    return "" if alter == 0 else _TIMES[abs(alter)] + ("sharp " if alter > 0 else "flat ")
