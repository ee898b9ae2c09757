"""The chord nearest to one that has no shape: on the same root, with as many of its tones as may be."""

from __future__ import annotations

from collections.abc import Iterator

from fingerpost.music.chord import Chord
from fingerpost.music.routes.question import Atlas, End, Question
from fingerpost.music.vocabulary import vocabulary


def nearest_with_shape(chord: Chord, question: Question) -> Chord | None:
    """A chord that has a shape under the same conditions; None where even the plainest on this root has none."""
    key, atlas = question.conditions.key, Atlas()
    if key is not None and not key.has(chord.root.pitch_class):
        return None
    near = sorted(_on_root(chord), key=lambda one: (len(one[0].pitch_classes ^ chord.pitch_classes), one[1]))
    return next((other for other, _ in near if atlas.shapes(End("", (), other), question)), None)


def _on_root(chord: Chord) -> Iterator[tuple[Chord, float]]:
    """The chords that players know on the root, with how usual each is; first the chord itself without its slash."""
    if chord.bass is not None:
        yield Chord(chord.root, chord.kind, chord.degrees), 0.0
    for readings in vocabulary().values():
        for reading in readings:
            if not reading.omitted:
                yield Chord(chord.root, reading.kind, reading.degrees), reading.usual
