"""The index of chords: each under the name that the course shows, with where it is first taught and every shape met."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from fingerpost.course.memory import Memory
from fingerpost.course.model import ChordEntry, ShapeMet
from fingerpost.course.trail import Sighting
from fingerpost.music import chord_symbol
from fingerpost.music.chord import Chord
from fingerpost.music.fretboard import Fretboard
from fingerpost.music.shape import Shape

Place = tuple[str, str, str]


def chord_index(sightings: Mapping[Chord, Sequence[Sighting]], memory: Memory) -> tuple[ChordEntry, ...]:
    """One entry a chord, in the order in which the course shows them; places are (lesson file, block id, step id).

    A chord is first taught in the first block that says so in `teaches`, else where it is first shown. memory: an entry
    is kept as long as its chord is met in the same places.
    """
    return tuple(_kept(chord, seen, memory) for chord, seen in sightings.items())


def _kept(chord: Chord, seen: Sequence[Sighting], memory: Memory) -> ChordEntry:
    _, entry = memory.recall(
        ("entry", chord), lambda: (seen, _entry(chord, seen)), lambda had: len(had[0]) == len(seen) and had[0] == seen
    )
    return entry


def _entry(chord: Chord, seen: Sequence[Sighting]) -> ChordEntry:
    first = next((sighting for sighting in seen if sighting.taught_here), seen[0])
    places: dict[tuple[Shape, Fretboard], list[Place]] = {}
    for sighting in seen:
        places.setdefault((sighting.step.shape, sighting.fretboard), []).append(_place(sighting))
    shapes = tuple(ShapeMet(shape, board, tuple(where)) for (shape, board), where in places.items())
    return ChordEntry(chord_symbol.write(chord), chord, _place(first), shapes)


def _place(sighting: Sighting) -> Place:
    return sighting.file, sighting.block, sighting.step.id
