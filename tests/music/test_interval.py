"""Intervals: the degree fixes the letter, the accidental follows."""

from __future__ import annotations

import pytest
from fingerpost.music.interval import Interval
from fingerpost.music.pitch import LETTERS, Note
from hypothesis import given
from hypothesis import strategies as st

NOTES = st.builds(Note, st.sampled_from(LETTERS), st.integers(-2, 2))
INTERVALS = st.builds(Interval, st.integers(1, 13), st.integers(-2, 2))


@pytest.mark.parametrize(
    ("root", "interval", "note"),
    [
        ("C", "b7", "Bb"),
        ("C", "bb7", "Bbb"),
        ("F#", "#5", "C##"),
        ("F#", "9", "G#"),
        ("Gb", "11", "Cb"),
        ("E", "3", "G#"),
    ],
)
def test_a_note_above_a_root(root: str, interval: str, note: str) -> None:
    assert str(Interval.parse(interval).above(Note.parse(root))) == note


@given(NOTES, INTERVALS)
def test_the_letter_goes_by_the_degree_and_the_pitch_by_the_semitones(root: Note, interval: Interval) -> None:
    note = interval.above(root)
    assert (LETTERS.index(note.letter) - LETTERS.index(root.letter)) % 7 == (interval.number - 1) % 7
    assert note.pitch_class == (root.pitch_class + interval.semitones) % 12


@given(INTERVALS)
def test_an_interval_reads_back(interval: Interval) -> None:
    assert Interval.parse(str(interval)) == interval


@pytest.mark.parametrize("text", ["", "b", "3b", "0", "03", "#b3", "five", "123"])
def test_what_is_no_interval_is_refused(text: str) -> None:
    with pytest.raises(ValueError, match="expected a degree such as 5, b3 or #11"):
        Interval.parse(text)
