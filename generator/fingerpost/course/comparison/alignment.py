"""Two sequences laid side by side so that the least has changed: what came and what went leaves the rest in place."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TypeVar

Item = TypeVar("Item")
Pair = tuple[int | None, int | None]

ALONE = 1.0
"""What it costs to leave an item without a partner; two items that cost more than twice this are never paired."""
MOST_CELLS = 250_000


def align(before: Sequence[Item], after: Sequence[Item], cost: Callable[[Item, Item], float]) -> tuple[Pair, ...]:
    """Pairs of positions in the order of both, None where an item has no partner; the cheapest such list.

    cost: 0 for equal items. Sequences of which even the part that differs is beyond all bounds are paired in order.
    """
    start = _common(before, after, cost)
    tail_before, tail_after = before[start:][::-1], after[start:][::-1]
    end = _common(tail_before, tail_after, cost)
    middle = _middle(tail_before[end:][::-1], tail_after[end:][::-1], cost)
    pairs: list[Pair] = [(index, index) for index in range(start)]
    pairs += [(None if i is None else i + start, None if j is None else j + start) for i, j in middle]
    pairs += [(len(before) - index, len(after) - index) for index in range(end, 0, -1)]
    return tuple(pairs)


def _common(before: Sequence[Item], after: Sequence[Item], cost: Callable[[Item, Item], float]) -> int:
    """How many items at the beginning are equal."""
    for index, (one, other) in enumerate(zip(before, after, strict=False)):
        if cost(one, other) > 0:
            return index
    return min(len(before), len(after))


def _middle(before: Sequence[Item], after: Sequence[Item], cost: Callable[[Item, Item], float]) -> list[Pair]:
    rows, columns = len(before), len(after)
    if rows * columns > MOST_CELLS:
        shared = min(rows, columns)
        return [*((i, i) for i in range(shared)), *((i, None) for i in range(shared, rows)),
                *((None, j) for j in range(shared, columns))]  # fmt: skip
    least = [[0.0] * (columns + 1) for _ in range(rows + 1)]
    for i in range(rows, -1, -1):
        for j in range(columns, -1, -1):
            least[i][j] = min(_ways_on(least, before, after, cost, i, j), default=0.0)
    return _traced(least, before, after, cost)


def _ways_on(
    least: list[list[float]],
    before: Sequence[Item],
    after: Sequence[Item],
    cost: Callable[[Item, Item], float],
    i: int,
    j: int,
) -> list[float]:
    """The costs from here to the end: by pairing, by leaving the one, by leaving the other, as far as there are."""
    out = []
    if i < len(before) and j < len(after):
        out.append(cost(before[i], after[j]) + least[i + 1][j + 1])
    if i < len(before):
        out.append(ALONE + least[i + 1][j])
    if j < len(after):
        out.append(ALONE + least[i][j + 1])
    return out


def _traced(
    least: list[list[float]], before: Sequence[Item], after: Sequence[Item], cost: Callable[[Item, Item], float]
) -> list[Pair]:
    out: list[Pair] = []
    i = j = 0
    while i < len(before) or j < len(after):
        if i < len(before) and j < len(after) and least[i][j] == cost(before[i], after[j]) + least[i + 1][j + 1]:
            out.append((i, j))
            i, j = i + 1, j + 1
        elif i < len(before) and least[i][j] == ALONE + least[i + 1][j]:
            out.append((i, None))
            i += 1
        else:
            out.append((None, j))
            j += 1
    return out
