"""Plain names: what a shape is called where that is a chord in common use, over one of its own tones."""

from __future__ import annotations

from fingerpost.music.chord_name import ChordName, names
from fingerpost.music.fretboard import Fretboard
from fingerpost.music.key import Key

COMMON = 1.5
"""Up to here a complete chord is in common use (the table of `vocabulary.py`)."""
Frets = tuple[int | None, ...]


def heard(frets: Frets, fretboard: Fretboard) -> list[int]:
    """The MIDI numbers that frets sound (index 0 = string 1), as if the capo were the nut; from string 1 on."""
    return [fretboard.shape_midi(string, fret) for string, fret in enumerate(frets, 1) if fret is not None]


def first_name(frets: Frets, fretboard: Fretboard, key: Key | None = None) -> ChordName | None:
    """The name that comes first, None where nothing sounds."""
    midi = heard(frets, fretboard)
    return names(frozenset(m % 12 for m in midi), min(midi) % 12, key)[0] if midi else None


def plain_name(frets: Frets, fretboard: Fretboard, key: Key | None = None) -> ChordName | None:
    """The first name where it is plain: a common chord, over a bass that belongs to it; else None."""
    name = first_name(frets, fretboard, key)
    plain = name is not None and not name.ranked.foreign and name.ranked.reading.usual <= COMMON
    return name if plain else None
