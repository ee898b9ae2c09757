"""Keys: their notes, and how they spell what lies outside them."""

from __future__ import annotations

import pytest
from fingerpost.music.key import Key

# Key signatures: common practice, the circle of fifths.
SCALES = {
    "C": "C D E F G A B",
    "G": "G A B C D E F#",
    "Bb": "Bb C D Eb F G A",
    "F#": "F# G# A# B C# D# E#",
    "Cb": "Cb Db Eb Fb Gb Ab Bb",
    "Em": "E F# G A B C D",
    "Cm": "C D Eb F G Ab Bb",
    "G#m": "G# A# B C# D# E F#",
}
# The harmonic chromatic scale, common practice.
CHROMATIC = {
    "C": "C Db D Eb E F F# G Ab A Bb B",
    "A": "A Bb B C C# D D# E F F# G G#",
    "Am": "A Bb B C C# D D# E F F# G G#",
    "F": "F Gb G Ab A Bb B C Db D Eb E",
}


@pytest.mark.parametrize(("key", "notes"), SCALES.items())
def test_the_notes_of_a_key(key: str, notes: str) -> None:
    assert " ".join(map(str, Key.parse(key).notes)) == notes


@pytest.mark.parametrize(("key", "notes"), CHROMATIC.items())
def test_a_key_spells_every_pitch_class(key: str, notes: str) -> None:
    parsed = Key.parse(key)
    spelled = [str(parsed.spell(parsed.tonic.pitch_class + step)) for step in range(12)]
    assert " ".join(spelled) == notes


@pytest.mark.parametrize("key", SCALES)
def test_a_key_spells_its_own_notes_as_its_scale_does(key: str) -> None:
    parsed = Key.parse(key)
    assert all(parsed.spell(note.pitch_class) == note and parsed.has(note.pitch_class) for note in parsed.notes)
    assert str(parsed) == key


@pytest.mark.parametrize(("text", "same"), [("E minor", "Em"), ("Bb major", "Bb"), (" G ", "G"), ("F♯m", "F#m")])
def test_a_key_may_be_written_out(text: str, same: str) -> None:
    assert Key.parse(text) == Key.parse(same)


@pytest.mark.parametrize("text", ["", "H", "g", "G7", "C##", "Gm7"])
def test_what_is_no_key_is_refused(text: str) -> None:
    with pytest.raises(ValueError, match="expected a note, with m for minor, such as G, Em or Bb"):
        Key.parse(text)


@pytest.mark.parametrize("text", ["G#", "Fbm", "B#m"])
def test_a_key_of_over_seven_accidentals_is_refused(text: str) -> None:
    with pytest.raises(ValueError, match="over seven sharps or flats"):
        Key.parse(text)
