"""Plans on small necks against networkx: Dijkstra over (hand, chords met), which knows nothing of how we seek."""

from __future__ import annotations

import random
from itertools import pairwise

import networkx as nx
import pytest
from fingerpost.music import chord_symbol
from fingerpost.music.fretboard import Fretboard
from fingerpost.music.hand import Hand, Limits
from fingerpost.music.neighbours import neighbours
from fingerpost.music.plans.plan import Planning
from fingerpost.music.routes.conditions import Conditions
from fingerpost.music.routes.question import Atlas, End, Question
from fingerpost.music.routes.search import Budget
from fingerpost.music.tuning import parse_tuning

SMALL = Fretboard(parse_tuning("ukulele"))
TWO_FINGERS = Hand(limits=Limits(fingers=(1, 2, 3), thumb_strings=0, bar_strings=(1, 1, 1, 1)))
MOVE = 1 << 40
CHORDS = ["C", "Am", "F", "A", "C7", "Am7", "F6", "Dm", "G7", "A7", "Fmaj7", "G"]


def planning(names: list[str], conditions: Conditions | None = None, started: bool = False, **more) -> Planning:
    wish = [End(name, (), chord_symbol.read(name)) for name in names]
    asked = conditions or Conditions(position=(1, 3))
    question = Question(wish[0], wish[-1], SMALL, TWO_FINGERS, asked)
    return Planning(wish, question, Atlas(), started, **more)


def least(plan: Planning) -> tuple[int, int] | None:
    """Moves and difficulty of the best plan: the lightest walk from nowhere to all chords met."""
    neck, keeps = plan.neck, plan.question.conditions.keeper(plan.neck)
    grips = plan.ways.grips
    of = {index: number for number, group in enumerate(plan.groups) for index in group}
    graph, full = nx.DiGraph(), (1 << len(plan.groups)) - 1
    todo = []
    for index, grip in enumerate(grips):
        down = sum(neck.costs.row(0)[spot] + neck.costs.weak[f] for f, spot in enumerate(grip[:5]) if spot)
        reach = round(1000 * neck.hand.change_costs.stretch * neck.reach(grip))
        if not plan.started or of[index] == 0:
            todo.append((grip, 1 << of[index]))
            graph.add_edge("nowhere", todo[-1], weight=down + reach + plan.ways.holding[index])
    while todo:
        grip, met = state = todo.pop()
        after = [((to, met), MOVE + points) for to, points in neck.moves(grip) if keeps is None or keeps(to)]
        for index, to in enumerate(grips):
            now = met | 1 << of[index]
            points = 0 if to == grip else neck.step(grip, to)
            if now != met and points is not None:
                after.append(((to, now), MOVE * (to != grip) + points + plan.ways.holding[index]))
        for to, weight in after:
            if to not in graph:
                todo.append(to)
            if not graph.has_edge(state, to) or graph.edges[state, to]["weight"] > weight:
                graph.add_edge(state, to, weight=weight)
    reached = nx.single_source_dijkstra_path_length(graph, "nowhere")
    ends = [weight for state, weight in reached.items() if state != "nowhere" and state[1] == full]
    return divmod(min(ends), MOVE) if ends else None


CASES = [
    (random.Random(seed).sample(CHORDS, 3), seed % 2 == 1, asked)
    for seed, asked in enumerate(
        [Conditions(position=(1, 2))] * 5
        + [Conditions(position=(1, 3), named=True)] * 2
        + [Conditions(position=(1, 3))]
    )
]


@pytest.mark.parametrize(
    ("names", "started", "asked"), CASES, ids=lambda value: " ".join(value) if isinstance(value, list) else ""
)
def test_no_plan_is_better(names, started, asked):
    search = planning(names, asked, started)
    found, truth = search.run(), least(search)
    if truth is None:
        assert found is None
        assert search.impossible
        return
    assert found is not None
    assert found.proven
    assert (found.length, round(1000 * found.difficulty)) == truth
    assert found.bound == found.length


def test_each_step_is_one_that_neighbours_knows_and_each_chord_is_met():
    search = planning(["C", "Am", "F", "G7", "Dm"])
    found = search.run()
    shape, met = found.start, {found.order[0]}
    assert round(sum(step.step.cost for step in found.steps), 3) == found.cost
    for item in found.steps:
        ways = [n.shape.presses for n in neighbours(shape, SMALL, TWO_FINGERS)]
        assert item.step.shape.presses in [*ways, shape.presses]
        shape = item.step.shape
        if item.meets is not None:
            met.add(item.meets)
            grip = search.neck.grip(shape)
            assert grip in search.candidates[item.meets]
    assert met == set(range(5)) == set(found.order)


def test_difficulty_and_climb_are_what_they_say():
    search = planning(["C", "Am", "F", "G7"])
    found = search.run()
    cost = [search.neck.hand.cost(shape, SMALL) for shape in met_shapes(found)]
    climb = cost[0] + sum(max(0.0, b - a) for a, b in pairwise(cost))
    assert found.climb == pytest.approx(climb, abs=0.01)
    assert found.difficulty > found.cost + sum(cost)


def met_shapes(plan):
    yield plan.start
    yield from (item.step.shape for item in plan.steps if item.meets is not None)


def test_no_chord_is_passed_before_it_is_met():
    """A shape of a chord in other fingers counts for the chord."""
    for names in (["C", "Am", "F", "A7"], ["Dm", "F", "Am"], ["C7", "F", "A", "Dm"]):
        search = planning(names)
        found = search.run()
        shapes = [{search.neck.frets(grip) for grip in group} for group in search.candidates]
        left = set(range(len(names))) - {found.order[0]}
        for item in found.steps:
            passed = {number for number in left if item.step.shape.frets in shapes[number]}
            assert passed <= {item.meets}
            left -= {item.meets}


def test_a_long_plan_states_a_bound_that_is_true():
    missing = [end.text for end in planning(CHORDS).missing]
    names = [name for name in CHORDS if name not in missing][:8]
    best = planning(names).run()
    long = planning(names)
    long._run_long()
    found = long.plan
    assert best.proven
    assert not found.proven
    assert found.bound <= best.length <= found.length
    assert sorted(found.order) == list(range(len(names)))


def test_a_spent_budget_keeps_what_is_known():
    names = ["C", "Am", "F", "G7", "Dm", "Fmaj7", "A7"]
    best = planning(names).run()
    for grips in (0, 5, 40):
        found = planning(names, budget=Budget(grips)).run()
        assert found is None or (found.bound <= best.length <= found.length and (not found.proven or found == best))


def test_stopped_early_the_best_so_far_is_kept():
    stopped = planning(["C", "Am", "F", "G7", "Dm"])

    def stop(now):
        if now.plan is not None:
            raise KeyboardInterrupt

    stopped.tell = stop
    with pytest.raises(KeyboardInterrupt):
        stopped.run()
    found = stopped.plan
    assert not found.proven
    assert sorted(found.order) == list(range(5))
    assert found.bound <= planning(["C", "Am", "F", "G7", "Dm"]).run().length


def test_the_hardest_that_is_allowed_is_kept_to():
    free = planning(["C", "F", "Dm"]).run()
    most = max(TWO_FINGERS.cost(shape, SMALL) for shape in (free.start, *(s.step.shape for s in free.steps)))
    same = planning(["C", "F", "Dm"], hardest=most).run()
    assert same == free
    held = planning(["C", "F", "Dm"], hardest=most - 0.01)
    found = held.run()
    assert found is None or all(
        TWO_FINGERS.cost(shape, SMALL) < most for shape in (found.start, *(s.step.shape for s in found.steps))
    )
