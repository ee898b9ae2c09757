"""How far a change reaches, with what is to be looked at again; and, as surely, what did not change."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from fingerpost.course.comparison.difference import BlockChange, How, Kept, PageChange, Placed, Reach, StepChange, Take
from fingerpost.course.model import ChordEntry, Course


def reach(before: Course, after: Course, changes: Sequence[BlockChange], pages: Sequence[PageChange]) -> Reach:
    """What the changes touch."""
    touched = list(dict.fromkeys(file for change in changes if change.musical for file in _files(change)))
    renamed = [page.after or page.before or "" for page in pages if page.before != page.after]
    musical = tuple(dict.fromkeys([*touched, *renamed]))
    worded = [change.here.file for change in changes if change.words]
    worded += [page.after for page in pages if page.after and page.title_before != page.title_after]
    later = [(change.here, step) for change in changes for step in change.steps if step.how is How.FOLLOWS]
    old, new = ({entry.symbol: entry for entry in course.chords} for course in (before, after))
    return Reach(
        pages=musical,
        worded=tuple(file for file in dict.fromkeys(worded) if file not in musical),
        later=tuple((placed, step) for placed, step in later if not step.same_hand),
        rerouted=tuple((placed, step) for placed, step in later if step.same_hand),
        chords_new=tuple(symbol for symbol in new if symbol not in old),
        chords_gone=tuple(symbol for symbol in old if symbol not in new),
        chord_shapes=tuple(s for s, entry in new.items() if s in old and _shapes(entry) != _shapes(old[s])),
        takes=tuple(_takes(changes)),
        pictures=sum(_pictures(change) for change in changes),
        practice=tuple(change.here.block.id for change in changes if change.after and change.practice_changed),
    )


def kept(after: Course, changes: Sequence[BlockChange], pages: Sequence[PageChange]) -> Kept:
    """Of all that the course now has, how much is as it was; of all ids that there were, how many still serve."""
    touched: set[str | None] = {change.here.file for change in changes if change.musical}
    touched |= {page.after for page in pages if page.before != page.after}
    there = [change for change in changes if change.after is not None]
    steps = sum(len(change.here.block.steps) for change in there)
    once = {ident for change in changes if change.before for ident in _ids(change.before)}
    now = {ident for change in there for ident in _ids(change.here)}
    return Kept(
        pages=(sum(lesson.file not in touched for lesson in after.lessons), len(after.lessons)),
        blocks=(sum(not change.musical for change in there), len(there)),
        steps=(sum(change.kept for change in there), steps),
        chords=_chords(after, changes),
        ids=(len(once & now), len(once)),
    )


def _chords(after: Course, changes: Sequence[BlockChange]) -> tuple[int, int]:
    """Chords of the index that no changed step shows."""
    shown = {
        step.naming.shown
        for change in changes
        for changed in change.steps
        for step in (changed.before, changed.after)
        if step is not None
    }
    return sum(entry.chord not in shown for entry in after.chords), len(after.chords)


def _ids(placed: Placed) -> Iterator[str]:
    yield placed.block.id
    for step in placed.block.steps:
        yield step.id


def _files(change: BlockChange) -> Iterator[str]:
    """The pages of a block, now and before."""
    for placed in (change.after, change.before):
        if placed is not None:
            yield placed.file


def _shapes(entry: ChordEntry) -> frozenset[object]:
    return frozenset((met.shape, met.fretboard) for met in entry.shapes)


def _takes(changes: Iterable[BlockChange]) -> Iterator[Take]:
    for change in changes:
        for step in change.steps:
            if step.before is not None and step.before.cue is not None:
                assert change.before is not None
                yield Take(change.here.file, change.here.block.id, step.before, step.after is None)


def _pictures(change: BlockChange) -> int:
    """How many pictures differ: those of the changed steps, and on another neck all of them."""
    if change.after is None:
        return 0
    if change.before is not None and change.before.block.fretboard != change.after.block.fretboard:
        return len(change.after.block.steps)
    return sum(step.after is not None and _drawn_otherwise(step) for step in change.steps)


def _drawn_otherwise(step: StepChange) -> bool:
    before, after = step.before, step.after
    if before is None or after is None:
        return True
    return (before.shape, before.transition, before.rest, before.naming.shown) != (
        after.shape,
        after.transition,
        after.rest,
        after.naming.shown,
    )
