"""Routes are the shortest and of these the cheapest: equal to networkx on the same graph, pair by pair."""

from __future__ import annotations

import itertools
import random

import networkx as nx
import pytest
from fingerpost.music.move import apply_all
from fingerpost.music.neighbours import neighbours
from fingerpost.music.routes.bound import Bound
from fingerpost.music.routes.neck import Grip, Neck
from fingerpost.music.routes.route import route_of
from fingerpost.music.routes.search import Budget, Chain, SearchBoundError, cheapest
from fingerpost.music.shape_text import read_shape, write_shape

from .small_necks import LARGER, MOVE, NECKS, by_neck

WHOLE = Neck()


def weight(chain: Chain | None) -> int | None:
    """What a chain weighs in the graphs of networkx."""
    return None if chain is None else chain.length * MOVE + chain.cost


@pytest.mark.parametrize("name", NECKS)
def test_all_pairs_of_a_small_neck(name: str) -> None:
    neck = NECKS[name]
    graph = by_neck(neck)
    for source in graph:
        theirs = nx.single_source_dijkstra_path_length(graph, source)
        for target in graph:
            assert weight(cheapest(neck, [source], [target])) == theirs.get(target), (source, target)


def test_seeded_pairs_of_a_larger_neck() -> None:
    graph, draw = by_neck(LARGER), random.Random(5)
    grips = sorted(graph)
    assert len(grips) > 1000
    for source in draw.sample(grips, 12):
        theirs = nx.single_source_dijkstra_path_length(graph, source)
        for target in draw.sample(grips, 100):
            bound = Bound(LARGER, target)
            moves, points = divmod(theirs[target], MOVE)
            assert bound.at_a_glance(source) <= bound.least(source)[0] <= moves
            assert bound.least(source)[0] < moves or bound.least(source)[1] <= points
            assert weight(cheapest(LARGER, [source], [target])) == theirs[target], (source, target)


def test_from_several_to_several() -> None:
    graph, draw = by_neck(LARGER), random.Random(6)
    grips = sorted(graph)
    for _ in range(15):
        sources, targets = draw.sample(grips, 4), draw.sample(grips, 4)
        theirs = nx.multi_source_dijkstra_path_length(graph, set(sources))
        assert weight(cheapest(LARGER, sources, targets)) == min(theirs[target] for target in targets)


def test_through_allowed_grips_only() -> None:
    graph, draw = by_neck(LARGER), random.Random(7)
    grips = sorted(graph)
    for _ in range(25):
        source, target = draw.sample(grips, 2)
        kept = {grip for grip in grips if draw.random() < 0.5} | {source, target}
        part = graph.subgraph(kept)
        theirs = nx.single_source_dijkstra_path_length(part, source).get(target)
        assert weight(cheapest(LARGER, [source], [target], kept.__contains__)) == theirs


def test_the_last_move_may_say_what_is_struck() -> None:
    """Where the strings struck differ, each last move may be joined by a `strum`: reckoned from all grips before it."""
    graph, draw = by_neck(LARGER), random.Random(8)
    grips = sorted(graph)
    for _ in range(8):
        source, target = draw.sample(grips, 2)
        arrived: Grip = (*target[:5], 1 << 3)
        theirs = nx.single_source_dijkstra_path_length(graph, source)
        last = ((before, LARGER.step(before, arrived)) for before in grips)
        best = min(theirs[before] + MOVE + points for before, points in last if points is not None)
        assert weight(cheapest(LARGER, [source], [arrived])) == best


def test_on_the_whole_neck_two_moves_are_told_by_neighbours() -> None:
    """Twelve frets, bars, the thumb: the shapes two moves away as `music.neighbours` lists them, cheapest way first."""
    draw = random.Random(9)
    start = read_shape("x32010/-32-1-")
    hand, board = WHOLE.hand, WHOLE.fretboard
    one = {n.shape: round(1000 * n.cost) for n in neighbours(start, board, hand)}
    two: dict[object, int] = {}
    for shape in draw.sample(sorted(one, key=write_shape), 6):
        for neighbour in neighbours(shape, board, hand):
            if neighbour.shape != start and neighbour.shape not in one:
                cost = one[shape] + round(1000 * neighbour.cost)
                two[neighbour.shape] = min(cost, two.get(neighbour.shape, cost))
    source = WHOLE.grip(start)
    assert source is not None
    for shape, cost in draw.sample(sorted(two.items(), key=lambda item: write_shape(item[0])), 150):  # type: ignore[arg-type]
        target = WHOLE.grip(shape)  # type: ignore[arg-type]
        assert target is not None
        found = cheapest(WHOLE, [source], [target])
        assert found is not None
        assert (found.length, found.cost) <= (2, cost)
        assert found.length == 2


# What any player can retrace: the fingers that differ are moved one by one.
KNOWN = [
    ("x32010/-32-1-", "x02210/--231-", 1),
    ("x02210/--231-", "022100/-231--", 3),
    ("022000/-23---", "022100/-231--", 1),
    ("320003/21---3", "xx0232/---132", 3),
    ("022100/-231--", "020100/-2-1--", 1),
    ("133211/134211", "355433/134211", 5),  # 1 steps aside to fret 2 first: it can neither stay behind nor pass 2
    ("022000/-23---", "022000/-12---", 2),
    ("000000", "000000", 0),
]


@pytest.mark.parametrize(("before", "after", "moves"), KNOWN)
def test_well_known_changes(before: str, after: str, moves: int) -> None:
    grips = [WHOLE.grip(read_shape(text)) for text in (before, after)]
    assert None not in grips
    chain = cheapest(WHOLE, grips[:1], grips[1:])  # type: ignore[arg-type]
    assert chain is not None
    assert chain.length == moves


def test_a_route_can_be_played_as_it_is_written() -> None:
    draw = random.Random(10)
    texts = [case[0] for case in KNOWN] + [case[1] for case in KNOWN]
    for before, after in itertools.islice(itertools.permutations(draw.sample(texts, 8), 2), 30):
        grips = [WHOLE.grip(read_shape(text)) for text in (before, after)]
        chain = cheapest(WHOLE, grips[:1], grips[1:])  # type: ignore[arg-type]
        assert chain is not None
        route, shape = route_of(WHOLE, chain), read_shape(before)
        for step in route.steps:
            shape = apply_all(shape, step.moves)
            assert shape == step.shape
            assert WHOLE.hand.faults(shape, WHOLE.fretboard) == ()
        assert shape == read_shape(after) == route.end
        assert route.cost == pytest.approx(sum(step.cost for step in route.steps), abs=1e-9)


def test_no_more_is_looked_at_than_may_be() -> None:
    grips = [WHOLE.grip(read_shape(text)) for text in ("133211/134211", "355433/134211")]
    with pytest.raises(SearchBoundError):
        cheapest(WHOLE, grips[:1], grips[1:], budget=Budget(3))  # type: ignore[arg-type]


def test_bounds_on_the_moves() -> None:
    grips = [WHOLE.grip(read_shape(text)) for text in ("x32010/-32-1-", "x02210/--231-")]
    assert cheapest(WHOLE, grips[:1], grips[1:], most=0) is None  # type: ignore[arg-type]
    longer = cheapest(WHOLE, grips[:1], grips[1:], fewest=2)  # type: ignore[arg-type]
    assert longer is not None
    assert longer.length == 2
