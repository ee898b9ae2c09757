"""What a route is asked to keep to, routes that really differ, and what has to give where there is none."""

from __future__ import annotations

import dataclasses
import itertools
from typing import Any

import pytest
from fingerpost.music import chord_symbol
from fingerpost.music.chord_fit import fit
from fingerpost.music.fretboard import Fretboard
from fingerpost.music.hand import Hand, Limits
from fingerpost.music.key import Key
from fingerpost.music.plain_name import heard, plain_name
from fingerpost.music.routes.answer import best_route, different_routes
from fingerpost.music.routes.chord_shapes import shapes_of
from fingerpost.music.routes.conditions import KEEPS, Conditions
from fingerpost.music.routes.nearest_chord import nearest_with_shape
from fingerpost.music.routes.question import Atlas, End, Question
from fingerpost.music.routes.relaxed import loosen, loosenable, loosened
from fingerpost.music.routes.route import Route
from fingerpost.music.shape_text import read_shape, write_shape
from fingerpost.music.tuning import parse_tuning

ATLAS = Atlas()


def end(text: str) -> End:
    """A shape with its fingers, or a chord."""
    if text[0] in "x0123456789":
        return End(text, (read_shape(text),))
    return End(text, (), chord_symbol.read(text))


def question(start: str, to: str, **asked: Any) -> Question:
    return Question(end(start), end(to), conditions=Conditions(**asked))


ASKED: list[dict[str, Any]] = [
    {},
    {"position": (1, 3)},
    {"named": True},
    {"no_bar": True},
    {"no_muted_inner": True},
    {"keep_ringing": frozenset({1, 2})},
    {"key": Key.parse("C")},
    {"named": True, "no_bar": True, "no_muted_inner": True, "position": (1, 4), "key": Key.parse("C")},
    {"avoid": (read_shape("x32010"),)},
    {"at_most": 3},
]


@pytest.mark.parametrize("asked", ASKED, ids=lambda asked: "-".join(asked) or "nothing")
def test_every_shape_keeps_to_what_is_asked(asked: dict[str, Any]) -> None:
    route = best_route(question("C", "F", **asked), ATLAS)
    assert route is not None
    conditions = Conditions(**asked)
    for shape in route.shapes:
        assert conditions.broken_by(shape, Fretboard()) == ()
        assert Hand().faults(shape, Fretboard()) == ()
        assert not conditions.named or plain_name(shape.frets, Fretboard()) is not None
        assert not conditions.no_bar or not any(press.is_bar for press in shape.presses)
    assert route.length <= (conditions.at_most or 99)
    assert route.length >= (best_route(question("C", "F"), ATLAS) or route).length


def test_every_condition_is_kept_by_some_shape_and_broken_by_another() -> None:
    asked = Conditions(
        position=(2, 5),
        named=True,
        no_bar=True,
        no_muted_inner=True,
        keep_ringing=frozenset({1}),
        key=Key.parse("G"),
        avoid=(read_shape("320003"), read_shape("xx0232/---132")),
        only=frozenset({read_shape("022000/-23---"), read_shape("xx0232/---142")}),
    )
    good = read_shape("022000/-23---")
    bad = {
        "position": "x32010/-32-1-",
        "named": "012340/-1234-",
        "no_bar": "022222/-11111",
        "no_muted_inner": "3x0003/2----3",
        "keep_ringing": "32000x/21----",
        "key": "x02220/--123-",
        "avoid": "320003/32---4",
        "only": "320003/32---4",
    }
    assert asked.broken_by(good, Fretboard()) == ()
    assert bad.keys() == KEEPS.keys()
    for name, text in bad.items():
        assert name in asked.broken_by(read_shape(text), Fretboard()), name
    assert "avoid" not in asked.broken_by(read_shape("xx0232/---142"), Fretboard())  # with fingers, only so


def test_a_chord_takes_the_nearest_shape_and_of_those_the_easiest() -> None:
    """Common practice: C to Am moves the ring finger, Em to E7 and G to G7 are neighbours."""
    route = best_route(question("C", "Am"), ATLAS)
    assert route is not None
    assert [write_shape(shape) for shape in route.shapes] == ["x32010/-32-1-", "x02210/--231-"]
    assert [step.text for step in route.steps] == ["3 to G2"]
    for start, to in (("Am", "C"), ("D", "Dsus4"), ("A", "A7"), ("Am", "Am7")):
        assert (best_route(question(start, to), ATLAS) or Route(read_shape("x"), (), 0)).length == 1


@pytest.mark.parametrize("symbol", "C Am F G7 Dm7 F/A E7#9 Bm7b5 Asus4 C13".split())
@pytest.mark.parametrize("tuning", ["standard", "DADGAD", "ukulele", "seven strings"])
def test_shapes_of_a_chord_are_that_chord(symbol: str, tuning: str) -> None:
    chord, board, hand = chord_symbol.read(symbol), Fretboard(parse_tuning(tuning)), Hand()
    for shape in shapes_of(chord, board, hand, 1, 4):
        midi = heard(shape.frets, board)
        assert fit(chord, {m % 12 for m in midi}, min(midi) % 12).holds
        assert hand.faults(shape, board) == ()
        assert shape.unstruck == frozenset(range(board.strings - len(shape.unstruck) + 1, board.strings + 1))


def test_routes_really_differ() -> None:
    for start, to in (("C", "G"), ("x32010/-32-1-", "320003/21---3"), ("x32010/-32-1-", "x02210/--231-")):
        routes = list(itertools.islice(different_routes(question(start, to), ATLAS), 4))
        assert len(routes) == 4
        assert [route.length for route in routes] == sorted(route.length for route in routes)
        chosen = start == "C"
        met = [{s.frets for s in (r.shapes if chosen else r.shapes[1:-1])} for r in routes]
        for before, after in itertools.combinations(met, 2):
            assert 2 * len(before & after) <= len(before)
        assert routes[0] == best_route(question(start, to), ATLAS)


@pytest.mark.parametrize(
    ("start", "to", "asked", "sets"),
    [
        ("x32010/-32-1-", "133211/134211", {"no_bar": True}, [("no_bar",)]),
        ("x32010/-32-1-", "x02210/--231-", {"at_most": 0}, [("at_most",)]),
        ("022000/-23---", "079900/-134--", {"position": (1, 4)}, [("position",)]),
        ("C", "Db", {"key": Key.parse("C")}, [("key",)]),
        ("x32010/-32-1-", "xx0232/---132", {"keep_ringing": frozenset({5}), "no_bar": True}, [("keep_ringing",)]),
        ("300001/1----2", "320003/21---3", {}, [("finger_order",)]),
        ("300007/1----4", "320003/21---3", {}, [("span_frets", "span_mm")]),
        ("133211/134211", "079900/-134--", {"position": (5, 9), "no_bar": True}, [("position", "no_bar")]),
        ("x32010/-32-1-", "133211/134211", {"at_most": 2}, [("at_most",)]),
    ],
)
def test_the_smallest_sets_that_would_have_to_give(
    start: str, to: str, asked: dict[str, Any], sets: list[tuple[str, ...]]
) -> None:
    of = question(start, to, **asked)
    assert best_route(of, ATLAS) is None
    found = loosen(of, ATLAS)
    assert found.settled
    assert [one.given_up for one in found.sets] == sets
    for one in found.sets:
        assert best_route(loosened(of, one.given_up), ATLAS) == one.route
        for smaller in itertools.combinations(one.given_up, len(one.given_up) - 1):
            assert best_route(loosened(of, smaller), ATLAS) is None


def test_everything_that_is_asked_can_give_and_the_hand_too() -> None:
    of = question("C", "G", **{k: v for asked in ASKED for k, v in asked.items()})
    names = loosenable(of)
    assert {field.name for field in dataclasses.fields(Conditions)} - {"only"} < set(names)
    assert {field.name for field in dataclasses.fields(Limits)} - {"damping_reach", "fingers"} < set(names)
    assert loosenable(loosened(of, names)) == ()


def test_the_nearest_chord_that_has_a_shape() -> None:
    """On four strings a thirteenth over its ninth has no room; what is offered is on the same root and has one."""
    board = Fretboard(parse_tuning("bass"))
    of = Question(end("C13/D"), end("C"), board)
    assert ATLAS.shapes(of.start, of) == ()
    assert of.start.chord is not None
    near = nearest_with_shape(of.start.chord, of)
    assert near is not None
    assert near.root == of.start.chord.root
    assert ATLAS.shapes(End("", (), near), of)
