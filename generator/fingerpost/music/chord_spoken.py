"""Chords in English words, for a voice and for who does not read symbols."""

from __future__ import annotations

from fingerpost.music.chord import Chord
from fingerpost.music.compound import head_of
from fingerpost.music.degree import Degree, is_alteration
from fingerpost.music.symbol_style import alter_spoken, note_spoken

ORDINALS = {
    1: "root", 2: "second", 3: "third", 4: "fourth", 5: "fifth", 6: "sixth",
    7: "seventh", 9: "ninth", 11: "eleventh", 13: "thirteenth",
}  # fmt: skip
_SEVENTH_ADDED = {-1: "added diminished seventh", 0: "added minor seventh", 1: "added major seventh"}


def _change(degree: Degree, chord: Chord) -> str:
    word = ORDINALS[degree.value]
    if degree.type == "subtract":
        return f"no {word}"
    if degree.type == "add" and degree.value == 7:
        return _SEVENTH_ADDED[degree.alter]
    altered = alter_spoken(degree.alter) + word
    return altered if is_alteration(degree, chord.intervals) else f"added {altered}"


def spoken(chord: Chord) -> str:
    """The chord in English words: `C dominant seventh, no fifth`, `F sharp minor over C sharp`."""
    head = head_of(chord.kind, chord.degrees)
    parts = [f"{note_spoken(chord.root)} {head.spoken}", *(_change(degree, chord) for degree in head.rest)]
    return ", ".join(parts) + ("" if chord.bass is None else f" over {note_spoken(chord.bass)}")
