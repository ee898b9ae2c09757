"""A good order of many groups, where the best can't be proven: a first order, then stretch by stretch the best one.

First always to the nearest, then single stretches are moved to where they weigh less; then every few neighbouring
groups are put in their best order between what stands before and after them, by the exact search.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from fingerpost.music.plans.best_order import Order, Search
from fingerpost.music.plans.least_rest import Weights
from fingerpost.music.plans.weight import NEVER

STRETCH, APART = 6, 3
"""So many groups are put in order at a time, and so many further on the next stretch begins."""
LONGEST_MOVED, PASSES = 4, 8


@dataclass(eq=False)
class LongOrder:
    """groups: members by index into the weights, the first group first if `first`. best: the best order so far.

    tell: called often, with how much of the work is done, from 0 to 1.
    """

    weights: Weights
    groups: Sequence[Sequence[int]]
    opening: Callable[[int], int]
    first: bool
    tell: Callable[[LongOrder, float], None]
    best: Order | None = None

    def run(self) -> Order | None:
        """A good order, None where none was found. Raises what `settle` raises; best then still holds."""
        self.between = [self._between(group) for group in self.groups]
        order = self._moved(self._nearest())
        for members in self._members_along(order):
            self._keep(members)
        for start in range(0, len(self.groups), APART) if self.best is not None else ():
            self.tell(self, start / len(self.groups))
            self._keep(self._better(start))
        return self.best

    def _between(self, group: Sequence[int]) -> list[int]:
        self.tell(self, 0.0)
        rows = [self.weights.row(member) for member in group]
        return [min([row[to] for row in rows for to in other]) for other in self.groups]

    def _nearest(self) -> list[int]:
        """From the group that is easiest to begin with always on to the nearest."""
        easiest = sorted((self._begun(number), number) for number in range(len(self.groups)))
        order = [0 if self.first else easiest[0][1]]
        left = set(range(len(self.groups))) - set(order)
        while left:
            row = self.between[order[-1]]
            order.append(min(left, key=lambda number: (row[number], number)))
            left.remove(order[-1])
        return order

    def _moved(self, order: list[int]) -> list[int]:
        """Stretches of up to a few groups moved to where all weighs least, as long as that helps."""
        for _ in range(PASSES):
            before = list(order)
            for length in range(1, LONGEST_MOVED + 1):
                for start in range(int(self.first), len(order) - length + 1):
                    order = self._with_moved(order, start, length)
            if order == before:
                break
        return order

    def _with_moved(self, order: list[int], start: int, length: int) -> list[int]:
        moved, others = order[start : start + length], order[:start] + order[start + length :]
        if not others:
            return order

        def joined(place: int) -> int:
            before = (
                self.between[others[place - 1]][moved[0]] if place else self._begun(moved[0]) - self._begun(others[0])
            )
            after = self.between[moved[-1]][others[place]] if place < len(others) else 0
            instead = self.between[others[place - 1]][others[place]] if 0 < place < len(others) else 0
            return before + after - instead

        place = min(range(int(self.first), len(others) + 1), key=lambda place: (joined(place), place != start))
        return [*others[:place], *moved, *others[place:]]

    def _begun(self, number: int) -> int:
        """What it weighs at the least to begin with a group."""
        return min(map(self.opening, self.groups[number]))

    def _members_along(self, order: list[int]) -> Iterator[list[int]]:
        """The best member of each group in this order by the weights as they are known, made exact, and so again."""
        for _ in range(4):
            reached = {member: (self.opening(member), [member]) for member in self.groups[order[0]]}
            for number in order[1:]:
                reached = {
                    to: min((so_far + self.weights.row(m)[to], [*past, to]) for m, (so_far, past) in reached.items())
                    for to in self.groups[number]
                }
            weighed, members = min(reached.values())
            if weighed >= NEVER:
                return
            yield members

    def _keep(self, members: Sequence[int]) -> None:
        """Makes the weights of an order exact, and keeps it if it is better than what there is."""
        weighed = self.opening(members[0])
        for one, to in pairwise(members):
            self.weights.row(one)
            while not self.weights.settled(one, to):
                self.weights.settle(one, to)
            weighed += self.weights.row(one)[to]
        if weighed < (NEVER if self.best is None else self.best.weight):
            self.best = Order(weighed, tuple(members))

    def _better(self, start: int) -> tuple[int, ...]:
        """The best order with one stretch put anew between what stands before and after it."""
        assert self.best is not None
        members = self.best.members
        before, after = members[max(0, start - 1) : start], members[start + STRETCH : start + STRETCH + 1]
        stretch = [self._group_of(member) for member in members[start : start + STRETCH]]
        groups = [*([m] for m in before), *stretch, *([m] for m in after)]
        first = 0 if before or self.first else None
        search = Search(
            self.weights,
            groups,
            self.opening if not before else lambda _: 0,
            first,
            len(groups) - 1 if after else None,
        )
        found = search.run()
        if found is None:
            return members
        inner = found.members[len(before) : len(found.members) - len(after)]
        return (*members[:start], *inner, *members[start + STRETCH :])

    def _group_of(self, member: int) -> Sequence[int]:
        return next(group for group in self.groups if member in group)
