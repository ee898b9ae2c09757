"""What plans are compared by, as one whole number: moves, then difficulty, then how much it climbs.

A lexicographic sum stays one number, so that a search can add and compare it like any other distance.
"""

from __future__ import annotations

_WIDTH = 28
"""Bits for thousandths of a point: 268,000 points, more than the longest plan can have."""
NEVER = 1 << 3 * _WIDTH
"""No way leads there: more than any plan weighs."""


def weight(moves: int, difficulty: int, climb: int) -> int:
    """One number of the three; difficulty and climb in thousandths of a point."""
    return moves << 2 * _WIDTH | difficulty << _WIDTH | climb


def parts(weighed: int) -> tuple[int, int, int]:
    """Moves, difficulty and climb of a weight or of a sum of weights."""
    low = (1 << _WIDTH) - 1
    return weighed >> 2 * _WIDTH, weighed >> _WIDTH & low, weighed & low
