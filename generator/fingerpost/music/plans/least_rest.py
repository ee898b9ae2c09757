"""The least that a plan still weighs once some chords have been met: dynamic programming over sets of chords.

Held and Karp 1962, for groups: of each chord one of its shapes is met. The table is as true as the weights are: where
some of them are bounds, so is what it says.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from itertools import compress
from operator import add
from typing import Protocol

from fingerpost.music.plans.weight import NEVER


class Weights(Protocol):
    """Weights between members that are bounds until they are settled."""

    def row(self, index: int) -> list[int]:
        """From one member to all, as far as known."""

    def settled(self, index: int, to: int) -> bool:
        """Whether one is exact."""

    def settle(self, index: int, to: int) -> None:
        """Makes one exact, or larger."""


@dataclass(eq=False)
class LeastRest:
    """Members by their place, group after group. last: the group that must be met at the end.

    tell: called often while the table is reckoned, with how much of it is done, from 0 to 1.

    rest: by the set of groups that have been met (bit n for group n) and the place of the member met last, the least
    still to come.
    """

    weights: Weights
    members: Sequence[int]
    groups: Sequence[range]
    last: int | None = None
    tell: Callable[[float], None] = lambda _: None

    def __post_init__(self) -> None:
        rows = map(self.weights.row, self.members)
        self.rows = [[row[to] for to in self.members] for row in rows]
        self.of = [number for number, group in enumerate(self.groups) for _ in group]
        self.full = (1 << len(self.groups)) - 1
        self.reckon()

    def reckon(self) -> None:
        """Works out `rest` from what the weights are known to be now."""
        count = len(self.members)
        self.rest = [[NEVER] * count for _ in range(self.full)] + [[0] * count]
        for met in range(self.full - 1, 0, -1):
            self.tell(1 - met / self.full)
            (free, onward), here = self._onward(met), self.rest[met]
            for number, group in enumerate(self.groups):
                if met >> number & 1:
                    for place in group:
                        here[place] = min(map(add, compress(self.rows[place], free), onward), default=NEVER)

    def _onward(self, met: int) -> tuple[list[bool], list[int]]:
        """By place: whether its group may be met next. Of these places: the least that is to come after going there."""
        free: list[bool] = []
        onward: list[int] = []
        for number, group in enumerate(self.groups):
            follows = self.may_follow(met, number)
            free += [follows] * len(group)
            if follows:
                onward += self.rest[met | 1 << number][group.start : group.stop]
        return free, onward

    def may_follow(self, met: int, to: int) -> bool:
        """Whether a group may be met next: it has not been, and the last one comes last."""
        return not met >> to & 1 and (to != self.last or met | 1 << to == self.full)

    def settled(self, place: int, to: int) -> bool:
        """Whether a weight is exact."""
        return self.weights.settled(self.members[place], self.members[to])

    def settle(self, place: int, to: int) -> None:
        """Makes a weight exact, or larger."""
        one, other = self.members[place], self.members[to]
        self.weights.settle(one, other)
        self.rows[place][to] = self.weights.row(one)[other]
