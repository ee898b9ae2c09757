"""What differs in a block: data only."""

from __future__ import annotations

from dataclasses import dataclass

from fingerpost.course.comparison.step_difference import Fact, How, StepChange, WordChange
from fingerpost.course.model import Block


@dataclass(frozen=True, slots=True)
class Placed:
    """A block in its place: the file of its page, and whether the page shows it or only a notice of its errors.

    sure: how many of its steps are read for certain, where what comes after them is in doubt; None where nothing is.
    """

    file: str
    block: Block
    sound: bool = True
    sure: int | None = None

    @property
    def certain(self) -> int:
        """How many steps are read for certain."""
        return len(self.block.steps) if self.sure is None else self.sure


@dataclass(frozen=True, slots=True)
class Retuned:
    """What another capo or another tuning does to the player, who keeps every shape.

    higher: by how many semitones all of it sounds higher. strings: (string, pitch before, pitch after, semitones),
    where there are as many. example: a chord of the block, what it sounded as and what it sounds as now.
    """

    higher: int = 0
    strings: tuple[tuple[int, str, str, int], ...] = ()
    example: tuple[str, str, str] | None = None


@dataclass(frozen=True, slots=True)
class BlockChange:
    """A block and what differs in it. before is None for a new one, after for one that is gone.

    kept: how many steps are as they were. transposed: how many keep their fingers and sound higher or lower.
    uncompared: how many can't be compared, since one side is in doubt there. reckoned: how many of those that are as
    they were have another difficulty. practice_changed: the list of what to practise differs. unreadable: the other
    side has it too, but its steps can't be made out there.
    """

    before: Placed | None
    after: Placed | None
    facts: tuple[Fact, ...] = ()
    steps: tuple[StepChange, ...] = ()
    words: tuple[WordChange, ...] = ()
    kept: int = 0
    practice_changed: bool = False
    unreadable: bool = False
    retuned: Retuned | None = None
    transposed: int = 0
    uncompared: int = 0
    reckoned: int = 0

    @property
    def here(self) -> Placed:
        """The block as it is after, or where it is gone, as it was."""
        placed = self.after or self.before
        assert placed is not None
        return placed

    @property
    def musical(self) -> bool:
        """Whether anything but words differs, or may."""
        return bool(self.facts or self.steps or self.uncompared) or self.before is None or self.after is None

    def count(self, how: How) -> int:
        """How many steps this became of; one that is in another block neither came nor went."""
        return sum(step.how is how and step.elsewhere is None for step in self.steps)

    @property
    def moved(self) -> int:
        """How many steps are at another place of the block now, or come from another block."""
        return self.count(How.MOVED) + sum(step.how is How.ADDED and step.elsewhere is not None for step in self.steps)
