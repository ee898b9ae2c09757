"""Options are read, and what can't be taken is said with its key, what was expected and the nearest that would do."""

from __future__ import annotations

from typing import Any

import pytest
from fingerpost.course.settings import OPTIONS, Settings, explanations
from fingerpost.music.chord_symbol import read
from hypothesis import given
from hypothesis import strategies as st

TAKEN: list[tuple[dict[str, Any], str, Any]] = [
    ({"tuning": "drop D"}, "tuning.name", "drop D"),
    ({"tuning": ["D2", "A2", "D3", "G3", "A3", "D4"]}, "tuning.name", "DADGAD"),
    ({"capo": 3}, "fretboard.capo", 3),
    ({"scale_length": 630}, "fretboard.scale_length", 630.0),
    ({"limits": {"span_frets": 4}}, "hand.limits.span_frets", 4),
    ({"limits": {"fingers": [1, 2, 3]}}, "limits.fingers", (1, 2, 3)),
    ({"limits": {"finger_order": False}}, "limits.finger_order", False),
    ({"costs": {"weak": [0, 0, 1, 2]}}, "hand.costs.weak", (0, 0, 1, 2)),
    ({"change_costs": {"bar": 9}}, "hand.change_costs.bar", 9),
    ({"ties": ["C6 not Am7"]}, "ties", ((read("C6"), read("Am7")),)),
    ({"ties": "Csus2 not Gsus4"}, "ties", ((read("Csus2"), read("Gsus4")),)),
    ({"major_seventh": "triangle", "note_names": "german"}, "symbol_style.notes", "german"),
    ({"key": None}, "key", None),
]

REFUSED: list[tuple[dict[str, Any], str, str]] = [
    ({"tunning": "drop D"}, "tunning", "tuning"),
    ({"tuning": "dropp D"}, "tuning", "drop D"),
    ({"capo": 40}, "capo", "12"),
    ({"capo": "second"}, "capo", ""),
    ({"capo": True}, "capo", ""),
    ({"handed": 10**5000}, "handed", ""),
    ({"capo": 1.5}, "capo", ""),
    ({"frets": float("nan")}, "frets", ""),
    ({"scale_length": float("inf")}, "scale_length", "900"),
    ({"handed": "rihgt"}, "handed", "right"),
    ({"hand_shifts": "yes"}, "hand_shifts", ""),
    ({"key": "K"}, "key", ""),
    ({"limits": 3}, "limits", ""),
    ({"limits": {"span_fret": 3}}, "limits.span_fret", "span_frets"),
    ({"limits": {"span_mm": -1}}, "limits.span_mm", ""),
    ({"limits": {"fingers": [1, 7]}}, "limits.fingers", ""),
    ({"costs": {"weak": [1, 2]}}, "costs.weak", ""),
    ({"ties": ["C6 Am7"]}, "ties.0", ""),
    ({"ties": ["C6 not G"]}, "ties.0", ""),
    ({"ties": ["C6 not Amx"]}, "ties.0", ""),
    ({"ties": ["Csus2 not Gsus4", "C6 not Am7", "Am7 not C6"]}, "ties.2", "C6 not Am7"),
    ({"ties": 3}, "ties", ""),
    ({"clean": 9, "tries": 6}, "clean", ""),
]


@pytest.mark.parametrize(("mapping", "way", "value"), TAKEN)
def test_is_taken(mapping: dict[str, Any], way: str, value: object) -> None:
    found: Any
    found, problems = Settings.from_mapping(mapping)
    for name in way.split("."):
        found = getattr(found, name)
    assert problems == ()
    assert found == value


@pytest.mark.parametrize(("mapping", "key", "near"), REFUSED)
def test_is_refused(mapping: dict[str, Any], key: str, near: str) -> None:
    settings, (problem,) = Settings.from_mapping(mapping)
    assert (problem.key, problem.nearest) == (key, near)
    assert problem.wrong
    assert problem.expected
    assert problem.sentence.startswith(f"`{key.rstrip('.0123456789')}` ")
    assert settings.clean <= settings.tries


def test_what_can_not_be_read_leaves_the_rest() -> None:
    settings, problems = Settings.from_mapping({"capo": "x", "frets": 20, "view": 1})
    assert settings == Settings(frets=20)
    assert [problem.key for problem in problems] == ["capo", "view"]


def test_a_lesson_lays_its_options_over_those_of_the_course() -> None:
    settings, _ = Settings.from_mapping({"capo": 2}, Settings(frets=20))
    assert settings == Settings(frets=20, capo=2)


def test_every_option_is_explained() -> None:
    assert list(explanations()) == list(OPTIONS)
    assert all(text.endswith(".") for text in explanations().values())


ANYTHING = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats() | st.text(max_size=20),
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(st.text(max_size=12), inner, max_size=4),
    max_leaves=8,
)
KEYS = st.sampled_from(list(OPTIONS)) | st.text(max_size=12)
NESTED = st.sampled_from(["limits", "costs", "change_costs"])
INNER = st.sampled_from(["span_frets", "fingers", "weak", "bar_strings", "finger_order", "place", "finger"])


@given(st.dictionaries(KEYS, ANYTHING, max_size=6))
def test_no_value_breaks_the_reading(mapping: dict[str, Any]) -> None:
    settings, problems = Settings.from_mapping(mapping)
    assert hash(settings) is not None
    assert {problem.key.split(".")[0] for problem in problems} <= {key.split(".")[0] for key in mapping} | {"clean"}


@given(NESTED, st.dictionaries(INNER, ANYTHING, max_size=4))
def test_no_nested_value_breaks_the_reading(option: str, inner: dict[str, Any]) -> None:
    settings, _ = Settings.from_mapping({option: inner})
    assert hash(settings) is not None
