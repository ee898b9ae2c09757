"""The name that was likely meant by one that can't be read: one slip at the keyboard away, and true of what sounds."""

from __future__ import annotations

from collections.abc import Iterable

from fingerpost.course.heard import Heard
from fingerpost.course.model import Naming
from fingerpost.music import chord_symbol
from fingerpost.music.chord import Chord
from fingerpost.music.chord_name import fit
from fingerpost.source.syntax import NameSaid
from fingerpost.source.typing_slips import meant_by, undone

LONGEST_MEANT = 24
"""A longer name is not looked at for a slip. By our own choice."""


def meant_name(said: NameSaid, naming: Naming, heard: Heard) -> str:
    """The symbol that one slip makes this of: a name of what sounds, else any that can be read and fits; else ""."""
    typed = said.symbol.text
    if len(typed) > LONGEST_MEANT:
        return ""
    others = (text for text in undone(typed, 0, len(typed)) if _may_name(text, said.strict, heard))
    return meant_by(typed, _symbols(naming)) or next(others, "").strip()


def _symbols(naming: Naming) -> Iterable[str]:
    """Every name of what sounds, with its bass and without, best first."""
    chords: list[Chord | None] = [naming.shown, naming.strict, *(name.chord for name in naming.ranked)]
    return [chord_symbol.write(form) for chord in chords if chord for form in (chord, chord.with_bass(None))]


def _may_name(text: str, strict: bool, heard: Heard) -> bool:
    """Whether a symbol can be read and holds for what sounds, or, where it is only taught by, has its root there."""
    try:
        chord = chord_symbol.read(text)
    except chord_symbol.SymbolError:
        return False
    if strict:
        return fit(chord, heard.pitch_classes, heard.bass).holds
    return chord.root.pitch_class in heard.pitch_classes
