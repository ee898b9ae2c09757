"""The table of a step: for each string its fret, finger, note and interval, and whether it changed."""

from __future__ import annotations

from fingerpost.course.model import StringRow
from fingerpost.music.chord import Chord
from fingerpost.music.fretboard import Fretboard
from fingerpost.music.shape import Shape


def table(
    shape: Shape, before: Shape | None, chord: Chord | None, sounding: Chord | None, fretboard: Fretboard
) -> tuple[StringRow, ...]:
    """One row a string, highest-numbered first. chord spells the shape's notes, sounding those heard with the capo."""
    strings = range(shape.strings, 0, -1)
    return tuple(_row(shape, before, string, chord, sounding or chord, fretboard) for string in strings)


def _row(
    shape: Shape, before: Shape | None, string: int, chord: Chord | None, sounding: Chord | None, fretboard: Fretboard
) -> StringRow:
    fret = shape.fret(string)
    changed = before is not None and before.fret(string) != fret
    letter = fretboard.tuning.letter(string)
    if fret is None or chord is None or sounding is None:
        return StringRow(string, letter, fret, None, None, None, None, changed)
    press = shape.sounding_press(string)
    pitch_class = fretboard.shape_midi(string, fret) % 12
    heard = fretboard.sounding_midi(string, fret) % 12
    return StringRow(
        string=string,
        letter=letter,
        fret=fret,
        finger=press.finger.mark if press is not None and press.finger is not None else None,
        note=str(chord.note_of(pitch_class)),
        interval=chord.interval_of(pitch_class),
        sounding=str(sounding.note_of(heard)),
        changed=changed,
    )
