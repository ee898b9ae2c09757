"""Pitch and the neck against published tables and formulas; each test names its source."""

from __future__ import annotations

import itertools

import music21.pitch
import pytest
from fingerpost.music.fretboard import MOST_FRETS, Fretboard, distance_from_nut
from fingerpost.music.pitch import Pitch
from fingerpost.music.tuning import STANDARD


# Varieschi & Gower, arXiv:0906.0127: d(n) = L (1 - 2^(-n/12)); the values are the table of standards.md for L = 648 mm.
@pytest.mark.parametrize(
    ("fret", "millimetres"),
    [(0, 0.0), (1, 36.37), (2, 70.70), (3, 103.10), (4, 133.68), (5, 162.55), (7, 215.51), (12, 324.00)],
)
def test_distance_from_the_nut(fret: int, millimetres: float) -> None:
    assert distance_from_nut(fret, 648.0) == pytest.approx(millimetres, abs=0.005)


# The same source: the twelfth fret halves the string, and each fret shortens what is left by the same factor.
def test_every_fret_shortens_the_string_by_the_same_factor() -> None:
    left = [648.0 - distance_from_nut(fret) for fret in range(MOST_FRETS + 1)]
    for longer, shorter in itertools.pairwise(left):
        assert longer / shorter == pytest.approx(2 ** (1 / 12))


# ISO 16:1975: A4 = 440 Hz. MIDI 60 = C4 (common practice).
def test_the_tuning_pitch() -> None:
    assert Pitch.parse("A4").frequency() == 440.0
    assert Pitch.parse("A4").midi == 69
    assert Pitch.parse("C4").midi == 60


# standards.md, "Pitch and the fretboard" (common practice, frequencies by the formula).
@pytest.mark.parametrize(
    ("string", "name", "midi", "hertz"),
    [
        (6, "E2", 40, 82.41), (5, "A2", 45, 110.00), (4, "D3", 50, 146.83),
        (3, "G3", 55, 196.00), (2, "B3", 59, 246.94), (1, "E4", 64, 329.63),
    ],
)  # fmt: skip
def test_standard_tuning(string: int, name: str, midi: int, hertz: float) -> None:
    pitch = STANDARD.pitch(string)
    assert (str(pitch), pitch.midi) == (name, midi)
    assert pitch.frequency() == pytest.approx(hertz, abs=0.005)


# Radicioni & Lombardo, ICMC 2005, fig. 1: the places of MIDI 64.
@pytest.mark.parametrize(("string", "fret"), [(1, 0), (2, 5), (3, 9), (4, 14)])
def test_the_same_pitch_on_other_strings(string: int, fret: int) -> None:
    assert Fretboard().sounding_midi(string, fret) == 64


# music21 (general-purpose reference library), over the whole neck; it writes flats as "-".
@pytest.mark.parametrize("string", range(1, 7))
def test_every_fret_has_music21_s_pitch_and_frequency(string: int) -> None:
    for fret in range(MOST_FRETS + 1):
        ours = Fretboard().sounding_pitch(string, fret)
        theirs = music21.pitch.Pitch(str(ours).replace("b", "-"))
        assert theirs.midi == ours.midi
        assert theirs.frequency == pytest.approx(ours.frequency())


def test_a_capo_raises_what_is_heard_and_not_what_a_shape_is_called() -> None:
    board = Fretboard(capo=3)
    assert str(board.sounding_pitch(6, 0)) == "G2"
    assert board.shape_midi(6, 3) == 43  # G2 by name
    assert board.sounding_midi(6, 3) == 46  # sounds B flat
    assert board.highest_fret == 21
    assert board.span(1, 4) == pytest.approx(distance_from_nut(7) - distance_from_nut(4))
