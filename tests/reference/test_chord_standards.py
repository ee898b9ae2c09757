"""Chords against published tables and worked examples; each block names its source."""

from __future__ import annotations

import pytest
from fingerpost.music.chord_name import names
from fingerpost.music.chord_symbol import read, write
from fingerpost.music.kind import KINDS


def _spelled(symbol: str) -> str:
    return " ".join(str(tone.note) for tone in read(symbol).tones)


# MusicXML 4.0 (W3C Community Group Report), kind-value, semitones above the root; ninths and up are their seventh
# with 14, 17 and 21 stacked on it.
MUSICXML = """
major 0 4 7 | minor 0 3 7 | augmented 0 4 8 | diminished 0 3 6 | dominant 0 4 7 10 | major-seventh 0 4 7 11
minor-seventh 0 3 7 10 | diminished-seventh 0 3 6 9 | augmented-seventh 0 4 8 10 | half-diminished 0 3 6 10
major-minor 0 3 7 11 | major-sixth 0 4 7 9 | minor-sixth 0 3 7 9 | dominant-ninth 0 4 7 10 14
major-ninth 0 4 7 11 14 | minor-ninth 0 3 7 10 14 | dominant-11th 0 4 7 10 14 17 | major-11th 0 4 7 11 14 17
minor-11th 0 3 7 10 14 17 | dominant-13th 0 4 7 10 14 17 21 | major-13th 0 4 7 11 14 17 21
minor-13th 0 3 7 10 14 17 21 | suspended-second 0 2 7 | suspended-fourth 0 5 7 | power 0 7
""".replace("\n", " | ").strip(" |")


def test_kinds_have_the_semitones_of_musicxml() -> None:
    table = {row.split()[0]: list(map(int, row.split()[1:])) for row in MUSICXML.split(" | ") if row.strip()}
    assert {value: [i.semitones for i in kind.intervals] for value, kind in KINDS.items()} == table


# The same report: how kind and degrees say other chords; an added degree is relative to a dominant chord.
@pytest.mark.parametrize(
    ("symbol", "kind", "degrees"),
    [
        ("Cadd9", "major", [(9, 0, "add")]),
        ("C6/9", "major-sixth", [(9, 0, "add")]),
        ("C7sus4", "suspended-fourth", [(7, 0, "add")]),
        ("C7b5", "dominant", [(5, -1, "alter")]),
        ("C7(no3)", "dominant", [(3, 0, "subtract")]),
        ("Cmaj7sus4", "suspended-fourth", [(7, 1, "add")]),
    ],
)
def test_degrees_are_counted_as_musicxml_does(symbol: str, kind: str, degrees: list[tuple[int, int, str]]) -> None:
    chord = read(symbol)
    assert (chord.kind, [(d.value, d.alter, d.type) for d in chord.degrees]) == (kind, degrees)


WORKED = [
    # R. Hutchinson, Music Theory for the 21st-Century Classroom, 6.2 Lead-Sheet Symbols
    ("F", "F A C"),
    ("Gm", "G Bb D"),
    ("Ddim", "D F Ab"),
    ("C+", "C E G#"),
    # musictheory.education, level 8, chapter 8.13 Chord symbols
    ("C(b5)", "C E Gb"),
    ("C7(b5)", "C E Gb Bb"),
    ("C+7", "C E G# Bb"),
    ("C7(#5)", "C E G# Bb"),
    ("C9", "C E G Bb D"),
    ("Cmaj9", "C E G B D"),
    ("Cadd9", "C E G D"),
    ("C9(#5)", "C E G# Bb D"),
    ("C9(b5)", "C E Gb Bb D"),
    ("C11", "C E G Bb D F"),
    ("Cadd11", "C E G F"),
    ("C13", "C E G Bb D F A"),
    ("Cadd13", "C E G A"),
    # Wikipedia, "Chord notation"
    ("Caug7", "C E G# Bb"),
    # By the kind-values of MusicXML 4.0, spelled by letter
    ("Cdim7", "C Eb Gb Bbb"),
    ("F#maj9(#5)", "F# A# C## E# G#"),
    ("B7", "B D# F# A"),
    ("F#m", "F# A C#"),
    ("Bbmaj7", "Bb D F A"),
    ("Dm7b5", "D F Ab C"),
    ("Ddim7", "D F Ab Cb"),
    ("Db6", "Db F Ab Bb"),
    ("Abm", "Ab Cb Eb"),
    ("CmMaj7", "C Eb G B"),
    ("A7#5", "A C# E# G"),
    ("F#m11", "F# A C# E G# B"),
]


@pytest.mark.parametrize(("symbol", "notes"), WORKED)
def test_worked_examples(symbol: str, notes: str) -> None:
    assert _spelled(symbol) == notes


@pytest.mark.parametrize(("symbol", "notes"), [("C6/9", "C E G A D"), ("D7sus4", "D G A C")])
def test_worked_examples_in_any_order(symbol: str, notes: str) -> None:
    """From the same tables, which list the tones of these two in the order of pitch."""
    assert set(_spelled(symbol).split()) == set(notes.split())


@pytest.mark.parametrize(("symbol", "notes"), WORKED)
def test_the_notes_of_a_worked_example_have_its_name_first(symbol: str, notes: str) -> None:
    chord = read(symbol)
    found = names(chord.pitch_classes, chord.bass_pitch_class)[0].chord
    same = read("C6") if symbol == "Cadd13" else chord  # C6 is the same four notes, and what players say
    assert (found.root.pitch_class, found.kind, found.degrees) == (
        same.root.pitch_class,
        same.kind,
        same.degrees,
    ), write(found)
