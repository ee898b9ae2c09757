"""A plan: an order and the shapes in which every chord that is wished for is met, one finger's move at a time.

The plan with the fewest moves; of these the least difficult; of these the one that climbs least. Difficulty is the
cost of all moves, of setting down the first shape, and of holding each shape in which a chord is met. Climbing is by
how much holding a chord costs more than the one before, summed up, the first one counted from nothing.

What is searched, and what a proof is about: the graph of hands of `routes.neck` on the window of frets, under the
limits and conditions asked for, with the shapes of `routes.chord_shapes` for each chord (or those given). Where the
best plan passes one of these shapes in other fingers, these fingers count for the chord too, and it is sought anew.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from contextlib import suppress
from dataclasses import dataclass, field, replace
from itertools import accumulate, pairwise

from fingerpost.music.plans.at_least import at_least
from fingerpost.music.plans.best_order import Order, Search
from fingerpost.music.plans.close_by import CloseBy
from fingerpost.music.plans.long_order import LongOrder
from fingerpost.music.plans.ways import Ways
from fingerpost.music.plans.weight import parts
from fingerpost.music.routes.hands import Grip
from fingerpost.music.routes.neck import Neck
from fingerpost.music.routes.question import Atlas, End, Question
from fingerpost.music.routes.route import RouteStep, route_of
from fingerpost.music.routes.search import Allowed, Budget, SearchBoundError
from fingerpost.music.shape import Shape

MOST_EXACT = 12
"""Up to so many chords the best plan is sought and proven."""
MOST_WORK = 1 << 29
"""Sets of chords, times pairs of shapes: what an exact search may come to."""
MOST_ROUNDS = 8
MOST_GRIPS = 80_000
MOST_KEPT = 240
"""So many shapes are looked at in a long plan, the easiest of each chord."""
MOST_CLOSE = 600


@dataclass(frozen=True, slots=True)
class PlanStep:
    """One step, and the number of the wished-for chord that it meets, by its place in the wish; None where passing."""

    step: RouteStep
    meets: int | None


@dataclass(frozen=True, slots=True)
class Plan:
    """order: the places of the chords in the wish, as they are met; the first by `start`. cost: points of all moves.

    difficulty, climb: what plans are compared by, in points. bound: no plan has fewer moves. proven: it is the best.
    """

    order: tuple[int, ...]
    start: Shape
    steps: tuple[PlanStep, ...]
    cost: float
    difficulty: float
    climb: float
    bound: int
    proven: bool

    @property
    def length(self) -> int:
        """How many moves."""
        return len(self.steps)


@dataclass(eq=False)
class Planning:
    """The search for a plan; stopped at any time, `plan` is the best so far. wish: chords or shapes, each once.

    started: the plan begins with the first of them. hardest: no shape costs more points to hold. tell: called often.
    """

    wish: Sequence[End]
    question: Question
    atlas: Atlas
    started: bool = False
    hardest: float | None = None
    tell: Callable[[Planning], None] = lambda _: None
    budget: Budget = field(default_factory=lambda: Budget(MOST_GRIPS))
    done: float = 0.0
    _before: Plan | None = None
    _order: Order | None = None
    _bound: int = 0
    _proven: bool = False

    def __post_init__(self) -> None:
        self.neck: Neck = self.atlas.neck(self.question)
        self.candidates = [self._grips(end) for end in self.wish]
        keeper = self.question.conditions.keeper(self.neck)
        self.allowed = not_harder(self.neck, keeper, self.hardest)
        self._look_among(self.candidates if self.exact else self._easiest())

    def _look_among(self, kept: Sequence[Sequence[Grip]]) -> None:
        self.ways = Ways(self.neck, [grip for group in kept for grip in group], self.allowed, self.budget)
        ends = list(accumulate(map(len, kept), initial=0))
        self.groups = [list(range(first, end)) for first, end in pairwise(ends)]

    @property
    def missing(self) -> tuple[End, ...]:
        """The chords that have no shape under these conditions; with any, there is no plan."""
        return tuple(end for end, group in zip(self.wish, self.candidates, strict=True) if not group)

    @property
    def exact(self) -> bool:
        """Whether the best plan is sought, so that it is proven when the search ends."""
        work = (1 << min(len(self.wish), 40)) * sum(map(len, self.candidates)) ** 2
        return len(self.wish) <= MOST_EXACT and work <= MOST_WORK

    def run(self) -> Plan | None:
        """The best plan, or a good one where there are too many chords; None where there is none, or none was found."""
        if self.missing:
            return None
        with suppress(SearchBoundError):
            self._run_exact() if self.exact else self._run_long()
        self.done = 1.0
        return self.plan

    @property
    def bound(self) -> int:
        """No plan has fewer moves."""
        return self._bound

    @property
    def impossible(self) -> bool:
        """Whether it is certain that there is no plan."""
        return bool(self.missing) or (self._proven and self._order is None)

    @property
    def plan(self) -> Plan | None:
        """The best plan so far."""
        found = None if self._order is None else self._told(self._order)
        if self._before is None or (found is not None and found.proven):
            return found
        before = replace(self._before, bound=min(self._bound, self._before.length))
        return min([before, *([found] if found else [])], key=lambda plan: (plan.length, plan.difficulty))

    def _grips(self, end: End) -> list[Grip]:
        grips = map(self.neck.grip, self.atlas.shapes(end, self.question))
        keeps = not_harder(self.neck, None, self.hardest)
        return sorted({grip for grip in grips if grip is not None and (keeps is None or keeps(grip))})

    def _run_exact(self) -> None:
        def told(search: Search) -> None:
            self._order, self._bound = search.best, parts(search.bound)[0]
            self.done = search.reckoned
            self.tell(self)

        for _ in range(MOST_ROUNDS):
            search = Search(self.ways, self.groups, self.ways.opening, 0 if self.started else None, None, told)
            self._order, self._proven = search.run(), True
            more = self._met_in_passing()
            if not any(more):
                return
            self._before = None if (found := self.plan) is None else replace(found, proven=False, bound=0)
            self._order, self._proven, self._bound = None, False, 0
            self.candidates = [sorted({*old, *new}) for old, new in zip(self.candidates, more, strict=True)]
            self._look_among(self.candidates)

    def _met_in_passing(self) -> list[set[Grip]]:
        """Of each chord: grips that the plan passes and that sound as one of its shapes does, in other fingers."""
        more: list[set[Grip]] = [set() for _ in self.wish]
        members = () if self._order is None else self._order.members
        passed = {grip for pair in pairwise(members) for grip in self.ways.chains[pair].grips[1:-1]}
        for end, group, new in zip(self.wish, self.candidates, more, strict=True):
            frets = {self.neck.frets(grip) for grip in group} if end.chosen else set()
            new |= {grip for grip in passed - set(group) if self.neck.frets(grip) in frets}
        return more

    def _run_long(self) -> None:
        def told(long: LongOrder, done: float) -> None:
            self._order, self.done = long.best, done
            self.tell(self)

        self._bound = at_least(self._apart())
        search = LongOrder(self.ways, self.groups, self.ways.opening, self.started, told)
        try:
            search.run()
        finally:
            self._order = search.best

    def _easiest(self) -> list[list[Grip]]:
        """The easiest shapes of each chord, as many as may be looked at."""
        each = max(1, MOST_KEPT // len(self.candidates))
        hand, board = self.neck.hand, self.neck.fretboard

        def holding(grip: Grip) -> tuple[float, Grip]:
            return hand.cost(self.neck.shape(grip), board), grip

        return [sorted(group, key=holding)[:each] for group in self.candidates]

    def _apart(self) -> list[list[int]]:
        """How many moves any two chords are apart at the least, whatever their shapes: exact up to two moves.

        Where there are very many shapes, up to one.
        """
        grips = [grip for group in self.candidates for grip in group]
        of = [number for number, group in enumerate(self.candidates) for _ in group]
        close, two = CloseBy(self.neck, grips, self.allowed), len(grips) <= MOST_CLOSE
        apart = [[3 if two else 2] * len(self.candidates) for _ in self.candidates]
        same: dict[Grip, list[int]] = {}
        for index, grip in enumerate(grips):
            same.setdefault(grip, []).append(index)
        for index, grip in enumerate(grips):
            self.tell(self)
            near = [(to, 2) for to in (close.two_moves(grip) if two else ())]
            near += [(to, 1) for to in close.one_move(grip)]
            near += [(to, 0) for to in same[grip]]
            for to, moves in near:
                for one, other in ((of[index], of[to]), (of[to], of[index])):
                    apart[one][other] = min(apart[one][other], moves)
        return apart

    def _told(self, order: Order) -> Plan:
        of = {index: number for number, group in enumerate(self.groups) for index in group}
        steps: list[PlanStep] = []
        for one, to in pairwise(order.members):
            route = route_of(self.neck, self.ways.chains[one, to])
            last = len(route.steps) - 1
            steps += [PlanStep(step, of[to] if n == last else None) for n, step in enumerate(route.steps)]
        _, difficulty, climb = parts(order.weight)
        return Plan(
            tuple(of[member] for member in order.members),
            self.neck.shape(self.ways.grips[order.members[0]]),
            tuple(steps),
            round(sum(step.step.cost for step in steps), 3),
            difficulty / 1000,
            climb / 1000,
            len(steps) if self._proven else min(self._bound, len(steps)),
            self._proven,
        )


def not_harder(neck: Neck, allowed: Allowed | None, hardest: float | None) -> Allowed | None:
    """Whether a grip is allowed and costs no more points to hold; None where all are."""
    if hardest is None:
        return allowed
    most, known = hardest, dict[Grip, bool]()

    def keeps(grip: Grip) -> bool:
        if allowed is not None and not allowed(grip):
            return False
        if grip not in known:
            known[grip] = neck.hand.cost(neck.shape(grip), neck.fretboard) <= most
        return known[grip]

    return keeps
