"""Compares two courses as models, never as texts: what changed for the player, how far it reaches, what did not."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from fingerpost.course.comparison.alignment import align
from fingerpost.course.comparison.blocks import Pair, block_change, pair_blocks, placed_blocks, unreadable_blocks
from fingerpost.course.comparison.difference import BlockChange, Comparison, Fact, PageChange, Placed
from fingerpost.course.comparison.options import option_facts
from fingerpost.course.comparison.reach import kept, reach
from fingerpost.course.model import Course
from fingerpost.course.settings import Settings


@dataclass(frozen=True)
class Side:
    """One of the two courses. pages and blocks: texts by file and by id, only to see which were written otherwise."""

    course: Course
    settings: Settings
    pages: Mapping[str, str]
    blocks: Mapping[str, str]


def compare(before: Side, after: Side) -> Comparison:
    """Everything that differs. Findings are compared elsewhere."""
    old, new = placed_blocks(before.course), placed_blocks(after.course)
    renamed = _renamed_pages(before, after, old, new)
    pairs = pair_blocks(old, new, renamed)
    hands = (before.settings.hand, after.settings.hand)
    places = _places(old, pairs)
    lost = (unreadable_blocks(before.course), unreadable_blocks(after.course))
    changes = tuple(_read(block_change(pair, renamed, hands, places.get(_key(pair))), lost) for pair in pairs)
    pages = tuple(_pages(before.course, after.course, renamed))
    touched = tuple(change for change in changes if change.musical or change.words)
    settings = tuple(option_facts(before.settings, after.settings))
    return Comparison(
        touched,
        pages,
        settings,
        tuple(_rewritten(before, after, changes, pages, renamed)),
        reach(before.course, after.course, touched, pages),
        kept(after.course, changes, pages),
    )


def _renamed_pages(before: Side, after: Side, old: Sequence[Placed], new: Sequence[Placed]) -> dict[str, str]:
    """Pages that have another name: those with most of the blocks, by id, of one that is gone; else the same text."""
    gone = [lesson.file for lesson in before.course.lessons if after.course.lesson(lesson.file) is None]
    came = [lesson.file for lesson in after.course.lessons if before.course.lesson(lesson.file) is None]
    where = {placed.block.id: placed.file for placed in new}
    out: dict[str, str] = {}
    for file in gone:
        ids = [placed.block.id for placed in old if placed.file == file]
        votes = Counter(where[ident] for ident in ids if where.get(ident) in came)
        same = [name for name in came if after.pages.get(name) == before.pages.get(file)]
        best = votes.most_common(1)[0][0] if votes and 2 * max(votes.values()) >= len(ids) else None
        target = best or (same[0] if same else None)
        if target is not None:
            out[file] = target
            came.remove(target)
    return out


def _read(change: BlockChange, lost: tuple[frozenset[str], frozenset[str]]) -> BlockChange:
    """The change, unless the block is on the other side too and can't be read there: its steps did not come or go."""
    there = lost[0] if change.before is None else lost[1]
    if None not in (change.before, change.after) or change.here.block.id not in there:
        return change
    return replace(change, steps=(), unreadable=True)


def _key(pair: Pair) -> tuple[str, str] | None:
    return None if pair[0] is None or pair[1] is None else (pair[0].block.id, pair[1].block.id)


def _places(old: Sequence[Placed], pairs: Sequence[Pair]) -> dict[tuple[str, str] | None, Fact]:
    """For the blocks that are taught in another place: after which block they come, before and now."""
    keys = {id(pair[0]): _key(pair) for pair in pairs if None not in pair}
    once = [keys[id(placed)] for placed in old if id(placed) in keys]
    now = [_key(pair) for pair in pairs if None not in pair]
    paired = align(once, now, lambda one, other: 0.0 if one == other else 3.0)
    stays = {once[i] for i, j in paired if i is not None and j is not None and once[i] == now[j]}
    return {key: Fact("place", _after(once, key, 0), _after(now, key, 1)) for key in now if key not in stays}


def _after(order: Sequence[tuple[str, str] | None], key: tuple[str, str] | None, side: int) -> str:
    index = order.index(key)
    before = order[index - 1] if index else None
    return f"after {before[side]}" if before else "first"


def _pages(before: Course, after: Course, renamed: Mapping[str, str]) -> Iterator[PageChange]:
    once = {renamed.get(lesson.file, lesson.file): lesson for lesson in before.lessons}
    for lesson in after.lessons:
        old = once.get(lesson.file)
        if old is None:
            yield PageChange(None, lesson.file, None, lesson.title)
        elif (old.file, old.title) != (lesson.file, lesson.title):
            yield PageChange(old.file, lesson.file, old.title, lesson.title)
    for file, lesson in once.items():
        if after.lesson(file) is None:
            yield PageChange(lesson.file, None, lesson.title, None)


def _rewritten(
    before: Side,
    after: Side,
    changes: Iterable[BlockChange],
    pages: Iterable[PageChange],
    renamed: Mapping[str, str],
) -> Iterator[str]:
    """Blocks whose text differs and nothing else, then pages of which only words outside the blocks differ."""
    told = {page.after for page in pages}
    for change in changes:
        ident = change.here.block.id
        if change.musical or change.words:
            told.add(change.here.file)
        elif before.blocks.get(ident) != after.blocks.get(ident):
            told.add(change.here.file)
            yield ident
    once = {renamed.get(file, file): text for file, text in before.pages.items()}
    for file, text in after.pages.items():
        if file not in told and once.get(file, text) != text:
            yield file
