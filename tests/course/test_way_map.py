"""The way through a lesson, what is one finger away, and how hard the changes are."""

from __future__ import annotations

from itertools import combinations

import pytest
from fingerpost.course.curve import loads
from fingerpost.course.next_shapes import EASY, one_finger_apart, taught_shapes, untaught_near
from fingerpost.course.settings import Settings
from fingerpost.course.way_map import WayMap, way_of, ways_of
from fingerpost.music.chord_symbol import read, write
from fingerpost.music.difficulty import difficulty
from fingerpost.music.fretboard import Fretboard
from fingerpost.music.hand import Hand, Limits
from fingerpost.music.neighbours import neighbours
from fingerpost.music.plain_name import plain_name
from fingerpost.music.shape_text import read_shape
from fingerpost.music.transition import transition
from hypothesis import given, settings
from hypothesis import strategies as st

from ..music.any_shape import playable
from .read_course import course

FIRST = """```moves
id: one
start: 1 B1, 2 D2, 3 A3, strum A-e = C
fingers_per_step: 3
steps:
- 1 off
- 1 to B1
- 3 off
- rest
- back
- 2 off and 1 off and 3 to E3
```
"""
SECOND = """```moves
id: two
start: 1 B1, 2 D2, 3 A3, strum A-e = C
steps:
- 2 off = Cadd9
- 2 to D2 = C
```
"""
NECK, HAND = Fretboard(), Hand()


def _legs(way: WayMap) -> list[tuple[int, int, int]]:
    return [(leg.one, leg.other, leg.fingers) for leg in way.legs]


def test_a_lesson_comes_by_each_shape_once_and_a_rest_is_no_change() -> None:
    made, _ = course(FIRST)
    way = way_of(made.lessons[0])
    steps = made.lessons[0].blocks[0].steps
    assert [stop.shape for stop in way.stops] == [steps[0].shape, steps[1].shape, steps[3].shape, steps[6].shape]
    assert [stop.place for stop in way.stops] == [("p1.md", "one", steps[n].id) for n in (0, 1, 3, 6)]
    assert [leg[:2] for leg in _legs(way)] == [(0, 1), (0, 2), (2, 3)]
    assert [leg[2] for leg in _legs(way)][:2] == [1, 1]
    assert _legs(way)[2][2] > 1


def test_a_shape_of_an_earlier_lesson_leads_back_to_where_it_was_first() -> None:
    made, found = course(SECOND.replace("two", "zero"), SECOND)
    assert [finding.message for finding in found] == []
    first, second = ways_of(made)
    assert [stop.met_before for stop in first.way.stops] == [False, False]
    assert [stop.met_before for stop in second.way.stops] == [True, True]
    assert [stop.place for stop in second.way.stops] == [stop.place for stop in first.way.stops]
    assert _legs(second.way) == [(0, 1, 1)]


def test_two_shapes_of_one_name_are_numbered() -> None:
    again = SECOND.replace("1 B1, 2 D2, 3 A3", "1 B1, 2 D2, 4 A3").replace("two", "three")
    made, _ = course(SECOND, again)
    numbered = [(write(s.naming.shown), s.version) for one in ways_of(made) for s in one.way.stops if s.naming.shown]
    assert numbered == [("C", 1), ("Cadd9", 1), ("C", 2), ("Cadd9", 2)]


@settings(max_examples=12, deadline=None)
@given(st.lists(playable(), min_size=2, max_size=8))
def test_one_finger_apart_is_what_the_transition_counts(shapes: list) -> None:  # type: ignore[type-arg]
    near = [found.shape for found in neighbours(shapes[0], NECK, HAND)[:6]]
    known = list(dict.fromkeys((shape, NECK) for shape in (*shapes, *near)))
    found = one_finger_apart(known)
    for one, other in combinations(known, 2):
        apart = transition(one[0], other[0], NECK).finger_count == 1
        assert (other in found[one]) == (one in found[other]) == apart


@pytest.mark.parametrize("text", ["x32010/-32-1-", "320003/32---4", "x02210/--231-", "133211/134211"])
def test_untaught_chords_are_the_easiest_neighbours_with_a_ready_name(text: str) -> None:
    """Against the plain list of neighbours, which reckons every cost."""
    shape, taught = read_shape(text), frozenset({read("Am7"), read("C")})
    found = untaught_near([(shape, NECK)], taught, HAND, 3)[shape, NECK]
    easiest: dict[str, float] = {}
    for near in neighbours(shape, NECK, HAND, highest_fret=4):
        name = plain_name(near.shape.frets, NECK)
        if (
            near.cost <= EASY
            and name
            and name.ranked.reading.usual <= 1
            and name.chord.bass is None
            and name.chord not in taught
        ):
            easiest.setdefault(write(name.chord), near.cost)
    assert [one.points for one in found] == pytest.approx(sorted(easiest.values())[:3], abs=0.002)
    for one in found:
        assert easiest[write(one.chord)] == pytest.approx(one.points, abs=0.002)
        assert transition(shape, one.shape, NECK).finger_count == 1


def test_nothing_is_near_a_shape_outside_the_hand() -> None:
    shape = read_shape("320003/32---4")
    three = Hand(Limits(fingers=(1, 2, 3)))
    assert untaught_near([(shape, NECK)], frozenset(), three, 2) == {(shape, NECK): ()}


def test_the_index_is_what_is_taught() -> None:
    made, _ = course(SECOND)
    assert [write(chord) for chord in taught_shapes(made).values()] == ["C", "Cadd9"]


LADDER = """```moves
id: hard
start: 1 B1, 2 D2, 3 A3, strum A-e = C
fingers_per_step: 3
steps:
{light}- 1 to E1-e1 and 2 to G2 and 4 to D3, strum E-e
```
"""


def test_the_curve_has_the_points_of_the_change_costs_and_marks_what_the_check_notes() -> None:
    hard = LADDER.format(light="- 2 off\n- 2 to D2\n" * 6)
    made, found = course(hard)
    (load,) = loads(made, Settings())
    block = made.lessons[0].blocks[0]
    assert len(load.changes) == 13
    for change in load.changes:
        assert change.step.transition is not None
        assert change.points == difficulty(change.step.transition, block.fretboard, HAND).total
    assert [change.jump for change in load.changes] == [False] * 12 + [True]
    assert [finding.code.value for finding in found].count("harder-step") == load.jumps == 1
    assert load.hardest is load.changes[-1]
    assert load.mean == pytest.approx(sum(change.points for change in load.changes) / 13)
    assert loads(made, Settings(harder_step=0))[0].jumps == 0
