"""Chains on small necks against going every way there is."""

from __future__ import annotations

import pytest
from fingerpost.music import chord_symbol
from fingerpost.music.fretboard import Fretboard
from fingerpost.music.hand import Hand, Limits
from fingerpost.music.key import Key
from fingerpost.music.plain_name import plain_name
from fingerpost.music.plans.chord_graph import ChordGraph
from fingerpost.music.plans.long_chain import Bounds, longest
from fingerpost.music.routes.conditions import Conditions
from fingerpost.music.routes.question import Atlas, End, Question
from fingerpost.music.tuning import parse_tuning

SMALL = Fretboard(parse_tuning("ukulele"))
HAND = Hand(limits=Limits(fingers=(1, 2), thumb_strings=0, bar_strings=(1, 1, 1, 1)))


def graph(start: str, **asked):
    conditions = Conditions(position=(1, 2), **asked)
    end = End(start, (), chord_symbol.read(start))
    question, atlas = Question(end, end, SMALL, HAND, conditions), Atlas()
    neck = atlas.neck(question)
    grips = [grip for shape in atlas.shapes(end, question) if (grip := neck.grip(shape)) is not None and not grip[5]]
    return ChordGraph(neck, conditions, 0), grips


def everywhere(neck, keeps, starts) -> dict[int, int]:
    """By how many chords: the least cost of a chain, by going on from every shape to every neighbour."""
    best: dict[int, int] = {}

    def chord(grip):
        name = plain_name(neck.frets(grip), SMALL)
        plain = name is not None and name.ranked.reading.usual <= 1.1
        return None if not plain else (name.chord.root.pitch_class, name.chord.kind, name.chord.degrees)

    def go(grip, met, cost):
        best[len(met)] = min(cost, best.get(len(met), cost))
        for after, points in neck.moves(grip):
            if after[5] == 0 and (keeps is None or keeps(after)) and chord(after) and chord(after) not in met:
                go(after, met | {chord(after)}, cost + points)

    for start in starts:
        go(start, {chord(start)}, 0)
    return best


@pytest.mark.parametrize(
    ("start", "asked"),
    [("Am", {"key": Key.parse("C")}), ("C7", {"key": Key.parse("F")}), ("F", {"key": Key.parse("Am")})],
    ids=["Am", "C7", "F"],
)
def test_equal_to_going_every_way(start, asked):
    small, starts = graph(start, **asked)
    truth = everywhere(small.neck, small.conditions.keeper(small.neck), starts)
    most = max(truth)
    assert most > 2
    found = longest(small, starts, 40)
    assert (found.chords, found.bound, found.exact, found.proven) == (most, most, True, True)
    assert found.chain.cost == truth[most]
    for length in range(1, most + 1):
        asked_for = longest(small, starts, length)
        assert (asked_for.chords, asked_for.chain.cost) == (length, truth[length])


def test_with_little_room_the_bound_is_still_true():
    small, starts = graph("Am", key=Key.parse("C"))
    truth = longest(small, starts, 40)
    for states in (1, 2, 5):
        again, _ = graph("Am", key=Key.parse("C"))
        found = longest(again, starts, 40, limits=Bounds(states=states, narrow=states))
        assert found.chords <= truth.chords <= found.bound <= 40


def test_no_chord_comes_twice_and_each_step_is_one_move():
    small, starts = graph("A")
    found = longest(small, starts, 7)
    chords = [small.chord(grip) for grip in found.chain.grips]
    assert len(set(chords)) == len(chords) == 7
    for before, after in zip(found.chain.grips, found.chain.grips[1:], strict=False):
        assert after in [grip for grip, _ in small.neck.moves(before)]


def test_nothing_can_begin_where_nothing_is_plain():
    small, _ = graph("A")
    assert longest(small, [], 4) is None
