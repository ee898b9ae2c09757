"""Compares two courses as models, never as texts: what changed for the player, how far it reaches, what did not."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace

from fingerpost.course.comparison.block_difference import BlockChange, Placed
from fingerpost.course.comparison.blocks import block_change, pair_blocks, placed_blocks
from fingerpost.course.comparison.chords import index_change
from fingerpost.course.comparison.difference import Comparison, PageChange, Unread
from fingerpost.course.comparison.doubt import Doubts
from fingerpost.course.comparison.moved import between_blocks
from fingerpost.course.comparison.options import option_facts
from fingerpost.course.comparison.places import Pair, key_of, places
from fingerpost.course.comparison.prose import Prose, file_changes, prose_changes
from fingerpost.course.comparison.reach import kept, reach
from fingerpost.course.comparison.step_difference import How
from fingerpost.course.comparison.unread import ids_of, unread_blocks, unread_changes
from fingerpost.course.model import Course
from fingerpost.course.settings import Settings


@dataclass(frozen=True)
class Side:
    """One of the two courses. pages and blocks: texts by file and by id, only to see which were written otherwise.

    doubts: where its blocks are in doubt. prose: what stands outside the blocks, by page. files: digests of the other
    files. settings_text: mkdocs.yml.
    """

    course: Course
    settings: Settings
    pages: Mapping[str, str]
    blocks: Mapping[str, str]
    doubts: Doubts = field(default_factory=dict)
    prose: Mapping[str, Prose] = field(default_factory=dict)
    files: Mapping[str, str] = field(default_factory=dict)
    settings_text: str = ""


def compare(before: Side, after: Side) -> Comparison:
    """Everything that differs. Findings are compared elsewhere."""
    old, new = placed_blocks(before.course, before.doubts), placed_blocks(after.course, after.doubts)
    renamed = _renamed_pages(before, after, old, new)
    pairs = pair_blocks(old, new, renamed)
    unread_then, unread_now = unread_blocks(before.course, renamed), unread_blocks(after.course, {})
    lost = (ids_of(unread_then), ids_of(unread_now))
    compared = _changes(before, after, old, pairs, renamed)
    changes = tuple(between_blocks([_read(change, lost) for change in compared]))
    pages = tuple(_pages(before.course, after.course, renamed, dict(after.settings.redirects)))
    ids = [placed.block.id for placed in (*old, *new)]
    unread = tuple(unread_changes(unread_then, unread_now, ids))
    settings = (before.settings, after.settings)
    index = index_change((before.course, after.course), changes)
    prose = tuple(prose_changes(before.prose, after.prose, renamed))
    reached = reach(changes, pages, unread, prose, index, settings)
    return Comparison(
        tuple(change for change in changes if change.musical or change.words),
        pages,
        tuple(option_facts(*settings)),
        tuple(_rewritten(before, after, changes, _told(pages, unread), renamed)),
        reached,
        kept(after.course, changes, reached, index, (len(unread_now), len(unread_now) - _lately(changes, unread))),
        unread,
        prose,
        tuple(file_changes(before.files, after.files)),
        before.settings_text != after.settings_text,
    )


def _told(pages: Iterable[PageChange], unread: Iterable[Unread]) -> Iterator[str]:
    yield from (page.after for page in pages if page.after is not None)
    yield from (block.file for block in unread)


def _lately(changes: Iterable[BlockChange], unread: Iterable[Unread]) -> int:
    """How many of the blocks that can't be made out are new, written otherwise, or could be made out before."""
    lost = sum(change.unreadable and change.after is None for change in changes)
    return lost + sum(block.how is not How.GONE for block in unread)


def _changes(
    before: Side, after: Side, old: Sequence[Placed], pairs: Sequence[Pair], renamed: Mapping[str, str]
) -> Iterator[BlockChange]:
    hands = (before.settings.hand, after.settings.hand)
    moved = places(old, pairs)
    for pair in pairs:
        ids = key_of(pair) or ("", "")
        same = before.blocks.get(ids[0], "") == after.blocks.get(ids[1], "")
        yield block_change(pair, renamed, hands, moved.get(key_of(pair)), same)


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
    return replace(change, steps=(), unreadable=True, uncompared=len(change.here.block.steps))


def _pages(
    before: Course, after: Course, renamed: Mapping[str, str], redirects: Mapping[str, str]
) -> Iterator[PageChange]:
    once = {renamed.get(lesson.file, lesson.file): lesson for lesson in before.lessons}
    for lesson in after.lessons:
        old = once.get(lesson.file)
        if old is None:
            yield PageChange(None, lesson.file, None, lesson.title)
        elif (old.file, old.title) != (lesson.file, lesson.title):
            yield PageChange(old.file, lesson.file, old.title, lesson.title, redirects.get(old.file))
    for file, lesson in once.items():
        if after.lesson(file) is None:
            yield PageChange(lesson.file, None, lesson.title, None, redirects.get(lesson.file))


def _rewritten(
    before: Side,
    after: Side,
    changes: Iterable[BlockChange],
    told_already: Iterable[str],
    renamed: Mapping[str, str],
) -> Iterator[str]:
    """Blocks whose text differs and nothing else, then pages of which only words outside the blocks differ."""
    told = set(told_already)
    for change in changes:
        ident = change.here.block.id
        if change.musical or change.words:
            told |= {placed.file for placed in (change.before, change.after) if placed is not None}
        elif before.blocks.get(ident) != after.blocks.get(ident):
            told.add(change.here.file)
            yield ident
    once = {renamed.get(file, file): text for file, text in before.pages.items()}
    for file, text in after.pages.items():
        if file not in told and once.get(file, text) != text:
            yield file
