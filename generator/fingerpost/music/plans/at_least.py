"""How many moves any order of many chords needs at the least: spanning trees with prices.

Held and Karp 1970: an order of all chords is a spanning tree in which no chord has more than two neighbours. Chords
that have more in the lightest tree are priced up, those with fewer down, and the lightest tree is taken again; each
tree with its prices is a bound.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import ceil

ROUNDS = 80
_SLACK = 1e-6


def at_least(apart: Sequence[Sequence[int]]) -> int:
    """No order of all has less in sum than this. apart: how far any two are apart at the least, the same both ways."""
    count = len(apart)
    if count < 2:
        return 0
    prices, best, step = [0.0] * count, 0.0, 0.5
    for _ in range(ROUNDS):
        value, degrees = _tree(apart, prices)
        if value > best:
            best = value
        else:
            step *= 0.95
        if all(degree == 2 for degree in degrees):
            break
        prices = [price + step * (degree - 2) for price, degree in zip(prices, degrees, strict=True)]
    return ceil(best - _SLACK)


def _tree(apart: Sequence[Sequence[int]], prices: Sequence[float]) -> tuple[float, list[int]]:
    """The lightest spanning tree (Prim 1957) with both ends of an order joined to nowhere; its value, its degrees."""
    count = len(apart)
    degrees, value, here = [0] * count, -2 * sum(prices), 0
    left = {one: (apart[0][one] + prices[0] + prices[one], 0) for one in range(1, count)}
    while left:
        here, (weight, joined) = min(left.items(), key=lambda item: item[1][0])
        del left[here]
        value += weight
        degrees[here] += 1
        degrees[joined] += 1
        row, price = apart[here], prices[here]
        for one, (known, _) in left.items():
            new = row[one] + price + prices[one]
            if new < known:
                left[one] = new, here
    for end in sorted(range(count), key=lambda one: prices[one])[:2]:
        value += prices[end]
        degrees[end] += 1
    return value, degrees
