"""Tunings: names, spelled pitches, and the letters that strings go by."""

from __future__ import annotations

import pytest
from fingerpost.music.tuning import NAMED, STANDARD, Tuning, parse_tuning
from hypothesis import given
from hypothesis import strategies as st


# Common practice: what these names stand for, lowest string first.
@pytest.mark.parametrize(
    ("text", "pitches"),
    [
        ("standard", "E2 A2 D3 G3 B3 E4"),
        ("Drop D", "D2 A2 D3 G3 B3 E4"),
        ("drop-d", "D2 A2 D3 G3 B3 E4"),
        ("DADGAD", "D2 A2 D3 G3 A3 D4"),
        ("open G", "D2 G2 D3 G3 B3 D4"),
        ("open D", "D2 A2 D3 F#3 A3 D4"),
        ("ukulele", "G4 C4 E4 A4"),
        ("bass", "E1 A1 D2 G2"),
        ("seven strings", "B1 E2 A2 D3 G3 B3 E4"),
        ("D2 A2 D3 G3 A3 D4", "D2 A2 D3 G3 A3 D4"),
        ("D2, A2, D3, F♯3, A3, D4", "D2 A2 D3 F#3 A3 D4"),
        ("E2 A2 D3 G3 C4 F4", "E2 A2 D3 G3 C4 F4"),
        ("E A D G B E", "E2 A2 D3 G3 B3 E4"),
        ("DADGBE", "D2 A2 D3 G3 B3 E4"),
        ("C G D G B D", "C2 G2 D3 G3 B3 D4"),
        ("EbAbDbGbBbEb", "Eb2 Ab2 Db3 Gb3 Bb3 Eb4"),
    ],
)
def test_names_and_pitches_are_read(text: str, pitches: str) -> None:
    assert str(parse_tuning(text)) == pitches


@pytest.mark.parametrize("tuning", NAMED.values(), ids=str)
def test_pitches_of_a_named_tuning_lead_back_to_its_name(tuning: Tuning) -> None:
    assert parse_tuning(str(tuning)) is tuning


@pytest.mark.parametrize("tuning", [tuning for tuning in NAMED.values() if tuning.strings == 6], ids=str)
def test_bare_notes_of_a_six_string_tuning_find_their_octaves(tuning: Tuning) -> None:
    notes = [str(pitch.note) for pitch in tuning.pitches]
    assert parse_tuning(" ".join(notes)) is tuning
    assert parse_tuning("".join(notes)) is tuning


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("", "is no tuning; expected one of standard, "),
        ("drop Q", "is no tuning"),
        ("E2 A2 D3", "4 to 8 pitches such as D2 A2 D3 G3 A3 D4"),
        ("E2 A2 D3 G3 B3 E4 A4 D5 G5", "4 to 8 pitches"),
        ("E2 A2 D3 G3 H3 E4", "'H' is no note; expected a letter from A to G"),
        ("E2 A2 D3 G3 B E4", "'B' is no pitch; expected a note and an octave, such as E2"),
        ("G C E A", "'G' is no pitch; expected a note and an octave, such as E2"),
    ],
)
def test_what_is_no_tuning_says_what_was_expected(text: str, said: str) -> None:
    with pytest.raises(ValueError, match="expected") as caught:
        parse_tuning(text)
    assert said in str(caught.value)


# The design page: letters are the standard names of the strings; where a tuning repeats one, only numbers serve.
@pytest.mark.parametrize(
    ("name", "letters"),
    [
        ("standard", ("e", "B", "G", "D", "A", "E")),
        ("drop D", ("e", "B", "G", None, "A", None)),
        ("DADGAD", (None, None, "G", None, None, None)),
        ("half step down", ("eb", "Bb", "Gb", "Db", "Ab", "Eb")),
        ("ukulele", ("A", "E", "C", "G")),
        ("bass", ("G", "D", "A", "E")),
        ("baritone ukulele", ("e", "B", "G", "D")),
        ("seven strings", (None, None, "G", "D", "A", None, None)),
    ],
)
def test_strings_by_letter(name: str, letters: tuple[str | None, ...]) -> None:
    tuning = NAMED[name]
    assert tuning.letters == letters
    for string, letter in enumerate(letters, 1):
        assert letter is None or tuning.string_called(letter) == string


def test_the_letter_of_a_lowered_string_leads_nowhere() -> None:
    assert NAMED["drop D"].string_called("E") is None
    assert NAMED["drop D"].string_called("D") is None
    assert STANDARD.string_called("z") is None


@given(st.text(alphabet="ABCDEFGH#b♯♭123 ,-", max_size=20))
def test_any_text_is_a_tuning_or_an_error_with_words(text: str) -> None:
    try:
        tuning = parse_tuning(text)
    except ValueError as error:
        said = str(error)
    else:
        said = f"expected {tuning}"
        assert 4 <= tuning.strings <= 8
    assert "expected" in said
