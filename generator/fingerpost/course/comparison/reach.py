"""How far a change reaches, with what is to be looked at again; and, as surely, what did not change."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from fingerpost.course.comparison.block_difference import BlockChange
from fingerpost.course.comparison.chords import IndexChange
from fingerpost.course.comparison.difference import Kept, PageChange, PageWords, Reach, Take, Unread
from fingerpost.course.comparison.lost_ids import ids_before, ids_now, lost_ids
from fingerpost.course.comparison.pictures import pictures
from fingerpost.course.comparison.step_difference import How
from fingerpost.course.model import Course
from fingerpost.course.settings import Settings


def reach(
    changes: Sequence[BlockChange],
    pages: Sequence[PageChange],
    unread: Sequence[Unread],
    prose: Sequence[PageWords],
    index: IndexChange,
    settings: tuple[Settings, Settings],
) -> Reach:
    """What the changes touch."""
    musical = _musical(changes, pages, unread)
    later = [(change.here, step) for change in changes for step in change.steps if step.how is How.FOLLOWS]
    return Reach(
        pages=musical,
        worded=_worded(changes, pages, prose, musical),
        later=tuple((placed, step) for placed, step in later if not step.same_hand),
        rerouted=tuple((placed, step) for placed, step in later if step.same_hand),
        chords_new=index.new,
        chords_gone=index.gone,
        chord_shapes=index.shapes,
        takes=tuple(_takes(changes)),
        pictures=pictures(changes, settings),
        practice=tuple(change.here.block.id for change in changes if change.after and change.practice_changed),
        chord_sounds=index.sounds,
        chord_first=index.first,
        ids_lost=tuple(lost_ids(changes)),
        reckoned=tuple((change.here.block.id, change.reckoned) for change in changes if change.reckoned),
    )


def _musical(changes: Iterable[BlockChange], pages: Iterable[PageChange], unread: Iterable[Unread]) -> tuple[str, ...]:
    """Pages with a change for the player, or with one that may be one."""
    touched = [file for change in changes if change.musical for file in _files(change)]
    touched += [block.file for block in unread]
    renamed = [page.after or page.before or "" for page in pages if page.before != page.after]
    return tuple(dict.fromkeys([*touched, *renamed]))


def _worded(
    changes: Iterable[BlockChange], pages: Iterable[PageChange], prose: Iterable[PageWords], musical: Sequence[str]
) -> tuple[str, ...]:
    worded = [change.here.file for change in changes if change.words]
    worded += [page.after for page in pages if page.after and page.title_before != page.title_after]
    worded += [page.file for page in prose]
    return tuple(file for file in dict.fromkeys(worded) if file not in musical)


def _files(change: BlockChange) -> Iterator[str]:
    """The pages of a block, now and before."""
    for placed in (change.after, change.before):
        if placed is not None:
            yield placed.file


def _takes(changes: Iterable[BlockChange]) -> Iterator[Take]:
    for change in changes:
        for step in change.steps:
            if step.before is not None and step.before.cue is not None:
                assert change.before is not None
                yield Take(
                    change.here.file, change.here.block.id, step.before, step.after is None, step.how is How.MOVED
                )


def kept(
    after: Course, changes: Sequence[BlockChange], reached: Reach, index: IndexChange, unread: tuple[int, int]
) -> Kept:
    """Of all that the course now has, how much is as it was; of all ids that there were, how many still serve.

    unread: how many of its blocks can't be made out, and how many of those are written as they were.
    """
    there = [change for change in changes if change.after is not None]
    once = ids_before(changes)
    return Kept(
        pages=(sum(lesson.file not in reached.pages for lesson in after.lessons), len(after.lessons)),
        blocks=(sum(not change.musical for change in there) + unread[1], len(there) + unread[0]),
        steps=(sum(change.kept for change in there), sum(len(change.here.block.steps) for change in there)),
        chords=(index.kept, len(after.chords)),
        ids=(len(once & ids_now(changes)), len(once)),
        unread=unread[0],
    )
