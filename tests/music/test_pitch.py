"""Notes and pitches: what is read, and that names, numbers and frequencies agree."""

from __future__ import annotations

import pytest
from fingerpost.music.pitch import Note, Pitch
from hypothesis import given
from hypothesis import strategies as st

NOTES = st.builds(Note, st.sampled_from("CDEFGAB"), st.integers(-3, 3))


@pytest.mark.parametrize(
    ("text", "pitch_class"),
    [("C", 0), ("F#", 6), ("Gb", 6), ("B#", 0), ("Cb", 11), ("Fx", 7), ("C##", 2), ("Bbb", 9), ("F♯", 6), ("B♭", 10)],
)
def test_notes_are_read(text: str, pitch_class: int) -> None:
    assert Note.parse(text).pitch_class == pitch_class


@pytest.mark.parametrize("text", ["", "H", "c", "C#b", "####", "Cxx", "C ", "1"])
def test_what_is_no_note_says_what_was_expected(text: str) -> None:
    with pytest.raises(ValueError, match="expected a letter from A to G"):
        Note.parse(text)


# Scientific pitch notation (common practice): the octave goes by the letter.
@pytest.mark.parametrize(("text", "midi"), [("C4", 60), ("Cb4", 59), ("B#3", 60), ("A4", 69), ("C-1", 0), ("E2", 40)])
def test_the_octave_goes_by_the_letter(text: str, midi: int) -> None:
    assert Pitch.parse(text).midi == midi


@given(NOTES, st.integers(0, 8))
def test_a_pitch_reads_back_and_comes_back_from_its_number(note: Note, octave: int) -> None:
    pitch = Pitch(note, octave)
    assert Pitch.parse(str(pitch)) == pitch
    assert Pitch.from_midi(pitch.midi, note) == pitch


@given(st.integers(0, 119))
def test_a_number_is_spelled_with_the_same_sound(midi: int) -> None:
    pitch = Pitch.from_midi(midi)
    assert pitch.midi == midi
    assert Pitch.from_midi(midi + 12).frequency() == pytest.approx(2 * pitch.frequency())


def test_a_spelling_must_fit_the_number() -> None:
    with pytest.raises(ValueError, match="does not spell"):
        Pitch.from_midi(60, Note("D"))
