"""Chords written as symbols, in the style a course asks for, and spoken in words."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from fingerpost.music.chord import Chord
from fingerpost.music.compound import COMPOUNDS
from fingerpost.music.degree import Degree
from fingerpost.music.interval import Interval, accidental
from fingerpost.music.kind import KINDS
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
_ORDINAL = {
    1: "root", 2: "second", 3: "third", 4: "fourth", 5: "fifth", 6: "sixth",
    7: "seventh", 9: "ninth", 11: "eleventh", 13: "thirteenth",
}  # fmt: skip
_SPOKEN_ALTER = {-3: "triple flat ", -2: "double flat ", -1: "flat ", 0: "", 1: "sharp ", 2: "double sharp "}


def _accidental(alter: int, style: SymbolStyle) -> str:
    text = accidental(alter)
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
    return letter + _accidental(note.alter, style)


def note_spoken(note: Note) -> str:
    """A note's name in English words: `B flat`."""
    return f"{note.letter} {_SPOKEN_ALTER[note.alter]}".strip()


def _head(chord: Chord) -> tuple[str, str, tuple[Degree, ...]]:
    """The mark of the kind, its spoken name, and the degrees that the mark does not already say."""
    for degrees, symbol, words in COMPOUNDS.get(chord.kind, ()):
        if degrees <= set(chord.degrees):
            return symbol, words, tuple(degree for degree in chord.degrees if degree not in degrees)
    kind = KINDS[chord.kind]
    if kind.symbol == "7#5" and any(degree.type != "subtract" for degree in chord.degrees):
        return "7", KINDS["dominant"].spoken, (Degree(5, 1, "alter"), *chord.degrees)
    return kind.symbol, kind.spoken, chord.degrees


def _marks(template: str, style: SymbolStyle) -> str:
    triangle, circle = style.major_seventh == "triangle", style.diminished == "circle"
    major = "Δ" if triangle else "Maj" if template.startswith(("{m}{M}", "{dim}{M}")) else "maj"
    half = "ø7" if circle else f"{style.minor}7b5"
    text = template.format(m=style.minor, M=major, dim="°" if circle else "dim", half=half)
    return text.translate(_REAL) if style.accidentals == "real" and text.endswith(("b5", "#5")) else text


def _change(degree: Degree, chord: Chord, style: SymbolStyle) -> str:
    if degree.type == "subtract":
        return f"no{degree.value}"
    if degree.type == "add" and degree.value == 7:
        return {0: "addb7", 1: "addmaj7", -1: "addbb7"}[degree.alter]
    name = _accidental(degree.alter, style) + str(degree.value)
    return name if degree.type == "alter" or _is_alteration(degree, chord) else "add" + name


def _is_alteration(degree: Degree, chord: Chord) -> bool:
    """Whether an added degree is written as an alteration: above a sixth or seventh, its plain degree not there too."""
    numbers = {interval.number for interval in chord.intervals}
    natural = Interval(degree.value) in chord.intervals
    return bool(degree.alter) and bool(numbers & {6, 7}) and not natural


def _join(head: str, changes: list[str], omitted: list[str]) -> str:
    if len(changes) == 1 and (changes[0][0] in "#b♯♭" and head[-1:].isdigit() or changes[0][:4] in ("add9", "add1") and not head):
        return head + changes[0] + (f"({','.join(omitted)})" if omitted else "")
    inside = changes + omitted
    return head + (f"({','.join(inside)})" if inside else "")


def write(chord: Chord, style: SymbolStyle = PLAIN) -> str:
    """The symbol of a chord; in the English styles `read` gives the same chord back."""
    template, _, rest = _head(chord)
    changes = [_change(degree, chord, style) for degree in rest if degree.type != "subtract"]
    omitted = [_change(degree, chord, style) for degree in rest if degree.type == "subtract"]
    bass = "" if chord.bass is None else "/" + note_text(chord.bass, style)
    return note_text(chord.root, style) + _join(_marks(template, style), changes, omitted) + bass


def write_exact(chord: Chord, omitted: tuple[str, ...] = (), style: SymbolStyle = PLAIN) -> str:
    """The symbol with everything that is left out said as well: `C7(no5)`."""
    return write(without(chord, omitted), style)


def without(chord: Chord, omitted: tuple[str, ...]) -> Chord:
    """The chord with these intervals taken out of its structure."""
    gone = tuple(Degree(int(interval.lstrip("#b")), 0, "subtract") for interval in omitted)
    extra = tuple(degree for degree in gone if degree not in chord.degrees)
    return Chord(chord.root, chord.kind, chord.degrees + extra, chord.bass)


def _change_spoken(degree: Degree) -> str:
    word = _ORDINAL[degree.value]
    if degree.type == "subtract":
        return f"no {word}"
    if degree.value == 7:
        return f"added {({0: 'minor', 1: 'major', -1: 'diminished'})[degree.alter]} seventh"
    return _SPOKEN_ALTER[degree.alter] + word if degree.alter else f"added {word}"


def spoken(chord: Chord) -> str:
    """The chord in English words: `C dominant seventh, no fifth`, `F sharp minor over C sharp`."""
    _, words, rest = _head(chord)
    parts = [f"{note_spoken(chord.root)} {words}", *map(_change_spoken, rest)]
    return ", ".join(parts) + ("" if chord.bass is None else f" over {note_spoken(chord.bass)}")
