"""Ids that are no more: what linked to them, and a student's progress at them, finds nothing."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from fingerpost.course.comparison.block_difference import BlockChange, Placed
from fingerpost.course.comparison.difference import LostIds


def ids_before(changes: Iterable[BlockChange]) -> frozenset[str]:
    """All ids of blocks and steps that there were."""
    return frozenset(ident for change in changes if change.before for ident in _ids(change.before))


def ids_now(changes: Iterable[BlockChange]) -> frozenset[str]:
    """All that there are for certain."""
    return frozenset(ident for change in changes for ident in _certain(change))


def _certain(change: BlockChange) -> Iterator[str]:
    """The ids of a block; where some of its steps can't be compared, without those that are in doubt."""
    if change.after is not None:
        ids = list(_ids(change.after))
        yield from ids[: 1 + change.after.certain] if change.uncompared else ids


def lost_ids(changes: Iterable[BlockChange]) -> Iterator[LostIds]:
    """By block, the ids that are gone for good; a block with errors may yet have its own when they are put right."""
    listed = list(changes)
    now = ids_now(listed)
    for change in listed:
        if change.before is None or change.unreadable or change.uncompared:
            continue
        block = change.before.block
        steps = tuple(step.id for step in block.steps if step.id not in now)
        if steps or block.id not in now:
            yield LostIds(block.id, block.id not in now, steps, len(block.steps))


def _ids(placed: Placed) -> Iterator[str]:
    yield placed.block.id
    for step in placed.block.steps:
        yield step.id
