"""What a comparison of two courses comes to: data only, in the order in which the course is taught."""

from __future__ import annotations

from dataclasses import dataclass

from fingerpost.course.comparison.block_difference import BlockChange, Placed
from fingerpost.course.comparison.step_difference import Fact, How, StepChange
from fingerpost.course.model import Step


@dataclass(frozen=True, slots=True)
class Unread:
    """A block that can be read on neither side; line is that of its fence. CHANGED: its text differs."""

    file: str
    block: str | None
    line: int
    how: How


@dataclass(frozen=True, slots=True)
class PageChange:
    """A page that came (before is None), went (after is None), has another name, or has another title.

    redirect: where its old address leads now, None for nowhere.
    """

    before: str | None
    after: str | None
    title_before: str | None = None
    title_after: str | None = None
    redirect: str | None = None

    @property
    def left(self) -> bool:
        """Whether an address is no page any more."""
        return self.before is not None and self.before != self.after


@dataclass(frozen=True, slots=True)
class PageWords:
    """A page with other words outside its blocks: what is new in them, links and images by target, HTML by tag."""

    file: str
    links: tuple[str, ...] = ()
    images: tuple[str, ...] = ()
    tags: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class FileChange:
    """A file beside the pages, by its path from their folder."""

    file: str
    how: How


@dataclass(frozen=True, slots=True)
class Take:
    """A recording that shows what the text no longer says: its cue, and the step it was made for."""

    file: str
    block: str
    step: Step
    gone: bool
    moved: bool = False


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
    for the player is not known. prose: pages with other words outside their blocks. files: what else differs;
    settings_rewritten: the text of mkdocs.yml does.
    """

    blocks: tuple[BlockChange, ...]
    pages: tuple[PageChange, ...]
    settings: tuple[Fact, ...]
    rewritten: tuple[str, ...]
    reach: Reach
    kept: Kept
    unread: tuple[Unread, ...] = ()
    prose: tuple[PageWords, ...] = ()
    files: tuple[FileChange, ...] = ()
    settings_rewritten: bool = False

    @property
    def musical(self) -> bool:
        """Whether anything changed for the player, or may have."""
        moved = any(page.before is None or page.after is None or page.before != page.after for page in self.pages)
        return moved or bool(self.settings or self.unread) or any(change.musical for change in self.blocks)

    def follows_settings(self, change: BlockChange) -> bool:
        """Whether nothing differs in a block but what settings of the course say of all of them."""
        own = bool(change.steps or change.words or change.uncompared) or None in (change.before, change.after)
        return not own and bool(change.facts) and set(change.facts) <= set(self.settings)
