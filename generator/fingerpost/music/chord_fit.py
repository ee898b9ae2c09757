"""Whether notes that sound are a chord that someone claims, and what they lack or add."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from fingerpost.music.chord import Chord
from fingerpost.music.customary import customary_omissions


@dataclass(frozen=True, slots=True)
class Fit:
    """How notes fit a chord. lacks, adds and omitted are intervals from the root of the chord, such as `b7`.

    holds: nothing lacks, nothing is added, and the bass agrees.
    omitted: what is left out as custom allows; it does not count as lacking.
    bass_agrees: the lowest note is the bass that a slash names; without a slash any bass will do.
    """

    holds: bool
    lacks: tuple[str, ...]
    adds: tuple[str, ...]
    omitted: tuple[str, ...]
    bass_agrees: bool


def fit(chord: Chord, pitch_classes: Iterable[int], bass: int) -> Fit:
    """How the sounding pitch classes, the lowest of them `bass`, fit a chord."""
    sounding = {pitch_class % 12 for pitch_class in pitch_classes} | {bass % 12}
    free = {str(interval) for interval in customary_omissions(chord.kind, chord.degrees)}
    missing = [tone.interval for tone in chord.tones if tone.note.pitch_class not in sounding]
    extra = sorted(sounding - chord.pitch_classes, key=lambda pitch: (pitch - chord.root.pitch_class) % 12)
    lacks = tuple(interval for interval in missing if interval not in free)
    adds = tuple(chord.interval_of(pitch_class) for pitch_class in extra)
    agrees = chord.bass is None or chord.bass.pitch_class == bass % 12
    omitted = tuple(interval for interval in missing if interval in free)
    return Fit(not lacks and not adds and agrees, lacks, adds, omitted, agrees)
