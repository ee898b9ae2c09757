"""Whether names agree with hands, where it is asked many times over and nothing is to be said about it."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TypeVar

from fingerpost.course.ground import Ground
from fingerpost.course.heard import Heard, heard_of
from fingerpost.course.naming import chord_or_none
from fingerpost.music.chord import Chord
from fingerpost.music.chord_fit import fit
from fingerpost.music.shape import Shape
from fingerpost.source.syntax import NameSaid

T = TypeVar("T")


def agrees(shape: Shape | None, said: NameSaid | None, ground: Ground) -> bool | None:
    """Whether a claimed name agrees with a shape (None: the hand rests); None where there is no name that tells."""
    chord = None if said is None or not said.strict else chord_or_none(said.symbol)
    return None if chord is None else is_called(shape, chord, ground)


def is_called(shape: Shape | None, chord: Chord, ground: Ground) -> bool:
    """Whether a shape may be claimed to be this chord, its bass as it is spelled there."""
    heard = None if shape is None else heard_of(shape, ground.fretboard)
    return heard is not None and sounds(chord, heard) and chord.bass in (None, chord.note_of(heard.bass))


def sounds(chord: Chord, heard: Heard) -> bool:
    """Whether what is heard is this chord, as custom lets it be played."""
    # Most that is tried is not, and a note too many is seen sooner than how it fits.
    few = heard.pitch_classes <= chord.pitch_classes | {heard.bass}
    return few and fit(chord, heard.pitch_classes, heard.bass).holds


def rooted_first(found: Iterable[tuple[T, Shape, NameSaid | None]], ground: Ground) -> T | None:
    """The first whose lowest note is the root of its name, or its bass; else the first of all; None of none.

    found: each with the shape that comes of it and the name that is given to that; without a name nothing tells.
    """
    best: T | None = None
    for one, shape, said in found:
        if has_its_root_below(shape, said, ground):
            return one
        best = one if best is None else best
    return best


def has_its_root_below(shape: Shape, said: NameSaid | None, ground: Ground) -> bool:
    """Whether the lowest note of a shape is the root of its name, or its bass; True where nothing tells."""
    heard = heard_of(shape, ground.fretboard)
    chord = None if said is None else chord_or_none(said.symbol)
    return heard is None or chord is None or chord.bass_pitch_class == heard.bass
