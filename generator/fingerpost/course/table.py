"""The table of a step: for each string its fret, finger, note and interval, and whether it changed."""

from __future__ import annotations

from functools import lru_cache

from fingerpost.course.model import StringRow
from fingerpost.music.chord import Chord
from fingerpost.music.fretboard import Fretboard
from fingerpost.music.shape import Shape

Spelling = tuple[tuple[str, str], ...]


def table(
    shape: Shape, before: Shape | None, chord: Chord | None, sounding: Chord | None, fretboard: Fretboard
) -> tuple[StringRow, ...]:
    """One row a string, highest-numbered first. chord spells the shape's notes, sounding those heard with the capo."""
    own = None if chord is None else spelling(chord)
    heard = own if sounding is None else spelling(sounding)
    return tuple(_row(shape, before, string, own, heard, fretboard) for string in range(shape.strings, 0, -1))


@lru_cache(maxsize=4096)
def spelling(chord: Chord) -> Spelling:
    """For each pitch class, 0 (C) to 11 (B), its note as the chord spells it and its interval from the root."""
    return tuple((str(chord.note_of(pitch_class)), chord.interval_of(pitch_class)) for pitch_class in range(12))


def _row(
    shape: Shape, before: Shape | None, string: int, own: Spelling | None, heard: Spelling | None, fretboard: Fretboard
) -> StringRow:
    fret = shape.fret(string)
    changed = before is not None and before.fret(string) != fret
    letter = fretboard.tuning.letter(string)
    if fret is None or own is None or heard is None:
        return StringRow(string, letter, fret, None, None, None, None, changed)
    press = shape.sounding_press(string)
    midi = fretboard.shape_midi(string, fret)
    note, interval = own[midi % 12]
    return StringRow(
        string=string,
        letter=letter,
        fret=fret,
        finger=press.finger.mark if press is not None and press.finger is not None else None,
        note=note,
        interval=interval,
        sounding=heard[(midi + fretboard.capo) % 12][0],
        changed=changed,
    )
