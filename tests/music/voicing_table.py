"""Reads the tables of voicings beside it: what sounds, and the names that people know it by."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from fingerpost.music.chord import Chord
from fingerpost.music.chord_symbol import read
from fingerpost.music.fretboard import Fretboard
from fingerpost.music.pitch import Note
from fingerpost.music.shape_text import read_shape

HERE = Path(__file__).parent
NECK = Fretboard()
Structure = tuple[int, str, tuple[object, ...], int]


@dataclass(frozen=True)
class Voicing:
    """What sounds, bass first, and the chords that name it: one, or all that players use."""

    text: str
    pitch_classes: tuple[int, ...]
    known_as: tuple[Chord, ...]


def structure(chord: Chord) -> Structure:
    """What a name says whatever its spelling: F# and Gb are one root."""
    return chord.root.pitch_class, chord.kind, chord.degrees, chord.bass_pitch_class


def _sounding(text: str) -> tuple[int, ...]:
    if "," in text:
        return tuple(Note.parse(name).pitch_class for name in text.split(","))
    shape = read_shape(text)
    midi = sorted(NECK.sounding_midi(string, shape.fret(string) or 0) for string in shape.sounding_strings)
    return tuple(number % 12 for number in midi)


def voicings(file: str) -> list[Voicing]:
    """The rows of a table."""
    lines = (HERE / file).read_text(encoding="utf-8").splitlines()
    rows = [line.split(maxsplit=1) for line in lines if line and not line.startswith("#")]
    return [
        Voicing(text, _sounding(text), tuple(read(symbol.strip()) for symbol in known.split("|")))
        for text, known in rows
    ]
