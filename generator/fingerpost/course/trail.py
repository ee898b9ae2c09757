"""What the blocks before this one have left: where each ended, which shapes its chords had, which ids are given."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field, replace

from fingerpost.course.model import Step
from fingerpost.course.teaching import Told
from fingerpost.diagnostics import Span
from fingerpost.music import chord_symbol
from fingerpost.music.chord import Chord
from fingerpost.music.fretboard import Fretboard
from fingerpost.music.limits import Fault
from fingerpost.music.shape import Shape
from fingerpost.music.tuning import Tuning
from fingerpost.source.syntax import BlockSyntax


@dataclass(frozen=True)
class Ending:
    """What the hand holds at the end of a block or step; shape is None where that is unknown.

    rested: the hand is off the neck, and shape is the one before the rest. upto: after how many lines of the block it
    is; None for its end.
    """

    block: str
    span: Span
    shape: Shape | None
    sure: bool = True
    faults: frozenset[Fault] = frozenset()
    rested: bool = False
    upto: int | None = None


@dataclass(frozen=True)
class Sighting:
    """A step that shows a chord, with where it stands and the neck that it is played on.

    sure: False where its block has an error above it, so that mending may change the shape.
    """

    file: str
    block: str
    step: Step
    fretboard: Fretboard
    taught_here: bool
    sure: bool = True


@dataclass
class Trail:
    """Grows block by block in the order of the course.

    endings: by block id. by_step: by step id, the ending of its block and the step. later: the blocks still to come,
    by their places. sightings: by the chord shown, in order. last_in_teaching: the latest of a chord in a block that
    teaches it. in_doubt: sightings in blocks with errors, which no page shows; nothing is said of what mending may
    bring back. promised: chords that such a block teaches and that no step of it shows now, with its id. lost:
    endings by the ids of its steps. nameless: a block has no id, so that any may be its. awaited: of the promised
    chords and the lost ids, those of blocks that may stand anywhere.
    """

    endings: dict[str, Ending] = field(default_factory=dict)
    by_step: dict[str, tuple[Ending, Step]] = field(default_factory=dict)
    block_ids: dict[str, Span] = field(default_factory=dict)
    later: dict[Span, BlockSyntax] = field(default_factory=dict)
    sightings: dict[Chord, list[Sighting]] = field(default_factory=dict)
    last_in_teaching: dict[Chord, Sighting] = field(default_factory=dict)
    in_doubt: dict[Chord, list[Sighting]] = field(default_factory=dict)
    promised: dict[Chord, str] = field(default_factory=dict)
    lost: dict[str, Ending] = field(default_factory=dict)
    nameless: bool = False
    awaited: tuple[frozenset[Chord], frozenset[str]] = (frozenset(), frozenset())
    last_on_page: Ending | None = None

    def ending(self, name: str) -> Ending | None:
        """What the hand holds at the end of the block or the step of that id."""
        if name in self.endings or name not in self.by_step:
            return self.endings.get(name) or self.lost.get(name)
        ending, step = self.by_step[name]
        return None if step.rest else replace(ending, shape=step.shape, upto=step.ordinal)

    def shapes_of(self, chord: Chord, tuning: Tuning) -> dict[Shape, Sighting]:
        """The different shapes of a chord so far in this tuning, each with its first sighting.

        Those of blocks that teach it, if any, else all; of them those that are sure, if any.
        """
        seen = (*self.sightings.get(chord, ()), *self.in_doubt.get(chord, ()))
        here = [sighting for sighting in seen if sighting.fretboard.tuning == tuning]
        here = [sighting for sighting in here if sighting.taught_here] or here
        out: dict[Shape, Sighting] = {}
        for sighting in [sighting for sighting in here if sighting.sure] or here:
            out.setdefault(sighting.step.shape, sighting)
        return out

    def may_show(self, chord: Chord) -> bool:
        """Whether a block with errors shows or teaches it, so that once mended the course may show it."""
        return chord in self.in_doubt or chord in self.promised

    def last_taught(self, chord: Chord) -> Sighting | None:
        """The latest sighting of a chord so far, in a block that teaches it if there is one."""
        return self.last_in_teaching.get(chord) or next(reversed(self.sightings.get(chord, [])), None)

    def first_taught(self, chord: Chord) -> Sighting | None:
        """The earliest sighting of a chord."""
        return next(iter(self.sightings.get(chord, ())), None)

    def symbols(self) -> Iterable[str]:
        """The symbols of all chords shown so far."""
        return [chord_symbol.write(chord) for chord in {**self.sightings, **self.in_doubt}]

    def sight(self, sighted: Iterable[tuple[Chord, Sighting]]) -> None:
        """Takes in the chords that a block shows."""
        for chord, sighting in sighted:
            self.sightings.setdefault(chord, []).append(sighting)
            if sighting.taught_here:
                self.last_in_teaching[chord] = sighting

    def await_block(self, block_id: str, chords: Iterable[Chord], own_ids: Iterable[str]) -> None:
        """Takes in what a block may show, of which nobody said where in the course it is taught."""
        nowhere = Ending(block_id, Span("", 1, 1, 1, 1), None, sure=False)
        chords, ids = frozenset(chords), frozenset(own_ids)
        self.promised.update((chord, block_id) for chord in chords)
        self.lost.update((one, nowhere) for one in ids)
        self.awaited = (self.awaited[0] | chords, self.awaited[1] | ids)

    def reach(self) -> None:
        """Such blocks come now: what they show is known from here on."""
        chords, ids = self.awaited
        self.promised = {chord: block for chord, block in self.promised.items() if chord not in chords}
        self.lost = {one: ending for one, ending in self.lost.items() if one not in ids}
        self.awaited = (frozenset(), frozenset())

    def doubt(self, shown: Iterable[tuple[Chord, Sighting]], promised: Iterable[Chord], ids: Iterable[str]) -> None:
        """Takes in what the block that was left last may show, teach and call its steps once it is mended."""
        assert self.last_on_page is not None
        for chord, sighting in shown:
            self.in_doubt.setdefault(chord, []).append(sighting)
        for chord in promised:
            self.promised.setdefault(chord, self.last_on_page.block)
        for step_id in ids:
            self.lost.setdefault(step_id, replace(self.last_on_page, shape=None, sure=False))


def sighted(told: Told) -> Iterator[tuple[Chord, Sighting]]:
    """The chords that a block shows, each with its step; way-points and rests are none."""
    block, taught = told.block, told.teaching.chords
    if block is None:
        return
    for step in block.steps:
        chord = step.naming.shown
        if chord is not None and not step.passing:
            yield chord, Sighting(told.file, block.id, step, block.fretboard, chord in taught)
