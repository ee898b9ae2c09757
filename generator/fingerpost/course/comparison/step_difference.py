"""What differs in a step, or in what holds for many: data only."""

from __future__ import annotations

import enum
from dataclasses import dataclass

from fingerpost.course.model import Step


class How(enum.StrEnum):
    """What became of a step: `follows` means that its line is as it was, but not the hand that the line leads to.

    `moved`: it is what it was, and comes earlier or later among the steps of its block.
    """

    CHANGED = "changed"
    ADDED = "added"
    GONE = "gone"
    FOLLOWS = "follows"
    MOVED = "moved"


@dataclass(frozen=True, slots=True)
class Fact:
    """Something that holds in one way before and another after, in words of the trade; None where it does not hold."""

    what: str
    before: str | None
    after: str | None


@dataclass(frozen=True, slots=True)
class StringChange:
    """What changes on one string: frets (0 open, None silent), fingers by mark, notes of the shape by name."""

    string: int
    fret_before: int | None
    fret_after: int | None
    finger_before: str | None
    finger_after: str | None
    note_before: str | None
    note_after: str | None


@dataclass(frozen=True, slots=True)
class StepChange:
    """A step that is not as it was. before is None for a new one, after for one that is gone.

    strings: what is heard or held otherwise. facts: what else differs. difficulty: points of the change that leads to
    the step, None where none does. same_hand: only the way to it differs. elsewhere: of a step that came from another
    block or went to one, that block and its place there, from 0.
    """

    how: How
    before: Step | None
    after: Step | None
    strings: tuple[StringChange, ...] = ()
    facts: tuple[Fact, ...] = ()
    difficulty_before: float | None = None
    difficulty_after: float | None = None
    elsewhere: tuple[str, int] | None = None

    @property
    def id_kept(self) -> bool:
        """Whether links and the student's progress still find it."""
        return self.before is not None and self.after is not None and self.before.id == self.after.id

    @property
    def same_hand(self) -> bool:
        """Whether hand and sound at this step are as they were, and only the way to it differs."""
        both = self.before is not None and self.after is not None
        return both and not self.strings and self.before.shape == self.after.shape  # type: ignore[union-attr]


@dataclass(frozen=True, slots=True)
class WordChange:
    """Words of the author that differ: what they are (`title`, `say`, `cue`...), of which step (None: of the block)."""

    what: str
    step: Step | None
    before: str | None
    after: str | None
