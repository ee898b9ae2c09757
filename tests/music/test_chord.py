"""Chords as structure: tones, spelling, bass, transposing."""

from __future__ import annotations

import pytest
from fingerpost.music.chord import Chord
from fingerpost.music.chord_symbol import read, write
from fingerpost.music.degree import Degree
from fingerpost.music.kind import KINDS
from fingerpost.music.pitch import Note
from hypothesis import given
from hypothesis import strategies as st

CHORDS = st.builds(
    Chord,
    st.sampled_from([Note.parse(n) for n in "C Db D Eb E F F# G Ab A Bb B".split()]),
    st.sampled_from(list(KINDS)),
)


def _spelled(symbol: str) -> str:
    return " ".join(str(tone.note) for tone in read(symbol).tones)


def test_a_bass_of_its_own_adds_no_tone_and_a_foreign_one_stands_last() -> None:
    assert _spelled("C/E") == "C E G"
    assert _spelled("C/D") == "C E G D"
    assert [tone.interval for tone in read("C/D").tones] == ["1", "3", "5", "9"]


def test_a_bass_that_is_the_root_is_no_slash() -> None:
    assert read("C/C") == read("C")
    assert read("C/E").with_bass(None) == read("C")


# By letter from the root (common practice): the same black key has another name in another chord.
@pytest.mark.parametrize(
    ("symbol", "pitch_class", "note", "interval"),
    [
        ("C7", 10, "Bb", "b7"),
        ("D", 6, "F#", "3"),
        ("Ebm", 6, "Gb", "b3"),
        ("C", 2, "D", "9"),
        ("C", 1, "Db", "b9"),
        ("C", 3, "Eb", "b3"),
        ("C7", 3, "D#", "#9"),
        ("C", 9, "A", "6"),
        ("C7", 9, "A", "13"),
        ("C", 6, "F#", "#11"),
        ("C(no5)", 6, "Gb", "b5"),
        ("F#", 0, "C", "#11"),
    ],
)
def test_any_pitch_class_has_a_note_and_an_interval(symbol: str, pitch_class: int, note: str, interval: str) -> None:
    chord = read(symbol)
    assert (str(chord.note_of(pitch_class)), chord.interval_of(pitch_class)) == (note, interval)


@pytest.mark.parametrize(
    ("symbol", "up", "moved"),
    [("C", 1, "Db"), ("Cm", 1, "C#m"), ("C7", 6, "F#7"), ("Am", -1, "G#m"), ("Em/G", 3, "Gm/Bb"), ("C/D", 2, "D/E")],
)
def test_transposing_keeps_to_the_commoner_side(symbol: str, up: int, moved: str) -> None:
    assert write(read(symbol).transposed(up)) == moved


@given(CHORDS, st.integers(-24, 24))
def test_transposing_moves_every_tone(chord: Chord, up: int) -> None:
    moved = chord.transposed(up)
    assert moved.pitch_classes == {(pitch_class + up) % 12 for pitch_class in chord.pitch_classes}
    assert all(abs(tone.note.alter) <= 2 for tone in moved.tones)


def test_degrees_are_kept_in_one_order() -> None:
    ninth, fifth = Degree(9, -1, "add"), Degree(5, -1, "alter")
    assert Chord(Note("C"), "dominant", (ninth, fifth)) == Chord(Note("C"), "dominant", (fifth, ninth))


def test_what_is_no_kind_or_degree_type_is_refused() -> None:
    with pytest.raises(ValueError, match="'blue' is no kind of chord; expected one of major, minor"):
        Chord(Note("C"), "blue")
    with pytest.raises(ValueError, match="'omit' is no type of degree; expected one of alter, add, subtract"):
        Chord(Note("C"), "major", (Degree(5, 0, "omit"),))
