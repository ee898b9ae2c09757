"""How hard each change of a course is, in its order: the figures of the curves, and where they jump."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import groupby, pairwise

from fingerpost.course.model import Course, Step
from fingerpost.course.rules.harder_step import FIRST_CHANGES
from fingerpost.course.settings import Settings
from fingerpost.course.way_map import Place
from fingerpost.music.difficulty import difficulty
from fingerpost.music.fretboard import Fretboard
from fingerpost.music.hand import Hand


@dataclass(frozen=True, slots=True)
class Change:
    """A step that changes the shape: where it stands, the step before and itself, and its points.

    jump: at least as many times as hard as all before it as the option `harder_step` says, the same as the check's
    note; the first ten changes of a course are none.
    """

    place: Place
    before: Step
    step: Step
    fretboard: Fretboard
    points: float
    jump: bool = False

    @property
    def fingers(self) -> int:
        """How many fingers move."""
        return self.step.transition.finger_count if self.step.transition else 0


@dataclass(frozen=True, slots=True)
class LessonLoad:
    """The changes of one lesson taken together, in points: the mean, the hardest, and how many of them jump."""

    file: str
    changes: tuple[Change, ...]

    @property
    def hardest(self) -> Change:
        """The first of the hardest changes."""
        return max(self.changes, key=lambda change: change.points)

    @property
    def mean(self) -> float:
        """The mean of all changes."""
        return sum(change.points for change in self.changes) / len(self.changes)

    @property
    def jumps(self) -> int:
        """How many changes jump."""
        return sum(change.jump for change in self.changes)


def loads(course: Course, settings: Settings) -> tuple[LessonLoad, ...]:
    """The lessons in which a shape changes, in their order."""
    marked = _marked(_changes(course, settings.hand), settings.harder_step)
    return tuple(LessonLoad(file, tuple(of)) for file, of in groupby(marked, key=lambda change: change.place[0]))


def _changes(course: Course, hand: Hand) -> Iterator[Change]:
    """Every change within the blocks. Coming back from a rest is none: the hand then starts anew."""
    for lesson in course.lessons:
        for block in lesson.blocks:
            for before, step in pairwise(block.steps):
                if step.transition is None or step.rest or before.rest or step.shape == before.shape:
                    continue
                points = difficulty(step.transition, block.fretboard, hand).total
                yield Change((lesson.file, block.id, step.id), before, step, block.fretboard, points)


def _marked(changes: Iterator[Change], times: float) -> Iterator[Change]:
    hardest = 0.0
    for count, change in enumerate(changes):
        leaps = bool(times) and count >= FIRST_CHANGES and change.points > hardest and change.points >= times * hardest
        hardest = max(hardest, change.points)
        yield Change(change.place, change.before, change.step, change.fretboard, change.points, leaps)
