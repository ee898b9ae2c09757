"""The changes that a student makes in the order of the course: each with its step, its line and how hard it is."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from itertools import pairwise

from fingerpost.course.model import Step
from fingerpost.course.teaching import Told
from fingerpost.diagnostics import Span
from fingerpost.music.difficulty import Difficulty, difficulty


@dataclass(frozen=True, slots=True)
class Change:
    """One step that changes the shape: the block it is in, and its points."""

    told: Told
    step: Step
    difficulty: Difficulty

    @property
    def span(self) -> Span:
        """The words of its move."""
        return move_span(self.told, self.step)

    @property
    def points(self) -> float:
        """How hard it is, in the points of the hand's change costs."""
        return self.difficulty.total


def changes(told: Iterable[Told]) -> Iterator[Change]:
    """Every change within the sound blocks. Coming back from a rest is none: the hand then starts anew."""
    for block in told:
        yield from block.once(_of)


def _of(told: Told) -> Iterator[Change]:
    block = told.block
    if block is None or not told.sound:
        return
    for before, step in pairwise(block.steps):
        if step.transition is None or step.rest or step.back or before.rest or step.shape == before.shape:
            continue
        yield Change(told, step, difficulty(step.transition, block.fretboard, told.settings.hand))


def move_span(told: Told, step: Step) -> Span:
    """The words of a step's move; for a start, its shape, or the block's id where none is written."""
    written, start = told.written[step.ordinal], told.syntax.start
    if written is not None and written.line is not None and written.line.actions:
        return written.line.actions[0].span.to(written.line.actions[-1].span)
    first = start.text if start is not None else told.syntax.id
    return step.span if first is None else first.span
