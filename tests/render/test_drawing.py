"""The picture as geometry: which mark stands where, that before and after are both seen, and how the neck is turned."""

from __future__ import annotations

import math

import pytest
from fingerpost.music.fretboard import Fretboard
from fingerpost.music.shape import Finger, Press, Shape
from fingerpost.music.shape_text import read_shape
from fingerpost.music.transition import transition
from fingerpost.music.tuning import NAMED
from fingerpost.render import marks
from fingerpost.render.drawing import draw
from fingerpost.render.layout import COLUMN, ROW, Facing, Layout
from fingerpost.render.picture import Box, Circle, Curve, Label, Lines, Mark, Picture, Polygon, Role
from fingerpost.render.window import window
from hypothesis import given, settings
from hypothesis import strategies as st

from .hands import changes, hands_on_necks

NECK = Fretboard()


def change(before: str, after: str, neck: Fretboard = NECK, facing: Facing = Facing()) -> Picture:  # noqa: B008
    old, new = read_shape(before, neck.strings), read_shape(after, neck.strings)
    return draw(new, neck, transition(old, new, neck), facing)


def having(picture: Picture, role: Role) -> list[Mark]:
    return [mark for mark in (*picture.neck, *picture.marks) if mark.role is role]


def numerals(picture: Picture, role: Role) -> list[str]:
    return [mark.text for mark in having(picture, role) if isinstance(mark, Label)]


def points(mark: Mark) -> list[tuple[float, float]]:
    match mark:
        case Lines():
            return [(x, y) for a, b, c, d in mark.strokes for x, y in ((a, b), (c, d))]
        case Circle():
            return [(mark.x - mark.r, mark.y - mark.r), (mark.x + mark.r, mark.y + mark.r)]
        case Box():
            return [(mark.x, mark.y), (mark.x + mark.width, mark.y + mark.height)]
        case Curve():
            return [mark.start, mark.end]
        case Polygon():
            return list(mark.points)
        case Label():
            return [(mark.x, mark.y)]


def test_what_stays_is_a_disc_and_what_arrives_a_square() -> None:
    picture = change("300003/2----3", "320003/21---3")
    assert numerals(picture, Role.NUMERAL) == ["2", "3"]
    assert all(isinstance(mark, Circle) for mark in having(picture, Role.STAYS))
    assert numerals(picture, Role.ARRIVES_NUMERAL) == ["1"]
    assert not having(picture, Role.WAS)


def test_an_arriving_finger_has_paper_between_its_fill_and_its_edge() -> None:
    picture = change("300003/2----3", "320003/21---3")
    (edge,), (fill,) = having(picture, Role.ARRIVES_EDGE), having(picture, Role.ARRIVES)
    assert isinstance(edge, Box)
    assert isinstance(fill, Box)
    assert edge.width == edge.height == 2 * marks.SQUARE
    assert (edge.width - fill.width) / 2 == marks.GAP >= 4


def test_a_lifted_finger_leaves_only_its_dashed_ring() -> None:
    picture = change("320003/21---3", "300003/2----3")
    (ring,) = having(picture, Role.WAS)
    layout = Layout(6, window((3, 2)))
    assert isinstance(ring, Circle)
    assert (ring.x, ring.y) == layout.place(5, 2)
    assert not having(picture, Role.TRAVEL)
    assert numerals(picture, Role.NUMERAL) == ["2", "3"]


@pytest.mark.parametrize(
    ("before", "after", "crossing"),
    [
        ("300003/2----3", "030003/-2---3", True),
        ("x32010/-32-1-", "x32020/-32-1-", False),
        ("x32010/-32-1-", "x32050/-32-4-", None),
    ],
)
def test_a_finger_that_travels_has_a_ring_an_arrow_and_a_square(before: str, after: str, crossing: bool | None) -> None:
    picture = change(before, after)
    arrows = having(picture, Role.TRAVEL)
    assert len(arrows) == len(having(picture, Role.TIP)) == (0 if crossing is None else 1)
    assert len(having(picture, Role.WAS)) == 1


@settings(max_examples=200, deadline=None)
@given(st.integers(1, 6), st.integers(1, 5), st.integers(1, 6), st.integers(1, 5))
def test_an_arrow_leaves_the_ring_reaches_the_square_and_has_room(s1: int, f1: int, s2: int, f2: int) -> None:
    before, after = (Shape(6, (Press(Finger.INDEX, fret, string, string),)) for string, fret in ((s1, f1), (s2, f2)))
    if before == after:
        return
    picture = draw(after, NECK, transition(before, after, NECK))
    layout = Layout(6, window((f1, f2)))
    start, end = layout.place(s1, f1), layout.place(s2, f2)
    (line,), (tip,) = having(picture, Role.TRAVEL), having(picture, Role.TIP)
    assert isinstance(line, Curve)
    assert isinstance(tip, Polygon)
    assert marks.RING < math.dist(line.start, start) < marks.RING + 4
    assert marks.SQUARE < math.dist(tip.points[0], end) < math.hypot(marks.SQUARE, marks.SQUARE)
    # Even between neighbours the drawn line is longer than the bare gap between the two marks.
    assert math.dist(line.start, line.c1) >= 16
    assert math.dist(line.end, end) < math.dist(line.start, end) or math.dist(start, end) > COLUMN


def test_a_bar_is_one_long_mark_with_its_numeral() -> None:
    picture = change("xx3211/--3211", "133211/134211")
    long = [mark for mark in having(picture, Role.ARRIVES_EDGE) if isinstance(mark, Box) and mark.width > 5 * COLUMN]
    assert len(long) == 1
    kept = change("133211/134211", "133211/134211")
    (disc,) = [mark for mark in having(kept, Role.STAYS) if isinstance(mark, Box)]
    assert disc.radius == marks.DISC
    assert numerals(kept, Role.NUMERAL).count("1") == 1


def test_a_hinge_keeps_its_mark_and_outlines_what_it_frees() -> None:
    picture = change("xx3211/--3211", "xx3210/--321-")
    assert numerals(picture, Role.NUMERAL).count("1") == 1
    assert len(having(picture, Role.FREED)) == 1
    assert not having(picture, Role.ARRIVES)
    assert not having(picture, Role.TRAVEL)


def test_an_exchange_sets_the_square_within_the_ring() -> None:
    picture = change("x02010/--2-1-", "x02010/--3-1-")
    (ring,), (edge,) = having(picture, Role.WAS), having(picture, Role.ARRIVES_EDGE)
    assert isinstance(ring, Circle)
    assert isinstance(edge, Box)
    assert ring.r > edge.width / 2


def test_a_finger_behind_another_is_small_and_hollow() -> None:
    shape = Shape(6, (Press(Finger.INDEX, 2, 4, 4), Press(Finger.RING, 4, 4, 4)))
    picture = draw(shape, NECK)
    assert numerals(picture, Role.BEHIND_NUMERAL) == ["1"]
    assert numerals(picture, Role.NUMERAL) == ["3"]


def test_a_finger_that_arrives_behind_another_is_square_and_hollow() -> None:
    ring = Press(Finger.RING, 4, 4, 4)
    before, after = Shape(6, (ring,)), Shape(6, (Press(Finger.INDEX, 2, 4, 4), ring))
    picture = draw(after, NECK, transition(before, after, NECK))
    (edge,) = having(picture, Role.ARRIVES_EDGE)
    assert isinstance(edge, Box)
    assert edge.width == 2 * marks.SMALL < 2 * marks.DISC
    assert not having(picture, Role.ARRIVES)
    assert numerals(picture, Role.BEHIND_NUMERAL) == ["1"]


def test_open_unstruck_and_damped_strings_have_three_different_signs() -> None:
    shape = Shape(6, (Press(Finger.MIDDLE, 3, 6, 6),), frozenset({1}), ((5, Finger.MIDDLE),))
    picture = draw(shape, NECK)
    assert len(having(picture, Role.OPEN)) == 3
    assert len(having(picture, Role.SILENT)) == 1
    assert any(isinstance(mark, Box) for mark in having(picture, Role.DAMPED))


def test_a_newly_open_string_is_underlined_at_the_nut() -> None:
    assert len(having(change("320003/21---3", "300003/2----3"), Role.NEW)) == 1
    assert not having(change("320003/21---3", "320003/21---3"), Role.NEW)


def test_the_nut_shows_only_where_the_neck_begins() -> None:
    assert having(draw(read_shape("x32010/-32-1-"), NECK), Role.NUT)
    high = draw(read_shape("x-7-9-9-8-7/-13421"), NECK)
    assert not having(high, Role.NUT)
    assert numerals(high, Role.FRET_NUMBER) == ["7", "8", "9", "10"]


def test_a_capo_lies_in_place_of_the_nut_and_says_its_fret() -> None:
    shape = read_shape("x32010/-32-1-")
    picture = draw(shape, Fretboard(capo=3), capo_name="capo 3")
    assert not having(picture, Role.NUT)
    assert numerals(picture, Role.CAPO_NAME) == ["capo 3"]
    assert numerals(picture, Role.FRET_NUMBER) == ["1", "2", "3", "4"]


@settings(max_examples=300, deadline=None)
@given(st.sets(st.integers(1, 24), min_size=1, max_size=6))
def test_every_fret_asked_for_is_in_the_window_and_at_least_four_are(frets: set[int]) -> None:
    shown = window(frets)
    assert frets <= set(shown.frets)
    assert len(shown.frets) >= 4
    assert list(shown.frets) == sorted(set(shown.frets))
    assert max(shown.frets) <= 24
    assert len(shown.parts) <= 2


def test_a_long_way_is_shown_in_two_pieces() -> None:
    assert window((1, 12)).parts == ((1, 2), (12, 13))
    assert window((2, 7)).parts == ((2, 7),)
    assert window((5,)).parts == ((1, 5),)
    assert window((24,)).parts == ((21, 24),)


@settings(max_examples=300, deadline=None)
@given(changes(), st.booleans(), st.booleans())
def test_everything_lies_within_the_picture(change: tuple[Shape, Shape, Fretboard], player: bool, left: bool) -> None:
    before, after, neck = change
    picture = draw(after, neck, transition(before, after, neck), Facing(player, left), "capo")
    for mark in (*picture.neck, *picture.marks):
        if mark.role in (Role.TRAVEL, Role.FREED):
            continue
        for x, y in points(mark):
            assert -8 <= x <= picture.width + 8, mark
            assert -8 <= y <= picture.height + 8, mark


@settings(max_examples=100, deadline=None)
@given(hands_on_necks())
def test_left_handed_is_the_mirror_and_the_players_view_a_quarter_turn(held: tuple[Shape, Fretboard]) -> None:
    shape, neck = held
    upright = draw(shape, neck)
    left = draw(shape, neck, facing=Facing(left_handed=True))
    player = draw(shape, neck, facing=Facing(player_view=True))
    labels = [[mark for mark in picture.marks if isinstance(mark, Label)] for picture in (upright, left, player)]
    for plain, mirrored, turned in zip(*labels, strict=True):
        assert plain.text == mirrored.text == turned.text
        assert (mirrored.x, mirrored.y) == pytest.approx((upright.width - plain.x, plain.y))
        assert (turned.x, turned.y) == pytest.approx((plain.y, upright.width - plain.x))
    assert (player.width, player.height) == (upright.height, upright.width)


def test_in_the_players_view_the_lowest_string_is_nearest_and_the_nut_to_the_left() -> None:
    layout = Layout(6, window((1,)), Facing(player_view=True))
    assert layout.place(6, 1)[1] > layout.place(1, 1)[1]
    assert layout.place(6, 1)[0] < layout.place(6, 2)[0]
    left = Layout(6, window((1,)), Facing(player_view=True, left_handed=True))
    assert left.place(6, 1)[1] > left.place(1, 1)[1]
    assert left.place(6, 1)[0] > left.place(6, 2)[0]


@pytest.mark.parametrize("name", ["ukulele", "standard", "seven strings"])
def test_numerals_are_at_least_nine_pixels_high_in_a_picture_150_pixels_wide(name: str) -> None:
    neck = Fretboard(NAMED[name])
    press = Press(Finger.MIDDLE, 3, 2, 2)
    shape = Shape(neck.strings, (press,))
    arrived = draw(shape, neck, transition(Shape(neck.strings), shape, neck))
    for picture in (draw(shape, neck), arrived):
        sizes = [mark.size for mark in (*picture.neck, *picture.marks) if isinstance(mark, Label)]
        # The size of a font is not the height of a digit; it is what a browser's style sheet would call its size.
        assert min(sizes) * 150 / picture.width >= (9 if neck.strings < 7 else 8)


def test_rows_are_as_far_apart_as_marks_are_wide() -> None:
    assert min(ROW, COLUMN) > 2 * marks.SQUARE + 3.5
