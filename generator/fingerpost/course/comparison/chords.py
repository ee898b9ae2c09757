"""The index of chords before and after: which came, went, look or sound otherwise, are first met elsewhere."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from fingerpost.course.comparison.block_difference import BlockChange
from fingerpost.course.comparison.difference import ChordSounds
from fingerpost.course.model import ChordEntry, Course

Entries = Mapping[str, ChordEntry]


@dataclass(frozen=True)
class IndexChange:
    """What differs in the index, by symbol; kept: how many chords are as they were."""

    new: tuple[str, ...]
    gone: tuple[str, ...]
    shapes: tuple[str, ...]
    sounds: tuple[ChordSounds, ...]
    first: tuple[tuple[str, str, str], ...]
    kept: int


def index_change(courses: tuple[Course, Course], changes: tuple[BlockChange, ...]) -> IndexChange:
    """The two indexes side by side. A chord is as it was where no list names it."""
    old, new = ({entry.symbol: entry for entry in course.chords} for course in courses)
    both = {symbol: (old[symbol], entry) for symbol, entry in new.items() if symbol in old}
    shapes = tuple(symbol for symbol, (one, other) in both.items() if _shapes(one) != _shapes(other))
    sounds = tuple(_sounds({symbol: both[symbol] for symbol in both if symbol not in shapes}))
    first = tuple(_first(both, changes))
    told = {*shapes, *(chord.symbol for chord in sounds), *(symbol for symbol, _, _ in first)}
    return IndexChange(
        tuple(symbol for symbol in new if symbol not in old),
        tuple(symbol for symbol in old if symbol not in new),
        shapes,
        sounds,
        first,
        sum(symbol not in told for symbol in both),
    )


def _shapes(entry: ChordEntry) -> frozenset[object]:
    return frozenset((met.shape, met.fretboard.tuning) for met in entry.shapes)


def _sounds(both: Mapping[str, tuple[ChordEntry, ChordEntry]]) -> Iterator[ChordSounds]:
    for symbol, entries in both.items():
        old, new = (frozenset((met.shape, met.fretboard.capo) for met in entry.shapes) for entry in entries)
        if old != new:
            capos = (tuple(sorted({capo for _, capo in side})) for side in (old, new))
            yield ChordSounds(symbol, *capos)


def _first(
    both: Mapping[str, tuple[ChordEntry, ChordEntry]], changes: tuple[BlockChange, ...]
) -> Iterator[tuple[str, str, str]]:
    """Chords whose first place is another block; a block is the same under another id and on another page."""
    became = {change.before.block.id: change.after.block.id for change in changes if change.before and change.after}
    for symbol, (old, new) in both.items():
        before, after = old.first[1], new.first[1]
        if became.get(before, before) != after:
            yield symbol, before, after
