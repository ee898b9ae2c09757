"""What a comparison of two courses comes to: data only, in the order in which the course is taught."""

from __future__ import annotations

import enum
from dataclasses import dataclass

from fingerpost.course.model import Block, Step


class How(enum.StrEnum):
    """What became of a step: `follows` means that its line is as it was, but not the hand that the line leads to."""

    CHANGED = "changed"
    ADDED = "added"
    GONE = "gone"
    FOLLOWS = "follows"


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
    the step, None where none does. same_hand: only the way to it differs.
    """

    how: How
    before: Step | None
    after: Step | None
    strings: tuple[StringChange, ...] = ()
    facts: tuple[Fact, ...] = ()
    difficulty_before: float | None = None
    difficulty_after: float | None = None

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


@dataclass(frozen=True, slots=True)
class Placed:
    """A block in its place: the file of its page, and whether the page shows it or only a notice of its errors."""

    file: str
    block: Block
    sound: bool = True


@dataclass(frozen=True, slots=True)
class BlockChange:
    """A block and what differs in it. before is None for a new one, after for one that is gone.

    kept: how many steps are as they were. practice_changed: the list of what to practise differs. unreadable: the other
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

    @property
    def here(self) -> Placed:
        """The block as it is after, or where it is gone, as it was."""
        placed = self.after or self.before
        assert placed is not None
        return placed

    @property
    def musical(self) -> bool:
        """Whether anything but words differs."""
        return bool(self.facts or self.steps) or self.before is None or self.after is None


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
class Reach:
    """What a change touches. Pages by their file (after; before, where gone); chords by their symbol.

    pages: with a musical change. worded: with other words only. later: steps whose line is as it was and whose hand is
    not. rerouted: steps with the same hand, reached otherwise. pictures: how many step pictures are to be drawn again.
    chord_shapes: chords that are shown in other shapes than before.
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


@dataclass(frozen=True, slots=True)
class Kept:
    """What did not change: of so many (after the change) so many are as they were, (kept, all)."""

    pages: tuple[int, int]
    blocks: tuple[int, int]
    steps: tuple[int, int]
    chords: tuple[int, int]
    ids: tuple[int, int]


@dataclass(frozen=True, slots=True)
class Comparison:
    """Two courses compared as music. rewritten: blocks and pages written otherwise without any change of what they say.

    settings: options of the course that differ.
    """

    blocks: tuple[BlockChange, ...]
    pages: tuple[PageChange, ...]
    settings: tuple[Fact, ...]
    rewritten: tuple[str, ...]
    reach: Reach
    kept: Kept

    @property
    def musical(self) -> bool:
        """Whether anything changed for the player."""
        moved = any(page.before is None or page.after is None or page.before != page.after for page in self.pages)
        return moved or bool(self.settings) or any(change.musical for change in self.blocks)
