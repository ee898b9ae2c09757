"""What a change does to the sound: the same chord, one note more, one less, one for another, or more than that."""

from __future__ import annotations

import enum

from fingerpost.music.fretboard import Fretboard
from fingerpost.music.plain_name import heard
from fingerpost.music.shape import Shape


class SoundChange(enum.StrEnum):
    """The kinds of change, counted in notes without their octave."""

    SAME = "same chord"
    ADDED = "one note added"
    DROPPED = "one note dropped"
    CHANGED = "one note changed"
    SEVERAL = "several notes changed"


_BY_COUNT = {
    (0, 0): SoundChange.SAME,
    (1, 0): SoundChange.ADDED,
    (0, 1): SoundChange.DROPPED,
    (1, 1): SoundChange.CHANGED,
}


def sound_change(before: Shape, after: Shape, fretboard: Fretboard) -> SoundChange:
    """How the notes of two shapes differ; which octave sounds, how often, and which note is lowest plays no part."""
    old, new = ({midi % 12 for midi in heard(shape.frets, fretboard)} for shape in (before, after))
    come, gone = len(new - old), len(old - new)
    return _BY_COUNT.get((come, gone), SoundChange.SEVERAL)
