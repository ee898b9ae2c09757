"""The best order of groups and the best member of each: an exact search, a generalised travelling salesman's path.

Best-first search over (groups met, member met last), guided by `least_rest`. Weights that are only bounds are made
exact when a plan that uses them comes first, so the plan that comes first with all its weights exact is the best.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field
from heapq import heappop, heappush
from itertools import pairwise

from fingerpost.music.plans.least_rest import LeastRest, Weights
from fingerpost.music.plans.weight import NEVER

State = tuple[int, int]
"""The set of groups met, and the place of the member met last."""
Beginnings = dict[State, tuple[int, tuple[int, ...]]]
"""By state: what it weighs to come there, and the places on the way."""
Entry = tuple[int, int, int, int, int, int]
"""What a plan through it weighs at the least; how many groups are left; the groups met, the place; what it weighs up
to there; the place before, or -1."""
WIDTH, ROUNDS = 12, 12
STALE = 250
"""After so many weights that were made exact, the least that is still to come is reckoned anew."""


@dataclass(frozen=True, slots=True)
class Order:
    """Members in the order in which they are met, one of each group, and what that weighs."""

    weight: int
    members: tuple[int, ...]


@dataclass(eq=False)
class Search:
    """A search for the best order. groups: the members of each, by index into the weights.

    opening: what it weighs to begin with a member. first, last: groups that must stand there. best: the best order so
    far. bound: no order weighs less. reckoned: how much of the table is done, from 0 to 1. tell: called often.
    """

    weights: Weights
    groups: Sequence[Sequence[int]]
    opening: Callable[[int], int]
    first: int | None = None
    last: int | None = None
    tell: Callable[[Search], None] = lambda _: None
    best: Order | None = None
    bound: int = 0
    reckoned: float = 0.0
    _came: dict[State, tuple[int, int]] = field(default_factory=dict)

    def run(self) -> Order | None:
        """The best order, None where there is none. Raises what `settle` raises; best and bound then still hold."""
        self._table = self._laid_out()
        self._guess()
        while not self._proven():
            self._table.reckon()
            self._guess()
        return self.best

    def _laid_out(self) -> LeastRest:
        members: list[int] = []
        groups: list[range] = []
        for group in self.groups:
            groups.append(range(len(members), len(members) + len(group)))
            members += group
        return LeastRest(self.weights, members, groups, self.last, self._reckoning)

    def _reckoning(self, done: float) -> None:
        self.reckoned = done
        self.tell(self)

    @property
    def _most(self) -> int:
        return NEVER if self.best is None else self.best.weight

    def _starts(self) -> Iterator[tuple[int, int, int]]:
        """What begins a plan: the set of its group, its place, what it weighs."""
        for number, group in enumerate(self._table.groups):
            if self.first in (None, number) and (number != self.last or len(self.groups) == 1):
                for place in group:
                    yield 1 << number, place, self.opening(self._table.members[place])

    def _proven(self) -> bool:
        """Best-first search, below what the best order so far weighs; False where the table has become stale."""
        self._came, heap, fresh = {}, list[Entry](), STALE
        table, full = self._table, self._table.full
        for met, place, opening in self._starts():
            self._push(heap, met, place, opening, -1)
        while heap:
            at_least, _, met, place, so_far, before = heappop(heap)
            self._raise_bound(at_least)
            if (met, place) in self._came or at_least >= self._most:
                continue
            if before >= 0 and not table.settled(before, place):
                if not fresh:
                    return False
                fresh -= 1
                table.settle(before, place)
                came = self._came[met ^ 1 << table.of[place], before][1]
                self._push(heap, met, place, came + table.rows[before][place], before)
                continue
            self._came[met, place] = before, so_far
            if met == full:
                self.best = self._order(so_far, self._back(met, place))
            else:
                self._expand(heap, met, place, so_far)
        if self.best is not None:
            self._raise_bound(self.best.weight)
        return True

    def _raise_bound(self, at_least: int) -> None:
        if self.bound < at_least < NEVER:
            self.bound = min(at_least, self._most)
        self.tell(self)

    def _expand(self, heap: list[Entry], met: int, place: int, so_far: int) -> None:
        table, row, came = self._table, self._table.rows[place], self._came
        most, left = self._most, (self._table.full ^ met).bit_count() - 1
        for number, group in enumerate(table.groups):
            if table.may_follow(met, number):
                after, rest = met | 1 << number, table.rest[met | 1 << number]
                for to in group:
                    at_least = so_far + row[to] + rest[to]
                    if at_least < most and (after, to) not in came:
                        heappush(heap, (at_least, left, after, to, so_far + row[to], place))

    def _push(self, heap: list[Entry], met: int, place: int, so_far: int, before: int) -> None:
        at_least = so_far + self._table.rest[met][place]
        if at_least < self._most:
            heappush(heap, (at_least, (self._table.full ^ met).bit_count(), met, place, so_far, before))

    def _back(self, met: int, place: int) -> tuple[int, ...]:
        places = [place]
        while (before := self._came[met, place][0]) >= 0:
            met, place = met ^ 1 << self._table.of[place], before
            places.append(place)
        return tuple(reversed(places))

    def _order(self, weight: int, places: Sequence[int]) -> Order:
        return Order(weight, tuple(self._table.members[place] for place in places))

    def _guess(self) -> None:
        """Looks for a better order: the likeliest few at each length, what the best uses made exact, and so again."""
        for _ in range(ROUNDS):
            found = self._likeliest()
            if found is None or found[0] >= self._most or self._made_exact(found[1]):
                return

    def _made_exact(self, places: Sequence[int]) -> bool:
        """Whether all weights of an order were exact; if not, they are now. It may be the best so far."""
        pairs, exact = list(pairwise(places)), True
        for pair in pairs:
            while not self._table.settled(*pair):
                self._table.settle(*pair)
                exact = False
        opening = self.opening(self._table.members[places[0]])
        weighed = opening + sum(self._table.rows[one][to] for one, to in pairs)
        if weighed < self._most:
            self.best = self._order(weighed, places)
            self.tell(self)
        return exact

    def _likeliest(self) -> tuple[int, tuple[int, ...]] | None:
        """A light order, the weights taken as they are known: at each length only so many beginnings are kept."""
        states: Beginnings = {(met, place): (opening, (place,)) for met, place, opening in self._starts()}
        for _ in range(len(self.groups) - 1):
            ranked = sorted(
                (so_far + self._table.rest[met][place], places, met, so_far)
                for (met, place), (so_far, places) in states.items()
            )
            states = self._longer([entry for entry in ranked[:WIDTH] if entry[0] < NEVER])
        return min(states.values(), default=None)

    def _longer(self, kept: Sequence[tuple[int, tuple[int, ...], int, int]]) -> Beginnings:
        after: Beginnings = {}
        for _, places, met, so_far in kept:
            row = self._table.rows[places[-1]]
            for number, group in enumerate(self._table.groups):
                if self._table.may_follow(met, number):
                    for to in group:
                        key, longer = (met | 1 << number, to), (so_far + row[to], (*places, to))
                        if longer[0] < NEVER and longer < after.get(key, (NEVER, ())):
                            after[key] = longer
        return after
