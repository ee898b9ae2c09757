"""Which of some grips are within two moves of a grip, and what those ways cost: found by looking up, exactly."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field

from fingerpost.music.routes.hands import Grip
from fingerpost.music.routes.neck import Neck
from fingerpost.music.routes.search import Allowed, Chain
from fingerpost.music.routes.together import FINGERS

Key = tuple[int, tuple[int, ...]]


@dataclass(eq=False)
class CloseBy:
    """The grips by what all fingers but one press: what one move leads to shares one of these with where it began."""

    neck: Neck
    grips: Sequence[Grip]
    allowed: Allowed | None
    _by_key: dict[Key, list[int]] = field(default_factory=lambda: defaultdict(list))

    def __post_init__(self) -> None:
        for index, grip in enumerate(self.grips):
            for key in _keys(grip):
                self._by_key[key].append(index)

    def one_move(self, grip: Grip) -> dict[int, int]:
        """The grips that one move leads to, by index, with its cost in thousandths."""
        near = {index for key in _keys(grip) if key in self._by_key for index in self._by_key[key]}
        steps = ((index, self.neck.step(grip, self.grips[index])) for index in sorted(near))
        return {index: points for index, points in steps if points is not None}

    def two_moves(self, grip: Grip) -> dict[int, Chain]:
        """The grips that two moves lead to, by index, each by its cheapest chain."""
        found: dict[int, Chain] = {}
        for between, first in self.neck.moves(grip):
            for index, second in self.one_move(between).items():
                chain = Chain((grip, between, self.grips[index]), first + second)
                better = index not in found or _rank(chain) < _rank(found[index])
                if better and (self.allowed is None or self.allowed(between)):
                    found[index] = chain
        return found


def _rank(chain: Chain) -> tuple[int, tuple[Grip, ...]]:
    return chain.cost, chain.grips


def _keys(grip: Grip) -> Iterator[Key]:
    """By each finger, what the others press; and where any finger presses, which an exchange leaves as it is."""
    fingers = grip[:FINGERS]
    for finger in range(FINGERS):
        yield finger, fingers[:finger] + fingers[finger + 1 :]
    yield FINGERS, tuple(sorted(fingers))
