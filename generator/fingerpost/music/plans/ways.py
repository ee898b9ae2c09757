"""The ways between the shapes that chords may be met in: first as bounds, exactly only where a search asks for it.

Between the dozens of shapes of a dozen chords lie tens of thousands of ways, of which a plan needs a few. So each way
begins as the least that it can be, and is searched for only when no plan that weighs less is left.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field

from fingerpost.music.plans.close_by import CloseBy
from fingerpost.music.plans.weight import NEVER, weight
from fingerpost.music.routes.bound import Bound
from fingerpost.music.routes.hands import Grip
from fingerpost.music.routes.neck import Neck
from fingerpost.music.routes.search import MOST_MOVES, Allowed, Budget, Chain, cheapest

Row = list[int]
_PATIENCE = 2
"""So many numbers of moves are tried one by one before a way is sought at any length."""


@dataclass(eq=False)
class Ways:
    """Weights of the ways between grips, by their index. holding: thousandths that holding each of them costs.

    A weight counts the moves; their cost and that of holding the grip that is reached; and by how much holding that
    one costs more than the one before.
    """

    neck: Neck
    grips: Sequence[Grip]
    allowed: Allowed | None
    budget: Budget
    holding: Sequence[int] = ()
    chains: dict[tuple[int, int], Chain] = field(default_factory=dict)
    _rows: dict[int, Row] = field(default_factory=dict)
    _least: dict[tuple[int, int], tuple[int, int]] = field(default_factory=dict)
    _tries: dict[tuple[int, int], int] = field(default_factory=dict)
    _bounds: list[Bound] = field(default_factory=list)

    def __post_init__(self) -> None:
        hand, board = self.neck.hand, self.neck.fretboard
        self.holding = [round(1000 * hand.cost(self.neck.shape(grip), board)) for grip in self.grips]
        self._bounds = [Bound(self.neck, grip) for grip in self.grips]
        self._close_by = CloseBy(self.neck, self.grips, self.allowed)

    def row(self, index: int) -> Row:
        """The weights from a grip to all of them, as far as they are known: each exact or too small."""
        if (known := self._rows.get(index)) is None:
            known = self._rows[index] = self._new_row(index)
        return known

    def settled(self, index: int, to: int) -> bool:
        """Whether a weight is exact."""
        return (index, to) in self.chains or self._rows[index][to] >= NEVER

    def settle(self, index: int, to: int) -> None:
        """Makes a weight exact, or larger by a move at least. Raises SearchBoundError."""
        row, key = self.row(index), (index, to)
        if self.settled(index, to):
            return
        moves, points = self._least[key]
        self._tries[key] = tried = self._tries.get(key, 0) + 1
        most = moves if tried <= _PATIENCE else MOST_MOVES
        ends = [self.grips[index]], [self.grips[to]]
        chain = cheapest(self.neck, *ends, self.allowed, moves, most, self.budget)
        if chain is not None:
            self.chains[key] = chain
            row[to] = self._weighed(index, to, chain.length, chain.cost)
        elif most == MOST_MOVES:
            row[to] = NEVER
        else:
            self._least[key] = moves + 1, points
            row[to] = self._weighed(index, to, moves + 1, points)

    def opening(self, index: int) -> int:
        """The weight of beginning with a grip: its fingers set down one by one, and held."""
        grip, costs = self.grips[index], self.neck.costs
        down = sum(costs.row(0)[spot] + costs.weak[finger] for finger, spot in enumerate(grip[:5]) if spot)
        reach = round(1000 * self.neck.hand.change_costs.stretch * self.neck.reach(grip))
        return weight(0, down + reach + self.holding[index], self.holding[index])

    def _new_row(self, index: int) -> Row:
        """All ways of up to two moves exactly; the others take three at least."""
        grip = self.grips[index]
        for to, chain in self._close_by.two_moves(grip).items():
            self.chains[index, to] = chain
        for to, points in self._close_by.one_move(grip).items():
            self.chains[index, to] = Chain((grip, self.grips[to]), points)
        for to, target in enumerate(self.grips):
            if grip == target:
                self.chains[index, to] = Chain((grip,), 0)
        return [self._first(index, to) for to in range(len(self.grips))]

    def _first(self, index: int, to: int) -> int:
        if (chain := self.chains.get((index, to))) is not None:
            return self._weighed(index, to, chain.length, chain.cost)
        moves, points = self._bounds[to].least(self.grips[index])
        self._least[index, to] = moves, points = max(moves, 3), points
        return self._weighed(index, to, moves, points)

    def _weighed(self, index: int, to: int, moves: int, points: int) -> int:
        return weight(moves, points + self.holding[to], max(0, self.holding[to] - self.holding[index]))


Opening = Callable[[int], int]
