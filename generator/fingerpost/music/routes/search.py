"""The shortest chain of one finger's moves between two grips, and of these the cheapest: an exact search.

The number of moves is tried from the bound upwards. Within it the cheapest way is sought by best-first search, and a
grip is passed over as soon as the moves left cannot lead to the target any more; so of the millions of grips only
those that lie between are ever looked at.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, field
from heapq import heappop, heappush

from fingerpost.music.routes.bound import Bound
from fingerpost.music.routes.hands import Grip, with_finger
from fingerpost.music.routes.neck import Neck
from fingerpost.music.routes.spots import bits
from fingerpost.music.routes.together import FINGERS

MOST_MOVES = 16
"""Up to here a route is sought; ten moves join any two shapes where no condition forbids it (five off, five on)."""
MOST_GRIPS = 30_000
"""So many grips are looked at before a search gives up: seconds, where a route mostly takes under a hundred grips."""
Allowed = Callable[[Grip], bool]


class SearchBoundError(Exception):
    """As many grips have been looked at as may be, and it is open whether there is a route."""


@dataclass
class Budget:
    """How many more grips may be looked at."""

    grips: int = MOST_GRIPS

    def spend(self) -> None:
        """Counts one. Raises SearchBoundError."""
        self.grips -= 1
        if self.grips < 0:
            raise SearchBoundError


@dataclass(frozen=True, slots=True)
class Chain:
    """Grips from the first to the last, each one finger's move from the one before, and the cost in thousandths."""

    grips: tuple[Grip, ...]
    cost: int

    @property
    def length(self) -> int:
        """How many moves."""
        return len(self.grips) - 1


def cheapest(
    neck: Neck,
    sources: Iterable[Grip],
    targets: Iterable[Grip],
    allowed: Allowed | None = None,
    fewest: int = 0,
    most: int = MOST_MOVES,
    budget: Budget | None = None,
    holding: Callable[[Grip], int] = lambda _: 0,
) -> Chain | None:
    """The best chain from one of the sources to one of the targets; None where there is none.

    Best is: the fewest moves, then the least cost, that of holding its two ends included, then by the grips, so that
    the choice never depends on chance. allowed: which grips may lie between; the sources and targets themselves are
    not asked about. fewest, most: bounds on the moves. holding: thousandths for choosing a source or a target.
    Raises SearchBoundError where the budget is spent before it is known.
    """
    starts, budget = sorted(set(sources)), budget or Budget()
    bounds = [Bound(neck, target) for target in sorted(set(targets))]
    nearest = [min((bound.at_a_glance(grip) for grip in starts), default=most + 1) for bound in bounds]
    for moves in range(max(fewest, min(nearest, default=most + 1)), most + 1):
        levels = [
            Level(bound, moves, allowed, budget, holding)
            for bound, near in zip(bounds, nearest, strict=True)
            if near <= moves
        ]
        found = _best(levels, starts)
        if found is not None or (len(levels) == len(bounds) and not any(level.cut for level in levels)):
            return found
    return None


def _best(levels: Iterable[Level], starts: list[Grip]) -> Chain | None:
    """The best of what the levels find, each one bounded by what those before it found."""
    best: tuple[int, tuple[Grip, ...], Chain] | None = None
    for level in levels:
        found = level.cheapest(starts, None if best is None else best[0])
        if found is not None and (best is None or (found[0], found[1].grips) < best[:2]):
            best = found[0], found[1].grips, found[1]
    return None if best is None else best[2]


@dataclass(eq=False)
class Level:
    """A search for chains of exactly so many moves to one target. cut: whether more moves could have led further."""

    bound: Bound
    moves: int
    allowed: Allowed | None
    budget: Budget
    holding: Callable[[Grip], int]
    cut: bool = False
    _came: dict[tuple[int, Grip], tuple[int, Grip | None]] = field(default_factory=dict)
    _heap: list[tuple[int, int, Grip, int]] = field(default_factory=list)

    def cheapest(self, starts: Iterable[Grip], most_cost: int | None) -> tuple[int, Chain] | None:
        """The cheapest chain, after its cost with that of holding its ends; None where none costs at most so much."""
        for grip in starts:
            if self.bound.at_a_glance(grip) <= self.moves:
                self._reach(0, grip, self.holding(grip), None)
            else:
                self.cut = True
        at_end = self.holding(self.bound.target)
        while self._heap:
            least, left, grip, cost = heappop(self._heap)
            if most_cost is not None and least + at_end > most_cost:
                return None
            if not left:
                grips = self._back(self.moves, grip)
                return cost + at_end, Chain(grips, cost - self.holding(grips[0]))
            if cost == self._came[self.moves - left, grip][0]:
                self.budget.spend()
                for after, points in self._onward(grip, left):
                    self._reach(self.moves - left + 1, after, cost + points, grip)
        return None

    def _reach(self, done: int, grip: Grip, cost: int, before: Grip | None) -> None:
        """Notes a grip that is reached, if the target can still be and no cheaper way to it is known."""
        least, points = self.bound.least(grip)
        left = self.moves - done
        if least > left or not (left or grip == self.bound.target):
            self.cut = self.cut or least > left
            return
        known = self._came.get((done, grip))
        if known is not None and known[0] <= cost:
            return
        if before is not None and left and not self._may_pass(grip):
            return
        self._came[done, grip] = cost, before
        heappush(self._heap, (cost + points, left, grip, cost))

    def _may_pass(self, grip: Grip) -> bool:
        return grip != self.bound.target and (self.allowed is None or self.allowed(grip))

    def _onward(self, grip: Grip, left: int) -> Iterator[tuple[Grip, int]]:
        """The moves that can be on a chain with so many moves left; the last one leads to the target."""
        neck, target = self.bound.neck, self.bound.target
        if left == 1:
            self.cut = True
            points = neck.step(grip, target)
            yield from () if points is None else ((target, points),)
            return
        shared = self._spots_of_target
        others = sum(grip[f] != target[f] for f in range(FINGERS)) - 1 - self.bound.exchanges(grip)
        for finger in neck.fingers:
            spare = left - 1 - (others + (grip[finger] == target[finger]))
            places = neck.places(grip, finger) & ~(1 << grip[finger])
            if spare < 1:
                self.cut = True
                places &= shared
            for spot in bits(places):
                after = neck.placed(grip, finger, spot)
                if after is not None:
                    yield after, neck.costs.row(grip[finger])[spot] + neck.costs.weak[finger] + neck.added(grip, after)
            yield from self._off(grip, finger)

    def _off(self, grip: Grip, finger: int) -> Iterator[tuple[Grip, int]]:
        neck = self.bound.neck
        if not grip[finger]:
            found = neck.taking_over(grip, finger)
        elif neck.lifts(grip, finger):
            found = [(with_finger(grip, finger, 0), neck.costs.row(grip[finger])[0] + neck.costs.weak[finger])]
        else:
            found = []
        for after, points in found:
            yield after, points + neck.added(grip, after)

    @property
    def _spots_of_target(self) -> int:
        return sum(1 << spot for spot in set(self.bound.target[:FINGERS]))

    def _back(self, done: int, grip: Grip) -> tuple[Grip, ...]:
        """The grips up to this one."""
        grips, before = [grip], self._came[done, grip][1]
        while before is not None:
            done -= 1
            grips.append(before)
            before = self._came[done, before][1]
        return tuple(reversed(grips))
