"""What is heard of a shape: its pitch classes and its bass, as the shape's own notes (the capo apart)."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

from fingerpost.music.fretboard import Fretboard
from fingerpost.music.shape import Shape


@dataclass(frozen=True, slots=True)
class Heard:
    """Pitch classes, 0 (C) to 11 (B), and that of the lowest pitch."""

    pitch_classes: frozenset[int]
    bass: int


@lru_cache(maxsize=4096)
def heard_of(shape: Shape, fretboard: Fretboard) -> Heard | None:
    """What sounds, None where nothing does. The bass is the lowest pitch, on whatever string it is."""
    strings = zip(fretboard.tuning.midi, shape.frets, strict=True)
    pitches = [midi + fret for midi, fret in strings if fret is not None]
    return Heard(frozenset(pitch % 12 for pitch in pitches), min(pitches) % 12) if pitches else None
