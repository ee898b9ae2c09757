"""The map of a lesson and the curve: nothing lies on anything else, all is large enough, and the words say the same."""

from __future__ import annotations

from itertools import combinations, pairwise

from fingerpost.course.curve import Change, LessonLoad
from fingerpost.course.model import Course, Lesson, Naming
from fingerpost.course.settings import Settings
from fingerpost.course.way_map import Leg, Stop, WayMap
from fingerpost.music.chord_symbol import read
from fingerpost.music.fretboard import Fretboard
from fingerpost.music.hand import Hand, Limits
from fingerpost.music.shape import Shape
from fingerpost.render.course_map import course_map
from fingerpost.render.curve import Dot, curve
from fingerpost.render.hand_page import TABLES, about, how_difficulty_is_reckoned
from fingerpost.render.lesson_way import lesson_way
from fingerpost.render.look import Links, Look
from fingerpost.render.picture import Box, Circle, Diagram, Label, Lines, Polygon, Role
from fingerpost.render.way_layout import ROW, Bracket, layout
from fingerpost.render.way_map import way_diagram
from hypothesis import given, settings
from hypothesis import strategies as st

from .examples import NASTY, loosening
from .markup import Markup

LOOK = Look(links=Links(step=lambda lesson, block, step: f"{lesson}#{step}"))
NAMES = ("C", "Am7", "F#m7b5/A", "Bbmaj7#11", "Gsus4")


@st.composite
def ways(draw: st.DrawFn) -> WayMap:
    """A way with any legs between its stops."""
    count = draw(st.integers(2, 12))
    stops = tuple(
        Stop(("a.md", "b", f"s{n}"), Shape(6), Fretboard(), Naming(read(draw(st.sampled_from(NAMES)))),
             draw(st.integers(1, 3)), draw(st.booleans()))
        for n in range(count)
    )  # fmt: skip
    pairs = draw(st.sets(st.sampled_from(list(combinations(range(count), 2))), max_size=25))
    return WayMap(stops, tuple(Leg(one, other, draw(st.integers(0, 4))) for one, other in sorted(pairs)))


def _crosses(one: Bracket, other: Bracket) -> bool:
    """Whether their lines meet: the way out of one passes the lane of the other within its length."""
    passes = one.lane > other.lane and any(other.top <= y <= other.bottom for y in (one.top, one.bottom))
    along = one.lane == other.lane and one.top <= other.bottom and other.top <= one.bottom
    return passes or along


@settings(max_examples=60, deadline=None)
@given(ways())
def test_no_two_brackets_lie_on_one_another(way: WayMap) -> None:
    placed = layout(way)
    heights = [y for bracket in placed.brackets for y in (bracket.top, bracket.bottom)]
    assert len(set(heights)) == len(heights)
    for one, other in combinations(placed.brackets, 2):
        a, b = one.leg, other.leg
        assert not (one.lane == other.lane and (_crosses(one, other) or _crosses(other, one)))
        if {a.one, a.other} & {b.one, b.other} and not (a.one < b.one < a.other < b.other):
            shared = ({a.one, a.other} & {b.one, b.other}).pop()
            ends = [bracket.top if bracket.leg.one == shared else bracket.bottom for bracket in (one, other)]
            outer, inner = (0, 1) if one.lane > other.lane else (1, 0)
            within = (one, other)[inner]
            assert not within.top <= ends[outer] <= within.bottom
    for row, (stop, ends) in zip(placed.rows, _ends(way, placed.brackets), strict=True):
        assert row.bottom - row.top >= ROW
        assert all(abs(y - row.middle) <= row.stop / 2 for y in ends), stop


def _ends(way: WayMap, brackets: tuple[Bracket, ...]) -> list[tuple[int, list[float]]]:
    at = [(b.leg.one, b.top) for b in brackets] + [(b.leg.other, b.bottom) for b in brackets]
    return [(stop, [y for number, y in at if number == stop]) for stop in range(len(way.stops))]


@settings(max_examples=40, deadline=None)
@given(ways())
def test_a_map_fits_its_frame_and_can_be_read_and_pressed(way: WayMap) -> None:
    drawn = way_diagram(way, LOOK, "x")
    targets = [mark for link in drawn.linked for mark in link.marks if isinstance(mark, Box)]
    labels = [
        mark for mark in (*drawn.marks, *(m for link in drawn.linked for m in link.marks)) if isinstance(mark, Label)
    ]
    assert [link.address for link in drawn.linked] == [f"a.md#s{n}" for n in range(len(way.stops))]
    assert all(mark.size >= 15 for mark in labels)
    assert all(box.height >= ROW - 2 and box.width >= ROW - 2 for box in targets)
    assert all(one.y + one.height <= other.y for one, other in pairwise(targets))
    for x, y in _points(drawn):
        assert 0 <= x <= drawn.width
        assert 0 <= y <= drawn.height
    counts = [mark for mark in drawn.marks if isinstance(mark, Circle) and mark.role is Role.MAP_COUNT]
    assert len(counts) == sum(leg.fingers > 1 for leg in way.legs)
    stops = [m for m in drawn.marks if isinstance(m, Box)]
    for count in counts:
        for other in counts:
            assert count is other or abs(count.x - other.x) + abs(count.y - other.y) >= 2 * count.r
        for stop in stops:
            beside = count.x + count.r < stop.x or count.x - count.r > stop.x + stop.width
            assert beside or count.y + count.r <= stop.y or count.y - count.r >= stop.y + stop.height
        assert all(y + 0.1 < count.y - count.r or y - 0.1 > count.y + count.r for y in _levels(drawn))


def _points(drawn: Diagram) -> list[tuple[float, float]]:
    out: list[tuple[float, float]] = []
    for mark in drawn.marks:
        if isinstance(mark, Lines):
            out += [point for x1, y1, x2, y2 in mark.strokes for point in ((x1, y1), (x2, y2))]
        if isinstance(mark, Circle):
            out += [(mark.x - mark.r, mark.y - mark.r), (mark.x + mark.r, mark.y + mark.r)]
    return out


def _levels(drawn: Diagram) -> list[float]:
    """The heights at which brackets leave their stops."""
    roles = (Role.MAP_LINE, Role.MAP_MANY)
    strokes = [s for mark in drawn.marks if isinstance(mark, Lines) and mark.role in roles for s in mark.strokes]
    return [y1 for x1, y1, x2, y2 in strokes if y1 == y2]


def _lesson(**fields: object) -> Lesson:
    return Lesson("first.md", "The first", (loosening(**fields),))


def _load(lesson: Lesson, jump: bool = False) -> LessonLoad:
    block = lesson.blocks[0]
    before, step = block.steps[:2]
    change = Change(("first.md", block.id, step.id), before, step, block.fretboard, 1.25, jump)
    return LessonLoad("first.md", (change,))


def test_a_lesson_ends_with_its_map_and_the_figures_of_its_curve() -> None:
    lesson = _lesson()
    page = Markup(lesson_way(lesson, _load(lesson, jump=True), LOOK))
    assert len(page.named("svg")) == 2
    assert len(page.ids) == len(set(page.ids))
    links = [link["href"] for link in page.named("a")]
    assert links[0] == "first.md#tide--0"
    assert "One change is a jump." in " ".join(page.words)
    assert "1.2 " in page.words
    assert "jump" in page.words
    names = [text["data-name"] for text in page.named("text") if "data-name" in text]
    assert names[:2] == ["G", "Gadd9"]


def test_a_page_without_a_change_has_no_map() -> None:
    lesson = _lesson()
    assert lesson_way(Lesson("p.md", None, ()), None, LOOK) == ""
    assert lesson_way(lesson, None, LOOK) == ""


def test_titles_on_the_map_of_the_course_are_text() -> None:
    made = Course((Lesson("first.md", NASTY, (loosening(),)),))
    page = Markup(course_map(made, Settings(), LOOK).html)
    assert not page.named("script")
    assert len(page.named("svg")) == 2
    assert "teaches no chord" in course_map(Course(()), Settings(), LOOK).html


@settings(max_examples=40, deadline=None)
@given(st.lists(st.floats(0, 60), min_size=1, max_size=80))
def test_a_curve_keeps_its_dots_in_order_and_to_scale(points: list[float]) -> None:
    drawn = curve([Dot(one, jump=number % 3 == 1) for number, one in enumerate(points)], "change", "x", "y", "points")
    dots = [(m.x, m.y) for m in drawn.marks if isinstance(m, Circle)]
    jumps = [m.points for m in drawn.marks if isinstance(m, Polygon)]
    at = sorted([*dots, *((p[0][0], p[1][1]) for p in jumps)])
    assert len(jumps) == len(points[1::3])
    assert all(b[0] - a[0] >= 13.9 for a, b in pairwise(at))
    for (_, y1), (_, y2), p1, p2 in zip(at, at[1:], points, points[1:], strict=False):
        assert (y1 - y2) * (p1 - p2) <= 1e-6 or p1 == p2
    assert all(0 <= x <= drawn.width and 0 <= y <= drawn.height for x, y in at)
    assert all(mark.size >= 15 for mark in drawn.marks if isinstance(mark, Label))


def test_how_difficulty_is_reckoned_is_made_from_the_tables() -> None:
    page = Markup(how_difficulty_is_reckoned(Settings(), LOOK).html)
    hand = Hand()
    fields = [one for name in TABLES for one in type(getattr(hand, name)).__dataclass_fields__.values()]
    assert [about(one) for one in fields] == [w for w in page.words if w in {about(one) for one in fields}]
    text = " ".join(page.words)
    assert "standards.md" not in text
    assert "rule of thumb" in text
    assert "Every hand differs" in text
    assert "Pain is a reason to stop" in text
    assert {"href": "staying-unhurt.md"} in page.named("a")


def test_a_course_with_a_hand_of_its_own_says_what_is_usual() -> None:
    page = how_difficulty_is_reckoned(Settings(limits=Limits(span_frets=2, fingers=(1, 2, 3))), LOOK).html
    assert "2 (usually 3)" in page
    assert "1, 2 and 3 (usually 1, 2, 3 and 4)" in page
    assert page.count("(usually ") == 2
