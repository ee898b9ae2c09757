"""Which blocks are read together with one that denies itself: those it goes on from, and those that go on from it."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from itertools import pairwise

from fingerpost.course.block import BuiltBlock
from fingerpost.course.ground import Ground
from fingerpost.course.meant.second_reading import is_readable
from fingerpost.course.meant.thread import Joined, Strand
from fingerpost.course.start import StartRead
from fingerpost.diagnostics import Diagnostic, Span
from fingerpost.source.syntax import BlockSyntax, PreviousStart

MOST_AFTER = 4
"""So many blocks that go on one from the other are looked at. By our own choice."""


MOST_TUNINGS = 8


@dataclass(frozen=True)
class _Passed:
    """A block that was built and did not deny itself, with those it goes on from."""

    strand: Strand
    before: tuple[Strand, ...]
    ground: Ground


@dataclass
class Joining:
    """Grows block by block in the order of the course. following: by the place of a block, the next on its page.

    tuned: how the blocks of each page write their tunings.
    """

    following: dict[Span, BlockSyntax] = field(default_factory=dict)
    tuned: dict[str, dict[str, None]] = field(default_factory=dict)
    passed: dict[str, _Passed] = field(default_factory=dict)
    elsewhere: set[tuple[Span, str]] = field(default_factory=set)

    @classmethod
    def of(cls, pages: Iterable[Sequence[BlockSyntax]]) -> Joining:
        """For the blocks of each page."""
        following, tuned = dict[Span, BlockSyntax](), dict[str, dict[str, None]]()
        for blocks in pages:
            following.update({one.span: two for one, two in pairwise(blocks)})
            for block in blocks:
                if block.tuning is not None:
                    tuned.setdefault(block.span.file, {})[block.tuning.text] = None
        return cls(following, tuned)

    def tunings(self, syntax: BlockSyntax) -> tuple[str, ...]:
        """How blocks of the course write their tunings, those of the block's own page first."""
        own = self.tuned.get(syntax.span.file, {})
        return tuple(dict.fromkeys((*own, *(text for texts in self.tuned.values() for text in texts))))[:MOST_TUNINGS]

    def note(self, block_id: str, syntax: BlockSyntax, start: StartRead, ground: Ground, built: BuiltBlock) -> None:
        """Takes in a block that was built; one that is denied or can't be read in full leads nowhere."""
        if built.begun is not None and not built.denied and is_readable(syntax, built.begun):
            before = self._before(start, ground)
            self.passed.setdefault(block_id, _Passed(Strand(syntax, held=built.begun), before, ground))

    def around(self, syntax: BlockSyntax, start: StartRead, ground: Ground) -> Joined:
        """The blocks that are read together with this one."""
        return Joined(self._before(start, ground), tuple(self._after(syntax)))

    def is_new(self, finding: Diagnostic, syntax: BlockSyntax) -> bool:
        """Whether a finding at another block than the one that was read was not there before, from a third one."""
        span = finding.span
        if span.file == syntax.span.file and syntax.span.line <= span.line <= syntax.span.end_line:
            return True
        known = (span, finding.fix) in self.elsewhere
        self.elsewhere.add((span, finding.fix))
        return not known

    def _before(self, start: StartRead, ground: Ground) -> tuple[Strand, ...]:
        block_id, upto = start.goes_on_from or ("", None)
        passed = self.passed.get(block_id)
        if passed is None or not _alike(passed.ground, ground):
            return ()
        return (*passed.before, Strand(passed.strand.syntax, upto, passed.strand.held))

    def _after(self, syntax: BlockSyntax) -> list[Strand]:
        out, last = list[Strand](), syntax
        while len(out) < MOST_AFTER and (following := self.following.get(last.span)) is not None:
            if not _goes_on(following, last) or any(step.line is None for step in following.steps):
                break
            out.append(Strand(following))
            last = following
        return out


def _goes_on(syntax: BlockSyntax, before: BlockSyntax) -> bool:
    """Whether a block goes on from the one before it on the page, on the same ground."""
    previous = syntax.start is None or isinstance(syntax.start.form, PreviousStart)
    return (
        previous
        and not syntax.unread
        and all(
            _text(getattr(syntax, key)) == _text(getattr(before, key)) for key in ("tuning", "capo", "fingers_per_step")
        )
    )


def _text(token: object) -> str:
    return getattr(token, "text", "")


def _alike(one: Ground, other: Ground) -> bool:
    """Whether two blocks are played alike; a capo moves all shapes together and makes no odds."""
    return one.fretboard.tuning == other.fretboard.tuning and one.fingers_per_step == other.fingers_per_step
