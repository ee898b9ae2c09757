"""Where blocks are taught: those that come after another block than before, seen so that the fewest have moved."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from fingerpost.course.comparison.alignment import align
from fingerpost.course.comparison.block_difference import Placed
from fingerpost.course.comparison.step_difference import Fact

Pair = tuple[Placed | None, Placed | None]
Key = tuple[str, str]
"""A block that is there on both sides: its ids before and after."""


def key_of(pair: Pair) -> Key | None:
    """How the block goes, None where it came or went."""
    return None if pair[0] is None or pair[1] is None else (pair[0].block.id, pair[1].block.id)


def places(old: Sequence[Placed], pairs: Sequence[Pair]) -> Mapping[Key | None, Fact]:
    """For the blocks that are taught in another place: after which block they come, before and now.

    A block that still comes after the same one has moved with it, and is not told.
    """
    keys = {id(pair[0]): key for pair in pairs if (key := key_of(pair)) is not None}
    once = [keys[id(placed)] for placed in old if id(placed) in keys]
    now = [key for pair in pairs if (key := key_of(pair)) is not None]
    paired = align(once, now, lambda one, other: 0.0 if one == other else 3.0)
    stays = {once[i] for i, j in paired if i is not None and j is not None and once[i] == now[j]}
    moved = [key for key in now if key not in stays and _before(once, key) != _before(now, key)]
    return {key: Fact("place", _after(_before(once, key), 0), _after(_before(now, key), 1)) for key in moved}


def _before(order: Sequence[Key], key: Key) -> Key | None:
    index = order.index(key)
    return order[index - 1] if index else None


def _after(before: Key | None, side: int) -> str:
    return f"after {before[side]}" if before else "first"
