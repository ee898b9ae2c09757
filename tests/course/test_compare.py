"""Two courses compared as music: which step is which, what moved, how far it reaches, and what is no change at all."""

from __future__ import annotations

import pytest
from fingerpost.course.build import build
from fingerpost.course.comparison.alignment import align
from fingerpost.course.comparison.courses import Side, compare
from fingerpost.course.comparison.difference import BlockChange, Comparison, Fact, How
from fingerpost.course.settings import OPTIONS, Settings
from fingerpost.source.page import read_page
from hypothesis import given
from hypothesis import strategies as st

C = "3 A3, 2 D2, 1 B1, strum A-e"


def block(*steps: str, ident: str = "kettle", keys: str = "", start: str = C) -> str:
    lines = "".join(f"- {step}\n" for step in steps)
    return f"```moves\nid: {ident}\n{keys}start: {start}\nsteps:\n{lines}```\n"


def side(pages: dict[str, str] | str, **options: object) -> Side:
    texts = {"a.md": pages} if isinstance(pages, str) else pages
    settings, problems = Settings.from_mapping(options)
    assert not problems
    read = [read_page(file, text) for file, text in texts.items()]
    course, _ = build(read, settings)
    blocks = {b.id.text: b.source for page in read for b in page.syntax.blocks if b.id}
    return Side(course, settings, texts, blocks)


def compared(before: dict[str, str] | str, after: dict[str, str] | str) -> Comparison:
    return compare(side(before), side(after))


def only(comparison: Comparison) -> BlockChange:
    (change,) = comparison.blocks
    return change


def told(change: BlockChange) -> list[tuple[str, int | None, int | None]]:
    return [(str(s.how), s.before and s.before.ordinal, s.after and s.after.ordinal) for s in change.steps]


def test_the_same_course_does_not_differ() -> None:
    same = compared(block("1 off = Cmaj7", "1 to B1 = C"), block("1 off = Cmaj7", "1 to B1 = C"))
    assert (same.musical, same.blocks, same.pages, same.rewritten) == (False, (), (), ())
    assert same.kept.steps == (3, 3)
    assert same.kept.ids == (4, 4)


def test_what_moved_is_said_string_by_string() -> None:
    """C with the index finger lifted is Cmaj7: B for C on string 2 (common practice, worked out by hand)."""
    change = only(compared(block("hold = C"), block("1 off = Cmaj7")))
    (step,) = change.steps
    (string,) = step.strings
    assert (step.how, step.id_kept) == (How.CHANGED, False)
    assert (string.string, string.fret_before, string.fret_after) == (2, 1, 0)
    assert (string.note_before, string.note_after) == ("C", "B")


def test_an_inserted_step_does_not_change_all_later_ones() -> None:
    before = block("1 off = Cmaj7", "1 to B1 = C", "3 off", "3 to A3 = C")
    after = block("1 off = Cmaj7", "1 to B1 = C", "4 to B3 = Cadd9", "4 off = C", "3 off", "3 to A3 = C")
    assert told(only(compared(before, after))) == [("added", None, 3), ("added", None, 4)]


def test_a_step_taken_out_leaves_the_rest_in_place() -> None:
    before = block("1 off = Cmaj7", "1 to B1 = C", "hold", "3 off", "3 to A3 = C")
    after = block("1 off = Cmaj7", "1 to B1 = C", "3 off", "3 to A3 = C")
    assert told(only(compared(before, after))) == [("gone", 3, None)]


def test_later_steps_follow_where_their_lines_are_as_they_were() -> None:
    change = only(compared(block("3 off", "1 off", "2 off"), block("3 to G2", "1 off", "2 off")))
    assert told(change) == [("changed", 1, 1), ("follows", 2, 2), ("follows", 3, 3)]
    reach = compared(block("3 off", "1 off", "2 off"), block("3 to G2", "1 off", "2 off")).reach
    assert [step.after.ordinal for _, step in reach.later if step.after] == [2, 3]


def test_the_same_hand_from_another_one_is_rerouted_not_changed() -> None:
    reach = compared(block("1 off", "1 to B1 = C"), block("3 off", "3 to A3 = C")).reach
    assert reach.later == ()
    change = only(compared(block("4 to e3", "4 off = C"), block("4 to B3", "4 off = C")))
    assert [(s.how, s.same_hand) for s in change.steps] == [(How.CHANGED, False), (How.FOLLOWS, True)]


def test_a_start_that_goes_on_from_a_changed_block_follows() -> None:
    pages = block("1 off") + block("2 off", ident="next", start="previous")
    other = block("3 off") + block("2 off", ident="next", start="previous")
    changes = {change.here.block.id: change for change in compared(pages, other).blocks}
    assert told(changes["next"]) == [("follows", 0, 0), ("follows", 1, 1)]


def test_words_are_told_apart() -> None:
    before = block("move: hold\n  say: One\n  cue: 0:10", keys="title: Old\n")
    comparison = compared(before, block("move: hold\n  say: Two\n  cue: 0:12", keys="title: New\n"))
    change = only(comparison)
    assert (comparison.musical, change.steps) == (False, ())
    assert [(w.what, w.before, w.after) for w in change.words] == [
        ("title", "Old", "New"),
        ("say", "One", "Two"),
        ("cue", "0:10", "0:12"),
    ]
    assert (comparison.reach.pages, comparison.reach.worded) == ((), ("a.md",))


def test_blocks_are_known_by_their_id_wherever_they_stand() -> None:
    a, b = block("1 off"), block("2 off", ident="gate")
    comparison = compared({"a.md": a + b, "b.md": "# B\n"}, {"a.md": a, "b.md": "# B\n" + b})
    assert only(comparison).facts == (Fact("page", "a.md", "b.md"),)
    assert comparison.reach.pages == ("b.md", "a.md")


def test_a_page_with_another_name_is_the_same_page() -> None:
    comparison = compared({"a.md": block("1 off")}, {"b.md": block("1 off")})
    assert comparison.blocks == ()
    assert [(page.before, page.after) for page in comparison.pages] == [("a.md", "b.md")]
    prose = compared({"a.md": "# Same words"}, {"b.md": "# Same words"})
    assert [(page.before, page.after) for page in prose.pages] == [("a.md", "b.md")]


def test_another_id_is_told_and_all_step_ids_are_lost() -> None:
    comparison = compared(block("1 off", "1 to B1"), block("1 off", "1 to B1", ident="pot"))
    assert only(comparison).facts == (Fact("id", "kettle", "pot"),)
    assert comparison.kept.ids == (0, 4)


def test_blocks_in_another_order_are_taught_elsewhere() -> None:
    one, two, three = (block("1 off", ident=name) for name in ("one", "two", "three"))
    comparison = compared(one + two + three, two + three + one)
    assert only(comparison).facts == (Fact("place", "first", "after three"),)


def test_a_capo_and_a_tuning_touch_every_picture_of_their_block() -> None:
    comparison = compared(block("1 off", "1 to B1"), block("1 off", "1 to B1", keys="capo: 3\n"))
    assert only(comparison).facts == (Fact("capo", "0", "3"),)
    assert (comparison.reach.pictures, comparison.kept.steps) == (3, (0, 3))
    numbered = "3 5:3, 2 4:2, 1 2:1, strum A-e"
    tuned = only(compared(block("1 off", start=numbered), block("1 off", start=numbered, keys="tuning: drop D\n")))
    assert [fact.what for fact in tuned.facts] == ["tuning"]


def test_takes_are_those_whose_step_is_another() -> None:
    before = block("1 off @0:10", "1 to B1 @0:20", "3 off @0:30")
    reach = compared(before, block("1 off @0:10", "1 to B1 @0:20", "2 off @0:30")).reach
    assert [(take.step.cue, take.gone) for take in reach.takes] == [("0:30", False)]
    reach = compared(before, block("1 off @0:10", "1 to B1 @0:20")).reach
    assert [(take.step.cue, take.gone) for take in reach.takes] == [("0:30", True)]


def test_the_index_of_chords() -> None:
    reach = compared(block("1 off = Cmaj7"), block("4 to B3 = Cadd9")).reach
    assert (reach.chords_new, reach.chords_gone, reach.chord_shapes) == (("Cadd9",), ("Cmaj7",), ())
    reach = compared(block("hold = C"), block("hold = C", start="4 A3, 2 D2, 1 B1, strum A-e")).reach
    assert reach.chord_shapes == ("C",)


def test_another_finger_on_the_same_fret_is_a_change_without_another_note() -> None:
    change = only(compared(block("hold"), block("hold", start="4 A3, 2 D2, 1 B1, strum A-e")))
    (string,) = change.steps[0].strings
    assert (string.finger_before, string.finger_after, string.note_before == string.note_after) == ("3", "4", True)


def test_settings_of_the_course_that_differ() -> None:
    text = block("1 off")
    comparison = compare(side(text), side(text, capo=2, limits={"span_mm": 90}, ties=["C6 not Am7"]))
    assert [(fact.what, fact.after) for fact in comparison.settings] == [
        ("capo", "2"), ("limits.span_mm", "90"), ("ties", "C6 not Am7"),
    ]  # fmt: skip


OTHER = {
    "tuning": "drop D", "capo": 2, "scale_length": 630, "frets": 20, "handed": "left", "view": "player", "key": "G",
    "fingers_per_step": 2, "hand_shifts": True, "major_seventh": "triangle", "diminished": "circle", "minor": "-",
    "accidentals": "ascii", "note_names": "german", "limits": {"span_mm": 90}, "costs": {"weak": [0, 0, 1, 2]},
    "change_costs": {"place": 9}, "ties": ["C6 not Am7"], "clean": 4, "tries": 8, "warm_up_minutes": 1,
    "practice_minutes": 1, "rest_minutes": 1, "harder_step": 3, "warm_up_steps": 1, "rest_after_steps": 9,
    "redirects": {"old.md": "a.md", "older.md": "a.md#kettle"},
}  # fmt: skip


@pytest.mark.parametrize("option", OPTIONS)
def test_each_option_that_differs_is_told_in_both_directions(option: str) -> None:
    numbered = block("1 off", start="3 5:3, 2 4:2, 1 2:1, strum 5-1")
    plain, other = side(numbered), side(numbered, **{option: OTHER[option]})
    (there,), (back,) = (compare(*sides).settings for sides in ((plain, other), (other, plain)))
    assert there.what.partition(".")[0] == option
    assert (there.before, there.after) == (back.after, back.before)
    assert there.before != there.after


def test_of_redirects_those_that_differ_are_told() -> None:
    old, new = ({"kept.md": "a.md", **more} for more in ({}, {"old.md": "a.md#kettle"}))
    comparison = compare(side("# A\n", redirects=old), side("# A\n", redirects=new))
    assert comparison.settings == (Fact("redirects", None, "old.md to a.md#kettle"),)


def test_what_is_only_written_otherwise_is_named() -> None:
    before = {"a.md": block("1 off = Cmaj7"), "b.md": "# Prose\n"}
    after = {"a.md": block("move: 1  off\n  name: Cmaj7"), "b.md": "# Prose\n\nMore.\n"}
    comparison = compared(before, after)
    assert (comparison.musical, comparison.rewritten) == (False, ("kettle", "b.md"))


letters = st.lists(st.sampled_from("abc"), max_size=8)


@given(letters, letters)
def test_an_alignment_holds_every_item_once_in_order(before: list[str], after: list[str]) -> None:
    pairs = align(before, after, lambda one, other: 0.0 if one == other else 3.0)
    assert [i for i, _ in pairs if i is not None] == list(range(len(before)))
    assert [j for _, j in pairs if j is not None] == list(range(len(after)))
    assert all(before[i] == after[j] for i, j in pairs if i is not None and j is not None)


@given(letters, letters)
def test_an_alignment_keeps_as_many_as_can_be_kept(before: list[str], after: list[str]) -> None:
    """Beside the longest common subsequence by its textbook recurrence."""
    longest = [[0] * (len(after) + 1) for _ in range(len(before) + 1)]
    for i, one in enumerate(before):
        for j, other in enumerate(after):
            longest[i + 1][j + 1] = longest[i][j] + 1 if one == other else max(longest[i][j + 1], longest[i + 1][j])
    pairs = align(before, after, lambda one, other: 0.0 if one == other else 3.0)
    assert sum(None not in pair for pair in pairs) == longest[-1][-1]
