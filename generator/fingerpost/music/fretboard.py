"""The neck: tuned strings, a capo, and distances along it in millimetres."""

from __future__ import annotations

from dataclasses import dataclass

from fingerpost.music.hashing import hashed_once
from fingerpost.music.pitch import Pitch
from fingerpost.music.tuning import STANDARD, Tuning

SCALE_LENGTH_MM = 648.0
MOST_FRETS = 24


def distance_from_nut(fret: float, scale_length: float = SCALE_LENGTH_MM) -> float:
    """Millimetres from the nut to a fret: d(n) = L (1 - 2^(-n/12)) (Varieschi & Gower, arXiv:0906.0127)."""
    return float(scale_length * (1 - 2 ** (-fret / 12)))


@hashed_once
@dataclass(frozen=True)
class Fretboard:
    """A tuned neck with a capo. Frets of shapes count from the capo; `true_fret` counts from the nut."""

    tuning: Tuning = STANDARD
    capo: int = 0
    frets: int = MOST_FRETS
    scale_length: float = SCALE_LENGTH_MM

    @property
    def strings(self) -> int:
        """How many strings there are."""
        return self.tuning.strings

    @property
    def highest_fret(self) -> int:
        """The last fret a shape may use, counted from the capo."""
        return self.frets - self.capo

    def shape_midi(self, string: int, fret: int) -> int:
        """MIDI number that a shape's note has by name, as if the capo were the nut."""
        return self.tuning.midi[string - 1] + fret

    def sounding_midi(self, string: int, fret: int) -> int:
        """MIDI number that is heard, the capo included."""
        return self.shape_midi(string, fret) + self.capo

    def sounding_pitch(self, string: int, fret: int) -> Pitch:
        """The pitch that is heard, spelled by the commoner accidental."""
        return Pitch.from_midi(self.sounding_midi(string, fret))

    def span(self, low_fret: int, high_fret: int) -> float:
        """Millimetres between two frets of a shape, at their true place on the neck."""
        return distance_from_nut(high_fret + self.capo, self.scale_length) - distance_from_nut(
            low_fret + self.capo, self.scale_length
        )
