"""Claims: what a chord's name promises, what custom lets it go without, and what is lacking or too much."""

from __future__ import annotations

import pytest
from fingerpost.music.chord_fit import fit
from fingerpost.music.chord_name import names
from fingerpost.music.chord_symbol import read
from fingerpost.music.pitch import Note
from hypothesis import given
from hypothesis import strategies as st

# symbol, notes with the bass first, holds, lacks, adds, left out by custom (standards.md, customary omissions)
CASES = [
    ("C", "C E G", True, "", "", ""),
    ("C", "C E", True, "", "", "5"),
    ("C", "E G C", True, "", "", ""),
    ("C/G", "G C E", True, "", "", ""),
    ("C/G", "C E G", False, "", "", ""),
    ("C/D", "D C E G", True, "", "", ""),
    ("C/D", "D C E", True, "", "", "5"),
    ("C7", "C E Bb", True, "", "", "5"),
    ("C7", "C G Bb", False, "3", "", ""),
    ("C7", "C E G", False, "b7", "", ""),
    ("C7", "C E G Bb D", False, "", "9", ""),
    ("C5", "C", False, "5", "", ""),
    ("Csus4", "C F", True, "", "", "5"),
    ("Cdim", "C Eb", False, "b5", "", ""),
    ("Caug", "C E", False, "#5", "", ""),
    ("C7b5", "C E Bb", False, "b5", "", ""),
    ("C11", "C G Bb D F", True, "", "", "3"),
    ("C11", "C Bb D F", True, "", "", "3 5"),
    ("C11", "C E G Bb F", False, "9", "", ""),
    ("C13", "C E Bb A", True, "", "", "5 9 11"),
    ("C13", "C G Bb D A", False, "3", "", "11"),
    ("C13sus4", "C F Bb A", True, "", "", "5 9"),
    ("C13#11", "C E Bb A D", False, "#11", "", "5"),
    ("C9", "C E G Bb", False, "9", "", ""),
    ("Cadd9", "C E D", True, "", "", "5"),
    ("Em6", "E G B D", False, "6", "b7", ""),
    ("C(no5)", "C E", True, "", "", ""),
    ("C(no5)", "C E G", False, "", "5", ""),
]


@pytest.mark.parametrize(("symbol", "notes", "holds", "lacks", "adds", "omitted"), CASES)
def test_claims(symbol: str, notes: str, holds: bool, lacks: str, adds: str, omitted: str) -> None:
    classes = [Note.parse(note).pitch_class for note in notes.split()]
    found = fit(read(symbol), classes, classes[0])
    assert (found.holds, " ".join(found.lacks), " ".join(found.adds), " ".join(found.omitted)) == (
        holds,
        lacks,
        adds,
        omitted,
    )


def test_only_a_bass_that_is_claimed_must_agree() -> None:
    assert fit(read("C"), [0, 4, 7], 4).bass_agrees
    assert fit(read("C/E"), [0, 4, 7], 4).bass_agrees
    assert not fit(read("C/E"), [0, 4, 7], 7).bass_agrees


@given(st.sets(st.integers(0, 11), min_size=1), st.integers(0, 11))
def test_every_computed_name_holds_as_a_claim(classes: set[int], bass: int) -> None:
    for name in names(classes, bass):
        found = fit(name.chord, classes, bass)
        assert found.holds
        assert set(found.omitted) == set(name.left_out)
        exact = fit(name.exact_chord, classes, bass)
        assert exact.holds
        assert exact.omitted == ()
