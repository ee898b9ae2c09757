"""How many moves, and how many points, a hand needs at the least to come from one grip to another.

Each finger that lies elsewhere moves once at least. Two fingers that both slide or cross over directly go one after the
other, and the first to arrive must bear the other where it still was; where no order allows that, one of them has to
go through the air or by a third place, and moves twice. An exchange is two changes in one move. The bound never says
more than the truth, and mostly says the truth, which is what makes an exact search quick.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import cached_property, lru_cache
from itertools import combinations
from operator import ne

from fingerpost.music.routes.neck import STRUCK, Grip, Neck
from fingerpost.music.routes.together import FINGERS

Least = tuple[int, int]
"""Moves, and thousandths of a point."""


@dataclass(frozen=True, eq=False)
class Bound:
    """The least from any grip to one target, remembered grip by grip."""

    neck: Neck
    target: Grip
    _known: dict[Grip, Least] = field(default_factory=dict, repr=False)

    def at_a_glance(self, grip: Grip) -> int:
        """No more moves than `least` says, quickly told: fingers that lie elsewhere, less those that swap places."""
        elsewhere: int = sum(map(ne, grip[:FINGERS], self.target))
        if elsewhere < 2:
            return elsewhere or int(grip[STRUCK] != self.target[STRUCK])
        return elsewhere - min(elsewhere // 2, len(self._spots.intersection(grip[:FINGERS])))

    @cached_property
    def _spots(self) -> frozenset[int]:
        """Where the target has fingers."""
        return frozenset(self.target[:FINGERS]) - {0}

    def least(self, grip: Grip) -> Least:
        """Moves and thousandths that are needed at the least; (0, 0) for the target alone."""
        if (known := self._known.get(grip)) is None:
            known = self._known[grip] = self._reckoned(grip)
        return known

    def _reckoned(self, grip: Grip) -> Least:
        costs, target = self.neck.costs, self.target
        moves, points, over = 0, 0, []
        for finger in range(FINGERS):
            spot, to = grip[finger], target[finger]
            if spot == to:
                continue
            if spot and to:
                over.append(finger)
                continue
            moves += 1
            points += costs.least(finger, spot, to)
        if over:
            twice, extra = self._twice(grip, over)
            moves += len(over) + twice
            points += extra
        if moves > 1:
            moves = max(moves - self.exchanges(grip), self.at_a_glance(grip))
        if not moves and grip[STRUCK] != target[STRUCK]:
            return 1, costs.strum
        return moves, points + self._further(grip, moves)

    def exchanges(self, grip: Grip) -> int:
        """How many fingers could leave at no move of their own, another finger coming to stay where they were."""
        target = self.target
        return sum(
            1
            for finger in range(FINGERS)
            if grip[finger] and target[finger] != grip[finger] and grip[finger] in target[:FINGERS]
        )

    def _further(self, grip: Grip, moves: int) -> int:
        """What the hand must reach further by, in all; each move's share is rounded by itself."""
        neck = self.neck
        further = neck.reach(self.target) - neck.reach(grip)
        return max(0, int(1000 * neck.hand.change_costs.stretch * further) - moves - 1) if further > 0 else 0

    def _twice(self, grip: Grip, over: list[int]) -> tuple[int, int]:
        """How many of the fingers that go from spot to spot must move twice, and what all of them cost at the least."""
        costs, target = self.neck.costs, self.target
        once = [costs.least(f, grip[f], target[f]) for f in over]
        two = [costs.least_of_two(f, grip[f], target[f]) for f in over]
        count = len(over) - _most_in_order(len(over), self._before(grip, over)) if len(over) > 1 else 0
        more = sorted(b - a for a, b in zip(once, two, strict=True))
        return count, sum(once) + sum(more[:count])

    def _before(self, grip: Grip, over: list[int]) -> int:
        """Bit i * n + j: finger j must have left before finger i arrives."""
        hold, relation = self.neck.together.hold, self.neck.together.relation
        found, n = 0, len(over)
        for i, finger in enumerate(over):
            to = self.target[finger]
            for j, other in enumerate(over):
                if i != j and not hold[relation[finger][other]][grip[other]] >> to & 1:
                    found |= 1 << i * n + j
        return found


@lru_cache(maxsize=4096)
def _most_in_order(n: int, before: int) -> int:
    """The most of n fingers that can be put in an order that keeps every `before` among them."""
    return next(
        size
        for size in range(n, 0, -1)
        if any(_has_order(set(some), n, before) for some in combinations(range(n), size))
    )


def _has_order(left: set[int], n: int, before: int) -> bool:
    while left:
        free = {i for i in left if not any(before >> i * n + j & 1 for j in left)}
        if not free:
            return False
        left = left - free
    return True
