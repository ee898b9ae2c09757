"""The answer to a question for a route: the best one, and others that really differ from it.

A route really differs from one named before if it meets at most half of what that one meets on its way. What is met is
what sounds: the frets of each shape, whichever fingers press them, so that another fingering is no difference; ends
count where the question leaves them open. After one direct move between two given shapes, any longer way differs.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from functools import cached_property
from heapq import heappop, heappush

from fingerpost.music.plain_name import Frets
from fingerpost.music.routes.hands import Grip
from fingerpost.music.routes.neck import Neck
from fingerpost.music.routes.question import Atlas, End, Question
from fingerpost.music.routes.route import Route, route_of
from fingerpost.music.routes.search import MOST_MOVES, Budget, Chain, cheapest

Rank = tuple[int, int, tuple[Grip, ...]]
Entry = tuple[Rank, frozenset[Frets], int, Chain]


def best_route(question: Question, atlas: Atlas, budget: Budget | None = None) -> Route | None:
    """The shortest, then easiest route; None where there is none. Raises SearchBoundError."""
    return next(different_routes(question, atlas, budget), None)


def different_routes(question: Question, atlas: Atlas, budget: Budget | None = None) -> Iterator[Route]:
    """The best route, then the best of those that really differ from all before, and so on."""
    asked = Asked(question, atlas, budget or Budget())
    given: list[frozenset[Frets]] = []
    heap: list[Entry] = []
    seen: set[tuple[frozenset[Frets], int]] = set()

    def look(left_out: frozenset[Frets], fewest: int) -> None:
        if (left_out, fewest) not in seen:
            seen.add((left_out, fewest))
            chain = asked.best(left_out, fewest)
            if chain is not None:
                heappush(heap, (asked.rank(chain), left_out, fewest, chain))

    look(frozenset(), 0)
    while heap:
        _, left_out, fewest, chain = heappop(heap)
        met = asked.met(chain)
        same = next((before & met for before in given if 2 * len(before & met) > len(before)), None)
        if same is None:
            given.append(met)
            yield route_of(asked.neck, chain)
        if not met:  # a route that meets nothing can leave nothing out: only its moves can be more
            look(left_out, chain.length + 1)
        for frets in sorted(met if same is None else same, key=repr):
            look(left_out | {frets}, fewest)


@dataclass(frozen=True, eq=False)
class Asked:
    """A question with its graph: the search, with some sounds left out."""

    question: Question
    atlas: Atlas
    budget: Budget
    holds: dict[Grip, int] = field(default_factory=dict)

    @cached_property
    def neck(self) -> Neck:
        """The graph."""
        return self.atlas.neck(self.question)

    def best(self, left_out: frozenset[Frets], fewest: int) -> Chain | None:
        """The best chain of at least so many moves that meets none of these frets, ends that are given apart."""
        neck, asked = self.neck, self.question.conditions
        keeps = asked.keeper(neck)

        def allowed(grip: Grip) -> bool:
            return (not left_out or neck.frets(grip) not in left_out) and (keeps is None or keeps(grip))

        most = MOST_MOVES if asked.at_most is None else min(asked.at_most, MOST_MOVES)
        sources, targets = (self._grips(end, left_out) for end in (self.question.start, self.question.end))
        return cheapest(
            neck, sources, targets, allowed if left_out or keeps else None, fewest, most, self.budget, self._holding
        )

    def _grips(self, end: End, left_out: frozenset[Frets]) -> list[Grip]:
        shapes = self.atlas.shapes(end, self.question)
        grips = (self.neck.grip(shape) for shape in shapes if not (end.chosen and shape.frets in left_out))
        return [grip for grip in grips if grip is not None]

    def _holding(self, grip: Grip) -> int:
        if grip not in self.holds:
            points = self.neck.hand.cost(self.neck.shape(grip), self.neck.fretboard)
            self.holds[grip] = round(1000 * points)
        return self.holds[grip]

    def met(self, chain: Chain) -> frozenset[Frets]:
        """The frets of all shapes of a chain, but for ends that are given."""
        first, last = int(not self.question.start.chosen), len(chain.grips) - int(not self.question.end.chosen)
        return frozenset(self.neck.frets(grip) for grip in chain.grips[first:last])

    def rank(self, chain: Chain) -> Rank:
        """What chains are ordered by: moves, cost with that of holding the ends, then the grips."""
        ends = self._holding(chain.grips[0]) + self._holding(chain.grips[-1])
        return chain.length, chain.cost + ends, chain.grips
