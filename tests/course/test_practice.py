"""The practice checklist follows from the changes: what stays, what is hard, what must ring, and never without care."""

from __future__ import annotations

from fingerpost.course.model import PracticeItem, Watch

from .read_course import block


def _items(lines: str, options: dict[str, object] | None = None) -> list[PracticeItem]:
    return list(block(f"id: a\n{lines}", options).practice)


def _kinds(items: list[PracticeItem]) -> list[tuple[str, int | None, int | None]]:
    return [(item.kind, item.from_step, item.to_step) for item in items]


def test_warm_up_comes_first_and_stop_if_it_hurts_last() -> None:
    items = _items(
        "start: x02210/--231- = Am\nsteps:\n- 3 off\n- 3 to A3 = C", {"warm_up_minutes": 4, "rest_minutes": 6}
    )
    assert _kinds(items) == [
        ("warm_up", None, None),
        ("change", 0, 1),
        ("change", 1, 2),
        ("round", 2, 0),
        ("whole", 0, 2),
        ("rest", None, None),
        ("stop", None, None),
    ]
    assert (items[0].minutes, items[-2].minutes) == (4, 6)


def test_clean_of_tries_is_the_author_s_setting() -> None:
    change = _items("start: x02210/--231- = Am\nsteps:\n- 3 off", {"clean": 3, "tries": 4})[1]
    assert (change.clean, change.tries) == (3, 4)


def test_what_stays_down_is_kept_and_what_changes_must_ring() -> None:
    to_c = _items("start: x02010/--2-1- = Am7\nsteps:\n- 3 to A3 = C")[1]
    assert to_c.keep == ("1", "2")
    assert 5 in to_c.ring


def test_a_ring_finger_beside_open_strings_is_watched() -> None:
    to_am = _items("start: x02010/--2-1- = Am7\nsteps:\n- 3 to G2 = Am")[1]
    assert Watch("landing", ("3",)) in to_am.watch
    assert Watch("clear", ("3",), (2,)) in to_am.watch


def test_a_guide_finger_keeps_contact() -> None:
    slide = _items("start: xx0232/---132 = D\nsteps:\n- 3 to B2")[1]
    assert Watch("guide", ("3",), (2,)) in slide.watch


def test_a_bar_is_watched_on_the_strings_that_hang_on_it() -> None:
    items = _items("start: x3321x/-3421-\nsteps:\n- 1 to E1-e1, strum all = F")
    assert Watch("bar", ("1",), (6, 2, 1)) in items[1].watch


def test_a_way_back_that_takes_more_fingers_is_practised_by_itself() -> None:
    items = _items("start: x02210/--231- = Am\nfingers_per_step: 2\nsteps:\n- 2 off and 3 off")
    assert _kinds(items)[1:3] == [("change", 0, 1), ("change_back", 1, 0)]


def test_way_points_and_rests_are_passed_over() -> None:
    items = _items("start: x02210/--231- = Am\nsteps:\n- 3 off passing\n- 3 to A3 = C\n- rest\n- back = C")
    assert [kind for kind in _kinds(items) if kind[0] == "change"] == [("change", 0, 2)]


def test_where_nothing_changes_there_is_nothing_to_practise() -> None:
    assert _items("start: x02210/--231- = Am\nsteps:\n- hold\n- rest\n- back") == []
