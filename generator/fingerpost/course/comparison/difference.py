"""What a comparison of two courses comes to: data only, in the order in which the course is taught."""

from __future__ import annotations

from dataclasses import dataclass

from fingerpost.course.comparison.step_difference import Fact, How, StepChange, WordChange
from fingerpost.course.model import Block, Step


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
        """How many steps this became of."""
        return sum(step.how is how for step in self.steps)


@dataclass(frozen=True, slots=True)
class Unread:
    """A block that can be read on neither side; line is that of its fence. CHANGED: its text differs."""

    file: str
    block: str | None
    line: int
    how: How


@dataclass(frozen=True, slots=True)
class PageChange:
    """A page that came (before is None), went (after is None), has another name, or has another title."""

    before: str | None
    after: str | None
    title_before: str | None = None
    title_after: str | None = None


@dataclass(frozen=True, slots=True)
class Take:
    """A recording that shows what the text no longer says: its cue, and the step it was made for."""

    file: str
    block: str
    step: Step
    gone: bool


@dataclass(frozen=True, slots=True)
class ChordSounds:
    """A chord of the index in the shapes that it had, on a neck with other capos."""

    symbol: str
    capos_before: tuple[int, ...]
    capos_after: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class LostIds:
    """Ids of a block, before, that are no more; whole: its own too. of: how many steps it had."""

    block: str
    whole: bool
    steps: tuple[str, ...]
    of: int

    @property
    def ids(self) -> tuple[str, ...]:
        """All of them."""
        return (*((self.block,) if self.whole else ()), *self.steps)


@dataclass(frozen=True, slots=True)
class Reach:
    """What a change touches. Pages by their file (after; before, where gone); chords by their symbol.

    pages: with a musical change. worded: with other words only. later: steps whose line is as it was and whose hand is
    not. rerouted: steps with the same hand, reached otherwise. pictures: how many step pictures are to be drawn again.
    chord_shapes: chords that are shown in other shapes than before; chord_sounds: those that are not, and sound higher
    or lower, with the capos before and now; chord_first: those that the index says are first met elsewhere, before and
    now. ids_lost: by block, ids that links and a student's progress find no more. reckoned: by block, how many steps
    that are as they were have another difficulty.
    """

    pages: tuple[str, ...] = ()
    worded: tuple[str, ...] = ()
    later: tuple[tuple[Placed, StepChange], ...] = ()
    rerouted: tuple[tuple[Placed, StepChange], ...] = ()
    chords_new: tuple[str, ...] = ()
    chords_gone: tuple[str, ...] = ()
    chord_shapes: tuple[str, ...] = ()
    takes: tuple[Take, ...] = ()
    pictures: int = 0
    practice: tuple[str, ...] = ()
    chord_sounds: tuple[ChordSounds, ...] = ()
    chord_first: tuple[tuple[str, str, str], ...] = ()
    ids_lost: tuple[LostIds, ...] = ()
    reckoned: tuple[tuple[str, int], ...] = ()


@dataclass(frozen=True, slots=True)
class Kept:
    """What did not change: of so many (after the change) so many are as they were, (kept, all).

    unread: how many of the blocks can't be made out, so that their steps are not counted.
    """

    pages: tuple[int, int]
    blocks: tuple[int, int]
    steps: tuple[int, int]
    chords: tuple[int, int]
    ids: tuple[int, int]
    unread: int = 0


@dataclass(frozen=True, slots=True)
class Comparison:
    """Two courses compared as music. rewritten: blocks and pages written otherwise without any musical change.

    settings: options of the course that differ. unread: blocks that can't be read on either side, so that what changed
    for the player is not known.
    """

    blocks: tuple[BlockChange, ...]
    pages: tuple[PageChange, ...]
    settings: tuple[Fact, ...]
    rewritten: tuple[str, ...]
    reach: Reach
    kept: Kept
    unread: tuple[Unread, ...] = ()

    @property
    def musical(self) -> bool:
        """Whether anything changed for the player, or may have."""
        moved = any(page.before is None or page.after is None or page.before != page.after for page in self.pages)
        return moved or bool(self.settings or self.unread) or any(change.musical for change in self.blocks)

    def follows_settings(self, change: BlockChange) -> bool:
        """Whether nothing differs in a block but what settings of the course say of all of them."""
        own = bool(change.steps or change.words or change.uncompared) or None in (change.before, change.after)
        return not own and bool(change.facts) and set(change.facts) <= set(self.settings)
