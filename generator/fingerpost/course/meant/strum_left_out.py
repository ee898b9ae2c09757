"""A block that says nowhere what is struck, and whose names all have their root below if the lowest strings are not."""

from __future__ import annotations

from collections.abc import Sequence

from fingerpost.course.agreement import is_called
from fingerpost.course.ground import Ground
from fingerpost.course.heard import heard_of
from fingerpost.course.meant.search import strums
from fingerpost.course.meant.thread import strum_of_start
from fingerpost.music.chord import Chord
from fingerpost.music.move import Strum, write_move
from fingerpost.music.shape import Shape
from fingerpost.source.syntax import BlockSyntax, FingersStart, OpenStart

FEWEST_NAMES = 3
"""So many names must have their root below before a strum is said to be left out. By our own choice."""


def strum_left_out(syntax: BlockSyntax, named: Sequence[tuple[Shape, Chord]], ground: Ground) -> str | None:
    """The strum with which each name of a block has its root below, as it is written; None where there is none.

    named: what the hand holds where a name is given, and the name.
    """
    form = None if syntax.start is None else syntax.start.form
    silent = any(shape.unstruck for shape, _ in named)
    if strum_of_start(syntax) or silent or not isinstance(form, FingersStart | OpenStart) or len(named) < FEWEST_NAMES:
        return None
    for strum in strums(ground):
        if all(_is_rooted(shape, chord, strum, ground) for shape, chord in named):
            return write_move(strum, ground.fretboard.tuning).removeprefix("strum ")
    return None


def _is_rooted(shape: Shape, chord: Chord, strum: Strum, ground: Ground) -> bool:
    struck = shape.with_struck(strum.strings)
    heard = heard_of(struck, ground.fretboard)
    return heard is not None and heard.bass == chord.bass_pitch_class and is_called(struck, chord, ground)
