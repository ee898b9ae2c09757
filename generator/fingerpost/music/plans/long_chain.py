"""A long chain of chords, no two the same, each one finger's move from the one before.

All chains are grown together, chord by chord; of those that have met the same chords and end on the same shape only
the cheapest is kept. As long as none but these is dropped, the search is exact: it finds the longest chain up to the
length that was asked for, and the cheapest of that length. Where there are too many, the most promising are kept.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from heapq import nsmallest

from fingerpost.music.plans.chord_graph import ChordGraph
from fingerpost.music.routes.hands import Grip
from fingerpost.music.routes.search import Chain

State = tuple[int, Grip]
"""The set of chords met, and the grip held last."""
Grown = dict[State, tuple[int, tuple[Grip, ...]]]
"""By state: thousandths so far, and all grips."""

Item = tuple[State, tuple[int, tuple[Grip, ...]]]
Promise = Callable[[ChordGraph, Item], tuple[object, ...]]
"""By what beginnings are ranked where not all can be kept: the smallest first."""


@dataclass(frozen=True, slots=True)
class Bounds:
    """How far the search goes. states: beginnings followed at a time. grips: walked on from, in all.

    narrow: beginnings that are followed at a time beyond that.
    """

    states: int = 3000
    grips: int = 500
    narrow: int = 30


@dataclass(frozen=True, slots=True)
class LongChain:
    """chain: one grip a chord. bound: no chain has more chords, or so many were asked for. exact: none was dropped.

    Where the search was exact, it is the cheapest of its length.
    """

    chain: Chain
    bound: int
    exact: bool

    @property
    def chords(self) -> int:
        """How many chords."""
        return len(self.chain.grips)

    @property
    def proven(self) -> bool:
        """Whether no chain up to the length that was asked for is longer."""
        return self.chords == self.bound


def longest(
    graph: ChordGraph,
    starts: Sequence[Grip],
    length: int,
    begins: bool = True,
    limits: Bounds | None = None,
    tell: Callable[[int, LongChain], None] = lambda *_: None,
) -> LongChain | None:
    """The longest chain of up to so many chords that begins with one of these grips; None where none can begin.

    begins: whether the starts were asked for, or are only where to look from. tell: called after each chord.
    """
    starts, limits = sorted({grip for grip in starts if graph.chord(grip) is not None}), limits or Bounds()
    if not starts:
        return None
    found: list[LongChain] = []
    for promise in (_cheap, _few_ways_on):
        best = _grown(graph, starts, length, limits, promise, tell)
        if best.exact or best.chords == length:
            return LongChain(best.chain, best.chords, best.exact)
        found.append(best)
    best = max(found, key=lambda one: (one.chords, -one.chain.cost))
    most = graph.most_chords(starts, begins, limits.grips)
    return LongChain(best.chain, length if most is None else max(best.chords, min(length, most)), False)


def _grown(
    graph: ChordGraph,
    starts: Sequence[Grip],
    length: int,
    limits: Bounds,
    promise: Promise,
    tell: Callable[[int, LongChain], None],
) -> LongChain:
    grown: Grown = {(1 << (graph.chord(grip) or 0), grip): (0, (grip,)) for grip in starts}
    best, exact = _best(grown), True
    for count in range(1, length):
        tell(count, LongChain(best, length, exact))
        kept = _kept(graph, grown, limits, promise)
        exact = exact and len(kept) == len(grown)
        grown = _longer(graph, kept)
        if not grown:
            break
        best = _best(grown)
    return LongChain(best, length, exact)


def _kept(graph: ChordGraph, grown: Grown, limits: Bounds, promise: Promise) -> list[Item]:
    """The beginnings that are followed further: all of them, if there are few, and few grips were walked on from."""
    ranked = sorted(grown.items(), key=lambda item: item[1])
    kept = [item for item in ranked[: limits.states] if graph.walk_on(item[0][1], limits.grips)]
    if len(kept) == len(ranked):
        return kept
    known = {item[0] for item in kept}
    further = [item for item in ranked[: limits.narrow * 4] if item[0] not in known]
    return [*kept, *nsmallest(limits.narrow, further, key=lambda item: promise(graph, item))]


def _best(grown: Grown) -> Chain:
    cost, grips = min(grown.values())
    return Chain(grips, cost)


def _longer(graph: ChordGraph, kept: Sequence[Item]) -> Grown:
    after: Grown = {}
    for (met, grip), (so_far, grips) in kept:
        for to, chord, points in graph.onward(grip):
            if not met >> chord & 1:
                key, longer = (met | 1 << chord, to), (so_far + points, (*grips, to))
                if key not in after or longer < after[key]:
                    after[key] = longer
    return after


def _cheap(graph: ChordGraph, item: Item) -> tuple[object, ...]:
    return item[1]


def _few_ways_on(graph: ChordGraph, item: Item) -> tuple[object, ...]:
    """Those first that still have a way on, but few: what has few ways is not left for later."""
    ways = len(set(_unmet(graph, item)))
    return (not ways, ways, *item[1])


def _unmet(graph: ChordGraph, item: Item) -> Iterator[int]:
    """The chords to come next; numbered from 1, so that each counts as true."""
    (met, grip), _ = item
    return (chord + 1 for _, chord, _ in graph.onward(grip) if not met >> chord & 1)
