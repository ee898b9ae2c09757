"""Going back: from each step to the one before, and round from the last shape to the first."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from fingerpost.course.model import Step, WayBack
from fingerpost.music.fretboard import Fretboard
from fingerpost.music.transition import transition


def ways_back(steps: Sequence[Step], fretboard: Fretboard) -> tuple[WayBack, ...]:
    """For each change of shape the change that undoes it, in the order of the steps; holds and rests have none."""
    out: list[WayBack] = []
    for before, after in pairwise(steps):
        if not (before.rest or after.rest or before.shape == after.shape):
            back = transition(after.shape, before.shape, fretboard)
            out.append(WayBack(after.ordinal, before.ordinal, back))
    return tuple(out)


def wrap_around(steps: Sequence[Step], fretboard: Fretboard) -> WayBack | None:
    """The change from the last shape to the first; None for a block of one shape."""
    held = [step for step in steps if not step.rest]
    if len(held) < 2:
        return None
    first, last = held[0], held[-1]
    return WayBack(last.ordinal, first.ordinal, transition(last.shape, first.shape, fretboard))
