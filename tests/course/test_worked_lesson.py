"""The worked block of the design, line by line: names, shapes, ids, the way back and round, the build-up."""

from __future__ import annotations

from itertools import permutations

from fingerpost.course.model import Block
from fingerpost.diagnostics import Code
from fingerpost.music.chord_symbol import read
from fingerpost.music.shape_text import write_shape

from .read_course import block, course, names

EARLIER = "```moves\nid: before\nstart: 320000/21---- = G6\nteaches: [G6]\nsteps:\n- hold\n```\n"
SLACK_WATER = """id: slack-water
title: Letting G loosen
start: 2 E3, 1 A2, 3 e3 = G
teaches: [G, Gadd9, G6/9]
steps:
- 1 off = Gadd9
- 1 to A2 = G
- 3 off = G6
- move: 1 off
  name: G6/9
  cue: 1:42
  say: Keep #2 down: let A and E ring open."""


def _slack_water(text: str = SLACK_WATER) -> Block:
    made, found = course(EARLIER, f"```moves\n{text}\n```\n")
    assert found == []
    return made.lessons[1].blocks[0]


def test_names_and_shapes() -> None:
    """Notes by hand, from string 6 up, standard tuning: G B D G B G; G A D G B G; G B D G B E; G A D G B E."""
    lesson = _slack_water()
    assert names(lesson) == ["G", "Gadd9", "G", "G6", "G6/9"]
    shapes = [write_shape(step.shape, fingers=False) for step in lesson.steps]
    assert shapes == ["320003", "300003", "320003", "320000", "300000"]
    notes = [" ".join(row.note or "-" for row in step.table) for step in lesson.steps]
    assert notes == ["G B D G B G", "G A D G B G", "G B D G B G", "G B D G B E", "G A D G B E"]
    assert [row.interval for row in lesson.steps[4].table] == ["1", "9", "5", "1", "3", "6"]
    assert [row.finger for row in lesson.steps[0].table] == ["2", "1", None, None, None, "3"]
    assert [[row.string for row in step.table if row.changed] for step in lesson.steps] == [[], [5], [5], [1], [5]]


def test_words_are_kept() -> None:
    last = _slack_water().steps[-1]
    assert (last.cue, last.say, last.move_text) == ("1:42", "Keep #2 down: let A and E ring open.", "1 off")


def test_ids_follow_from_the_change_alone() -> None:
    lesson = _slack_water()
    ids = [step.id for step in lesson.steps]
    assert len(set(ids)) == 5
    assert all(step_id.startswith("slack-water--") for step_id in ids)
    assert "320003-to-300003" in ids[1]
    reworded = SLACK_WATER.replace("title: Letting G loosen\n", "# a remark\n").replace(" = Gadd9", " @0:10")
    assert [step.id for step in _slack_water(reworded).steps] == ids


def test_ids_outlive_a_step_put_in_before() -> None:
    ids = [step.id for step in _slack_water().steps]
    longer = _slack_water(SLACK_WATER.replace("steps:\n", "steps:\n- hold\n"))
    assert [step.id for step in longer.steps][2:] == ids[1:]


def test_a_changed_shape_changes_the_id_of_its_steps_only() -> None:
    ids = [step.id for step in _slack_water().steps]
    changed = SLACK_WATER.replace("- 1 off = Gadd9", "- 2 off = G6/E").replace("- 1 to A2 = G", "- 2 to E3 = G")
    other = [step.id for step in block(changed.replace("teaches: [G, Gadd9, G6/9]\n", "")).steps]
    assert other[0] == ids[0]
    assert not {other[1], other[2]} & set(ids)
    assert other[3:] == ids[3:]


def test_the_same_change_twice_is_told_apart() -> None:
    twice = block("id: a\nstart: x02210/--231- = Am\nsteps:\n- 3 off\n- 3 to G2\n- 3 off")
    first, second = twice.steps[1].id, twice.steps[3].id
    assert second == f"{first}-2"


def test_a_step_may_have_an_id_of_its_own() -> None:
    own = block("id: a\nstart: x02210/--231- = Am\nsteps:\n- move: 3 off\n  id: open-wide")
    assert own.steps[1].id == "open-wide"


def test_the_way_back_and_round() -> None:
    lesson = _slack_water()
    assert [(way.from_step, way.to_step, way.fingers) for way in lesson.ways_back] == [
        (1, 0, 1), (2, 1, 1), (3, 2, 1), (4, 3, 1)
    ]  # fmt: skip
    # Back from G6/9 (only finger 2 down) to G: fingers 1 and 3 are put down.
    assert lesson.wrap_around is not None
    assert (lesson.wrap_around.from_step, lesson.wrap_around.to_step, lesson.wrap_around.fingers) == (4, 0, 2)


def test_there_is_no_way_round_where_nothing_moves() -> None:
    one = block("id: a\nstart: x02210/--231- = Am\nsteps:\n- 3 off\n- 3 to G2")
    assert one.wrap_around is not None
    assert one.wrap_around.fingers == 0


def test_the_start_is_built_finger_by_finger() -> None:
    build_up = _slack_water().build_up
    assert [step.move_text for step in build_up] == ["2 to E3", "1 to A2", "3 to e3"]
    assert [step.transition.finger_count for step in build_up if step.transition] == [1, 1, 1]
    assert build_up[-1].shape == _slack_water().steps[0].shape
    assert [step.naming.shown for step in build_up] == [None, None, read("G")]


def test_swapped_lessons_complain_exactly_where_they_should() -> None:
    """Three lessons, each using what the ones before teach: in every order the findings are those that follow."""
    lessons = {
        "am": ("Am", "```moves\nid: am\nstart: x02210/--231- = Am\nteaches: [Am]\nsteps:\n- hold\n```\n"),
        "am7": ("Am7", "```moves\nid: am7\nstart: x02210/--231- = Am\nteaches: [Am7]\nsteps:\n- 3 off = Am7\n```\n"),
        "c": ("C", "```moves\nid: c\nstart: x02010/--2-1- = Am7\nteaches: [C]\nsteps:\n- 3 to A3 = C\n```\n"),
    }
    uses = {"am": {"Am"}, "am7": {"Am", "Am7"}, "c": {"Am7", "C"}}
    for order in permutations(lessons):
        _, found = course(*(lessons[name][1] for name in order))
        expected = {
            (f"p{place}.md", chord)
            for place, name in enumerate(order, start=1)
            for chord in uses[name] - {lessons[earlier][0] for earlier in order[:place]}
        }
        assert {(f.span.file, f.message.split("`")[1]) for f in found} == expected
        assert {f.code for f in found} <= {Code.USED_BEFORE_TAUGHT}
