"""Two courses compared as music: which step is which, what moved, how far it reaches, and what is no change at all."""

from __future__ import annotations

import pytest
from fingerpost.course.build import build
from fingerpost.course.comparison.alignment import align
from fingerpost.course.comparison.courses import Side, compare
from fingerpost.course.comparison.difference import BlockChange, Comparison, Fact, How
from fingerpost.course.comparison.doubt import doubts
from fingerpost.course.comparison.prose import file_changes, prose_of
from fingerpost.course.settings import OPTIONS, Settings
from fingerpost.source.page import read_page
from hypothesis import given, settings
from hypothesis import strategies as st

C = "3 A3, 2 D2, 1 B1, strum A-e"


def block(*steps: str, ident: str = "kettle", keys: str = "", start: str = C) -> str:
    lines = "".join(f"- {step}\n" for step in steps)
    return f"```moves\nid: {ident}\n{keys}start: {start}\nsteps:\n{lines}```\n"


def side(pages: dict[str, str] | str, **options: object) -> Side:
    texts = {"a.md": pages} if isinstance(pages, str) else pages
    chosen, problems = Settings.from_mapping(options)
    assert not problems
    read = [read_page(file, text) for file, text in texts.items()]
    course, found = build(read, chosen)
    in_doubt = doubts([page.syntax for page in read], [*found, *(one for page in read for one in page.findings)])
    blocks = {b.id.text: b.source for page in read for b in page.syntax.blocks if b.id}
    prose = {page.syntax.file: prose_of(texts[page.syntax.file], page) for page in read}
    return Side(course, chosen, texts, blocks, in_doubt, prose)


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
    assert comparison.rewritten == ()


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


UNREAD = "as taught Ebm"
"""A start that no course here resolves."""


def test_a_block_that_can_be_read_on_neither_side_is_no_unchanged_one() -> None:
    before = block("3 to G2 = E7sus4", start=UNREAD) + block("1 off", ident="pot")
    comparison = compared(before, before.replace("3 to G2 = E7sus4", "2 off = B9"))
    assert [(one.file, one.block, one.line, one.how) for one in comparison.unread] == [
        ("a.md", "kettle", 1, How.CHANGED)
    ]
    assert (comparison.musical, comparison.rewritten, comparison.reach.pages) == (True, (), ("a.md",))
    kept = comparison.kept
    assert (kept.pages, kept.blocks, kept.steps, kept.unread) == ((0, 1), (1, 2), (2, 2), 1)


def test_a_block_that_can_be_read_on_neither_side_and_has_the_same_text_is_unchanged() -> None:
    before = block("hold", start=UNREAD)
    comparison = compared(before, "More words.\n\n" + before)
    assert (comparison.unread, comparison.musical, comparison.kept.blocks) == ((), False, (1, 1))


@pytest.mark.parametrize("broken", [block("hold", start=UNREAD), "```moves\nstart: open\nsteps:\n- hold\n```\n"])
def test_a_block_that_can_not_be_read_is_told_when_it_comes_and_when_it_goes(broken: str) -> None:
    came, went = (compared(*sides).unread for sides in (("# A\n", broken), (broken, "# A\n")))
    assert [one.how for one in (*came, *went)] == [How.ADDED, How.GONE]


LINE = ("1 off = Cmaj7", "1 to B1 = C", "4 to B3 = Cadd9", "4 off = C")


def test_what_was_likely_meant_by_a_line_in_error_is_not_told_as_what_it_says() -> None:
    """Fret 33 for fret 3: the check takes fret 3 for meant, and the review must not say that nothing changed."""
    comparison = compared(block(*LINE), block(*LINE).replace("4 to B3 ", "4 to B33 "))
    change = only(comparison)
    assert (told(change), change.kept, change.uncompared) == ([], 3, 2)
    assert (comparison.kept.steps, comparison.kept.ids) == ((3, 5), (4, 6))
    assert (comparison.reach.ids_lost, comparison.reach.pictures, comparison.reach.practice) == ((), 0, ())


def test_steps_above_the_first_error_are_compared() -> None:
    after = block(*LINE).replace("1 off = Cmaj7", "hold = C").replace("1 to B1", "hold").replace("4 off", "4 of")
    change = only(compared(block(*LINE), after))
    assert told(change) == [("changed", 1, 1), ("changed", 2, 2)]
    assert (change.kept, change.uncompared) == (2, 1)


def test_a_start_in_error_leaves_all_steps_in_doubt_and_those_of_the_block_that_goes_on() -> None:
    on = block("2 off", ident="on", start="previous")
    before = block(*LINE) + on
    changes = compared(before, before.replace("3 A3,", "3 A33,", 1)).blocks
    assert [(change.here.block.id, change.steps, change.uncompared) for change in changes] == [
        ("kettle", (), 5), ("on", (), 2),
    ]  # fmt: skip


def test_a_wrong_name_alone_leaves_the_hand_as_it_is_written() -> None:
    change = only(compared(block(*LINE), block(*LINE).replace("4 off = C\n", "4 off = E7b9\n")))
    assert change.uncompared == 0


def test_a_block_written_as_it_was_is_in_no_more_doubt_than_before() -> None:
    broken = block("1 of", "1 off")
    comparison = compared(broken, "# A page\n\n" + broken)
    assert (comparison.blocks, comparison.kept.steps[0]) == ((), comparison.kept.steps[1])


def test_a_capo_says_what_it_does_to_the_player() -> None:
    """Two frets are two semitones, and C two semitones up is D."""
    comparison = compare(side(block("1 off", "rest")), side(block("1 off", "rest"), capo=2))
    change = only(comparison)
    assert change.retuned is not None
    assert (change.retuned.higher, change.retuned.strings, change.retuned.example) == (2, (), ("C", "C", "D"))
    assert (change.steps, change.transposed, change.kept) == ((), 2, 1)
    assert comparison.follows_settings(change)
    reach, kept = comparison.reach, comparison.kept
    assert (reach.chord_shapes, [chord.symbol for chord in reach.chord_sounds]) == ((), ["C", "Cmaj7"])
    assert (kept.steps, kept.chords) == ((1, 3), (0, 2))


def test_a_tuning_says_which_strings_are_tuned_how() -> None:
    numbered = block("1 off", start="3 5:3, 2 4:2, 1 2:1, strum 5-1")
    change = only(compare(side(numbered), side(numbered, tuning="drop D")))
    assert change.retuned is not None
    assert (change.retuned.higher, change.retuned.strings) == (0, ((6, "E2", "D2", -2),))
    assert (change.steps, change.kept) == ((), 2), "string 6 is not struck"


def test_another_neck_of_the_same_sound_changes_no_step() -> None:
    comparison = compare(side(block("1 off", "1 to B1")), side(block("1 off", "1 to B1"), frets=19, scale_length=400))
    assert (comparison.blocks, comparison.reach.chord_shapes) == ((), ())
    assert (comparison.kept.steps, comparison.kept.blocks, comparison.reach.pictures) == ((3, 3), (1, 1), 0)


def test_steps_that_are_reckoned_harder_are_counted_apart() -> None:
    change = {"place": 9}
    comparison = compare(side(block("1 off", "1 to B1")), side(block("1 off", "1 to B1"), change_costs=change))
    assert (comparison.reach.reckoned, comparison.kept.steps) == ((("kettle", 1),), (3, 3))


@pytest.mark.parametrize(
    ("options", "pictures"), [({"handed": "left"}, 3), ({"view": "player"}, 3), ({"major_seventh": "triangle"}, 1)]
)
def test_pictures_that_are_drawn_or_written_otherwise_are_to_be_made_again(options, pictures: int) -> None:
    text = block("1 off = Cmaj7", "1 to B1 = C")
    comparison = compare(side(text), side(text, **options))
    assert (comparison.blocks, comparison.reach.pictures, comparison.kept.chords) == ((), pictures, (2, 2))


def test_a_step_with_other_beats_leaves_its_chord_as_it_was() -> None:
    before = block("move: 1 off\n  name: Cmaj7\n  beats: 4")
    comparison = compared(before, before.replace("beats: 4", "beats: 2"))
    assert (comparison.kept.steps, comparison.kept.chords) == ((1, 2), (2, 2))


def test_a_block_that_has_moved_with_the_one_before_it_is_not_told() -> None:
    one, two, three, four = (block("1 off", ident=name) for name in ("one", "two", "three", "four"))
    comparison = compared(one + two + three + four, three + four + one + two)
    assert [(change.here.block.id, change.facts) for change in comparison.blocks] == [
        ("one", (Fact("place", "first", "after four"),)),
    ]  # fmt: skip
    assert comparison.kept.blocks == (3, 4)


def test_chords_that_are_first_met_elsewhere_are_listed() -> None:
    one, two = block("1 off = Cmaj7"), block("3 off", "3 to A3 = C", ident="two")
    comparison = compared(one + two, two + one)
    assert comparison.reach.chord_first == (("C", "kettle", "two"),)
    assert comparison.kept.chords[0] == comparison.kept.chords[1] - 1
    assert compared(one + two, one.replace("id: kettle", "id: pot") + two).reach.chord_first == ()


ROUND = ("1 off = Cmaj7", "1 to B1 = C", "4 to B3 = Cadd9", "4 off = C")


def test_steps_that_change_places_are_moved_and_keep_their_ids() -> None:
    """The two rounds in the other order: the first pair of lines comes last, and nothing else differs."""
    comparison = compared(block(*ROUND), block(*ROUND[2:], *ROUND[:2]))
    change = only(comparison)
    assert told(change) == [("moved", 1, 3), ("moved", 2, 4)] or told(change) == [("moved", 3, 1), ("moved", 4, 2)]
    assert [step.strings for step in change.steps] == [(), ()]
    assert (change.kept, comparison.kept.ids, comparison.reach.pictures) == (3, (6, 6), 0)
    assert change.moved == 2


def test_a_take_of_a_step_that_has_moved_is_told() -> None:
    timed = [f"{line} @0:{second}" for line, second in zip(ROUND, (10, 20, 30, 40), strict=True)]
    later = [line.partition(" @")[0] for line in timed]
    reach = compared(block(*timed), block(*later[2:], *later[:2])).reach
    assert [(take.gone, take.moved) for take in reach.takes] == [(False, True), (False, True)]


def test_steps_that_went_to_another_block_are_found_there() -> None:
    second = block(*ROUND[2:], ident="second", start="previous")
    comparison = compared(block(*ROUND), block(*ROUND[:2]) + second)
    first, new = comparison.blocks
    assert [(str(step.how), step.elsewhere) for step in first.steps] == [
        ("gone", ("second", 1)), ("gone", ("second", 2)),
    ]  # fmt: skip
    assert [(str(step.how), step.elsewhere) for step in new.steps] == [
        ("added", None), ("added", ("kettle", 3)), ("added", ("kettle", 4)),
    ]  # fmt: skip
    assert [(new.count(How.ADDED), new.moved), (first.count(How.GONE), first.moved)] == [(1, 2), (0, 0)]
    (lost,) = comparison.reach.ids_lost
    assert (lost.block, lost.whole, len(lost.steps)) == ("kettle", False, 2)


def test_ids_that_are_no_more_are_listed_by_block() -> None:
    (lost,) = compared(block("1 off"), block("1 off", ident="pot")).reach.ids_lost
    assert (lost.block, lost.whole, len(lost.steps), lost.of, len(lost.ids)) == ("kettle", True, 2, 2, 3)


def test_an_address_that_is_left_leads_to_where_its_redirect_says() -> None:
    before, after = {"a.md": block("1 off"), "c.md": "# C"}, {"b.md": block("1 off")}
    pages = compare(side(before), side(after, redirects={"a.md": "b.md"})).pages
    assert [(page.before, page.after, page.left, page.redirect) for page in pages] == [
        ("a.md", "b.md", True, "b.md"), ("c.md", None, True, None),
    ]  # fmt: skip


def test_words_outside_the_blocks_are_told_whatever_happens_inside() -> None:
    before = {"a.md": "# A\n\nOne word.\n\n" + block("1 off"), "b.md": "# B\n\nTwo\nwords.\n"}
    after = {"a.md": "# A\n\nOther word.\n\n" + block("3 off"), "b.md": "# B\n\nTwo words.\n"}
    comparison = compared(before, after)
    assert [page.file for page in comparison.prose] == ["a.md"]
    assert comparison.rewritten == ("b.md",), "its words are only broken into other lines"


def test_new_links_images_and_html_of_a_page_are_named() -> None:
    before = "# A\n\nSee [b](b.md).\n"
    after = before + "\n[b](b.md) [x](javascript:alert) ![i](https://evil.example/x.png) <script src=x>\n"
    (page,) = compared(before, after).prose
    assert (page.links, page.images) == (("b.md", "javascript:alert"), ("https://evil.example/x.png",))
    assert page.tags == ("<script src=x>",)
    assert compared(after, after.replace("script", "b")).prose[0].tags == ("<b src=x>",)


def test_other_files_are_told_apart() -> None:
    changes = file_changes({"a.png": "1", "b.png": "1", "c.png": "1"}, {"b.png": "2", "c.png": "1", "d.png": "1"})
    assert [(file.file, str(file.how)) for file in changes] == [
        ("a.png", "gone"), ("b.png", "changed"), ("d.png", "added"),
    ]  # fmt: skip


pages = st.lists(
    st.tuples(
        st.sampled_from(("one", "two", "three")),
        st.sampled_from(("", "capo: 2\n", "key: C\n")),
        st.lists(
            st.sampled_from(("1 off", "1 to B1", "3 off", "3 to A3", "4 to B3", "hold", "rest", "1 of")), max_size=5
        ),
    ),
    unique_by=lambda drawn: drawn[0],
    max_size=3,
)


def course_of(drawn: list[tuple[str, str, list[str]]], **options: object) -> Side:
    return side("# A\n\n" + "\n".join(block("hold", *lines, ident=i, keys=keys) for i, keys, lines in drawn), **options)


@given(pages, pages, st.sampled_from((0, 0, 2)))
@settings(max_examples=60, deadline=None)
def test_what_is_counted_as_unchanged_is_what_no_list_names(before: list, after: list, capo: int) -> None:
    comparison = compare(course_of(before), course_of(after, capo=capo))
    kept, reach, there = comparison.kept, comparison.reach, [c for c in comparison.blocks if c.after]
    changed = sum(step.after is not None for change in there for step in change.steps)
    moved_on = changed + sum(change.transposed for change in there)
    doubted = sum(change.uncompared for change in there)
    assert kept.steps[0] + moved_on <= kept.steps[1] <= kept.steps[0] + moved_on + doubted
    assert kept.blocks[1] - kept.blocks[0] == sum(change.musical for change in there) + len(
        [one for one in comparison.unread if one.how is not How.GONE]
    )
    named = {*reach.chords_new, *reach.chord_shapes, *(one.symbol for one in reach.chord_sounds)}
    named |= {symbol for symbol, _, _ in reach.chord_first}
    assert kept.chords[1] - kept.chords[0] == len(named)
    assert comparison.musical or kept.steps[0] == kept.steps[1]
    assert bool(reach.pages) == (kept.pages[0] < kept.pages[1])
    lost = sum(len(block.ids) for block in reach.ids_lost)
    assert lost <= kept.ids[1] - kept.ids[0]


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
