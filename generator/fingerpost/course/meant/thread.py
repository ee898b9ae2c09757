"""A thread: blocks of which each goes on from where the one before left the hand, as one row of lines.

A slip late in a block is often denied only in the block that goes on from it; and where a block is denied, the one
that goes on from it tells which edit was meant.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import cached_property

from fingerpost.course.perform import Held
from fingerpost.source.syntax import Action, BlockSyntax, FingersStart, MoveLine, NameSaid, StrumStrings, Token

MOST_JOINED = 100
"""So many lines of other blocks are read together with a block, at most. By our own choice."""


@dataclass(frozen=True)
class Joint:
    """Where a block goes on from another: what its `strum` has struck, and the name its start claims."""

    strum: StrumStrings | None
    name: NameSaid | None
    actions: tuple[Action, ...] = ()
    silent: Token | None = None


Row = MoveLine | Joint


@dataclass(frozen=True)
class Strand:
    """A block of a thread. upto: how many of its lines lead on; None where all do. held: the hand at its start."""

    syntax: BlockSyntax
    upto: int | None = None
    held: Held | None = None

    @cached_property
    def lines(self) -> tuple[MoveLine, ...]:
        """The lines that lead on, as far as they can be read."""
        return tuple(step.line for step in self.syntax.steps[: self.upto] if step.line is not None)

    @property
    def whole(self) -> bool:
        """Whether every line could be read."""
        return all(step.line is not None for step in self.syntax.steps[: self.upto])


@dataclass(frozen=True)
class Place:
    """Where a row of a thread stands: which of its blocks, and which line of that; -1 for its start."""

    strand: int
    line: int


@dataclass(frozen=True)
class Thread:
    """strands: the blocks in their order; own: which of them is read."""

    strands: tuple[Strand, ...]
    own: int = 0

    @property
    def start(self) -> Held:
        """The hand at the start of the first block."""
        held = self.strands[0].held
        assert held is not None
        return held

    @cached_property
    def rows(self) -> tuple[Row, ...]:
        """All lines, with a joint before the first line of every block but the first."""
        return tuple(row for row, _ in self._placed())

    @cached_property
    def places(self) -> tuple[Place, ...]:
        """Where each row stands."""
        return tuple(place for _, place in self._placed())

    def _placed(self) -> Iterator[tuple[Row, Place]]:
        for number, strand in enumerate(self.strands):
            start = strand.syntax.start
            if number:
                yield Joint(strand.syntax.strum, None if start is None else start.name), Place(number, -1)
            yield from ((line, Place(number, at)) for at, line in enumerate(strand.lines))

    def ends(self, number: int) -> int:
        """The row after the last line of a block."""
        return next((at for at, place in enumerate(self.places) if place.strand > number), len(self.rows))

    @property
    def alone(self) -> Thread:
        """The thread without the blocks that go on from the one that is read."""
        return replace(self, strands=self.strands[: self.own + 1])


@dataclass(frozen=True)
class Joined:
    """The blocks that a block goes on from, the nearest last, and those that go on from it, the nearest first."""

    before: tuple[Strand, ...] = ()
    after: tuple[Strand, ...] = ()

    @property
    def key(self) -> tuple[object, ...]:
        """What tells them from others, for what is kept between builds."""
        return tuple((one.syntax.source, one.syntax.span, one.upto, one.held) for one in (*self.before, *self.after))

    def around(self, own: Strand) -> Thread:
        """The thread of a block with as many of the others as are read together with it."""
        left, first, last = MOST_JOINED, len(self.before), 0
        while first and len(self.before[first - 1].lines) <= left:
            first -= 1
            left -= len(self.before[first].lines)
        while last < len(self.after) and len(self.after[last].lines) <= left:
            left -= len(self.after[last].lines)
            last += 1
        return Thread((*self.before[first:], own, *self.after[:last]), len(self.before) - first)


def strum_of_start(syntax: BlockSyntax) -> StrumStrings | None:
    """The words of a block that say which strings are struck at its start."""
    form = None if syntax.start is None else syntax.start.form
    actions = form.actions if isinstance(form, FingersStart) else ()
    return syntax.strum or next((action for action in actions if isinstance(action, StrumStrings)), None)
