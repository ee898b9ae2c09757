"""The best order of groups against trying them all, with weights that begin as bounds; and what many need at least."""

from __future__ import annotations

import random
from itertools import pairwise, permutations, product

import pytest
from fingerpost.music.plans.at_least import at_least
from fingerpost.music.plans.best_order import Search
from fingerpost.music.plans.long_order import LongOrder
from fingerpost.music.plans.weight import NEVER


class Bounds:
    """True weights, of which at first only something smaller is known."""

    def __init__(self, draw: random.Random, size: int, gone: float) -> None:
        self.true = [[NEVER if draw.random() < gone else draw.randint(5, 60) for _ in range(size)] for _ in range(size)]
        self.known = [[draw.randint(0, min(weight, 60)) for weight in row] for row in self.true]
        self.settlings = 0

    def row(self, index: int) -> list[int]:
        return self.known[index]

    def settled(self, index: int, to: int) -> bool:
        return self.known[index][to] == self.true[index][to]

    def settle(self, index: int, to: int) -> None:
        self.settlings += 1
        self.known[index][to] = min(self.known[index][to] + 9, self.true[index][to])
        if self.known[index][to] > 60:
            self.known[index][to] = self.true[index][to]


def tried(bounds: Bounds, groups: list[list[int]], opening: list[int], first: int | None, last: int | None) -> int:
    """The least weight of all orders, by trying every one."""
    best = NEVER
    for order in permutations(range(len(groups))):
        if first not in (None, order[0]) or last not in (None, order[-1]):
            continue
        for members in product(*(groups[number] for number in order)):
            weight = opening[members[0]] + sum(bounds.true[one][to] for one, to in pairwise(members))
            best = min(best, weight)
    return best


def case(seed: int) -> tuple[Bounds, list[list[int]], list[int]]:
    draw = random.Random(seed)
    sizes = [draw.randint(1, 3) for _ in range(draw.randint(1, 5))]
    groups = [list(range(sum(sizes[:n]), sum(sizes[: n + 1]))) for n in range(len(sizes))]
    bounds = Bounds(draw, sum(sizes), draw.choice((0.0, 0.3)))
    return bounds, groups, [draw.randint(0, 40) for _ in range(sum(sizes))]


@pytest.mark.parametrize("ends", [(None, None), (0, None), (None, -1), (0, -1)])
def test_equal_to_trying_every_order(ends):
    none = 0
    for seed in range(60):
        bounds, groups, opening = case(seed)
        first, last = ends[0], len(groups) - 1 if ends[1] and len(groups) > 1 else None
        search = Search(bounds, groups, opening.__getitem__, first, last)
        found, truth = search.run(), tried(bounds, groups, opening, first, last)
        if found is None:
            assert truth >= NEVER
            none += 1
            continue
        assert found.weight == truth == search.bound
        assert sorted(n for m in found.members for n, group in enumerate(groups) if m in group) == list(
            range(len(groups))
        )
        assert opening[found.members[0]] + sum(bounds.true[a][b] for a, b in pairwise(found.members)) == truth
    assert none < 30


def test_what_is_known_at_any_time_is_true():
    for seed in range(20):
        bounds, groups, opening = case(seed)
        truth, said = tried(bounds, groups, opening, None, None), []
        Search(bounds, groups, opening.__getitem__, tell=lambda s, said=said: said.append((s.bound, s.best))).run()
        assert all(bound <= truth for bound, _ in said)
        assert all(best is None or best.weight >= truth for _, best in said)


def test_a_long_order_is_whole_and_weighs_what_it_says():
    for seed in range(20):
        bounds, groups, opening = case(seed)
        found = LongOrder(bounds, groups, opening.__getitem__, seed % 2 == 0, lambda *_: None).run()
        if found is not None:
            truth = opening[found.members[0]] + sum(bounds.true[a][b] for a, b in pairwise(found.members))
            assert found.weight == truth >= tried(bounds, groups, opening, 0 if seed % 2 == 0 else None, None)
            assert len(found.members) == len(groups)
            assert seed % 2 or found.members[0] in groups[0]


def test_at_least_is_never_too_much_and_often_enough():
    tight = 0
    for seed in range(60):
        draw = random.Random(seed)
        count = draw.randint(1, 7)
        apart = [[0] * count for _ in range(count)]
        for one, other in product(range(count), repeat=2):
            apart[one][other] = apart[other][one] = draw.randint(0, 3)
        truth = min(sum(apart[a][b] for a, b in pairwise(order)) for order in permutations(range(count)))
        assert at_least(apart) <= truth
        tight += at_least(apart) == truth
    assert tight > 45
