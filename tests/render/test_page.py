"""What stands on a page: whole markup, ids of its own, and nothing of an author's text let through as markup."""

from __future__ import annotations

import re

import pytest
from fingerpost.course.model import BrokenBlock, MentionMeaning, PracticeItem, Retuning, Watch
from fingerpost.course.settings import Settings
from fingerpost.music.fretboard import Fretboard
from fingerpost.music.shape import Shape
from fingerpost.music.tuning import parse_tuning
from fingerpost.render.layout import Facing
from fingerpost.render.look import Links, Look
from fingerpost.render.page import block_html, broken_html, mention_html
from fingerpost.render.practice import item_text
from fingerpost.render.voice import Voice
from hypothesis import given, settings
from hypothesis import strategies as st

from .examples import NASTY, SPAN, block, loosening, named, nasty
from .hands import changes
from .markup import Markup


def words(text: str) -> str:
    """What a reader sees, an element's words apart from the next one's; a name is part of its sentence."""
    text = re.sub(r'<span data-name="[^"]*">([^<]*)</span>', r"\1", text)
    return re.sub(r"\s+", " ", " ".join(Markup(text).words))


def test_a_block_is_whole_and_its_ids_are_its_own() -> None:
    page = Markup(block_html(loosening(wrap_around=None)))
    assert len(page.ids) == len(set(page.ids))
    assert page.ids[0] == "tide"
    for svg in page.named("svg"):
        assert svg["role"] == "img"
        assert set((svg["aria-labelledby"] or "").split()) <= set(page.ids)
    assert not [1 for _, attributes in page.elements if "style" in attributes or "onclick" in attributes]


@settings(max_examples=60, deadline=None)
@given(changes(), st.booleans(), st.booleans())
def test_any_change_on_any_neck_gives_a_whole_page(
    change: tuple[Shape, Shape, Fretboard], player: bool, left: bool
) -> None:
    before, after, neck = change
    made = block([(before, named(before, neck), {}), (after, named(after, neck), {})], neck)
    text = block_html(made, Look(facing=Facing(player, left)))
    page = Markup(text)
    assert len(page.ids) == len(set(page.ids))
    assert "{" not in text
    assert len(page.named("table")) == 2
    assert len(page.classed("fp-step")) == 2


def test_without_a_style_sheet_pictures_have_a_modest_size() -> None:
    widths = [int(svg["width"] or 0) for svg in Markup(block_html(loosening())).named("svg")]
    assert set(widths) == {334, 167}


def test_headings_go_down_by_one() -> None:
    page = Markup(block_html(loosening()))
    levels = [int(tag[1]) for tag, _ in page.elements if re.fullmatch(r"h\d", tag)]
    assert levels[0] == 2
    assert set(levels[1:]) == {3}
    deeper = Markup(block_html(loosening(), Look(heading=4)))
    assert {tag for tag, _ in deeper.elements if re.fullmatch(r"h\d", tag)} == {"h4", "h5"}


def test_steps_say_what_they_are() -> None:
    steps = Markup(block_html(loosening())).classed("fp-step")
    assert [step["data-kind"] for step in steps] == ["start", "move", "move", "hold", "rest", "back"]
    assert steps[0]["data-pitches"] == "43 47 50 55 59 67"
    assert steps[4]["data-pitches"] == ""
    assert steps[1]["data-shape"] == "300003/2----3"


def test_what_stays_is_said_before_what_moves_and_then_what_is_heard() -> None:
    text = block_html(loosening())
    second = text[text.index('data-step="tide--1"') : text.index('data-step="tide--2"')]
    positions = [second.index(f'<p class="{name}">') for name in ("fp-stays", "fp-move", "fp-sound")]
    assert positions == sorted(positions)


@pytest.mark.parametrize("look", [Look(), Look(facing=Facing(player_view=True, left_handed=True), heading=3)])
def test_no_text_of_an_author_becomes_markup(look: Look) -> None:
    text = block_html(nasty(), look)
    page = Markup(text)
    assert not page.named("script")
    assert "\x07" not in text
    assert {tag for tag, _ in page.elements} <= {
        *(
            "section",
            "h2",
            "h3",
            "h4",
            "p",
            "ol",
            "ul",
            "li",
            "div",
            "span",
            "figure",
            "figcaption",
            "b",
            "strong",
            "small",
        ),
        *("table", "caption", "thead", "tbody", "tr", "th", "td", "ins", "label", "input", "img", "br"),
        *("svg", "title", "desc", "g", "path", "line", "circle", "rect", "polygon", "text"),
    }
    shown = re.sub(r"\s+", " ", NASTY.replace("\x07", ""))
    assert words(text).count(shown) >= 8
    assert {image["alt"] for image in page.named("img")} == {NASTY.replace("\x07", "")}
    assert len(page.ids) == len(set(page.ids))


def test_words_stay_in_the_paragraphs_of_the_author() -> None:
    made = block([("320003/21---3", "G", {"say": "One\nline.\n\n\nTwo # not *markup*"})])
    assert '<div class="fp-say"><p>One<br>line.</p><p>Two # not *markup*</p></div>' in block_html(made)


def test_the_strict_name_stands_beside_the_shown_one() -> None:
    text = block_html(loosening())
    assert re.search(r'<span class="fp-strict" role="img" aria-label="[^"]+" data-name="Cmaj9/E">Cmaj9/E</span>', text)
    assert "The lowest note makes it Cmaj9/E; it is called Cmaj9 for short." in words(text)


def test_taught_as_has_its_footnote() -> None:
    from fingerpost.music.chord_symbol import read

    naming = {"taught_as": True, "strict": read("C#m7b5/E"), "lacks": ("5",), "adds": ("#11",)}
    text = words(block_html(block([("022000/-23---", "Em6", {"naming": naming})])))
    assert "Taught as Em6; the notes strictly make C♯m7♭5/E." in text
    assert "Against Em6 the shape lacks B (the fifth) and adds A♯ (the augmented eleventh)." in text


def test_omitted_intervals_are_said() -> None:
    text = words(block_html(block([("x32310/-3241-", "C7", {"naming": {"omitted": ("5",)}})])))
    assert "Without the fifth, as is usual for this chord." in text


def test_retuning_and_a_capo_are_asked_for_before_the_first_step() -> None:
    neck = Fretboard(parse_tuning("DADGAD"), 3)
    setup = Retuning(((6, "E2", "D2"), (2, "B3", "A3")), 0, 3)
    text = block_html(block([("320003/21---3", "G", {})], neck, retuning=setup))
    before = words(text[: text.index('<ol class="fp-steps">')] + "</section>")
    assert "String 6: from E down to D." in before
    assert "String 2: from B down to A." in before
    assert "Capo on fret 3. G shape, sounds B♭." in before
    assert words(text).count("sounds B♭") == 2
    assert 'class="fp-sounding"' in text


def test_going_back_to_standard_is_asked_for_too() -> None:
    setup = Retuning(((6, "D2", "E2"),), 3, 0)
    text = words(block_html(block([("320003/21---3", "G", {})], retuning=setup)))
    assert "String 6: from D up to E." in text
    assert "Take the capo off." in text


def test_a_way_back_that_takes_two_fingers_is_flagged() -> None:
    made = block([("x02210/--231-", "Am", {}), ("320003/21---3", "G", {})])
    (way,) = Markup(block_html(made)).classed("fp-way")
    assert way["data-fingers"] == "3"
    assert "takes three fingers" in words(block_html(made))


def test_strokes_are_arrows_for_the_eye_and_words_for_the_ear() -> None:
    text = block_html(loosening())
    assert '<span class="fp-pattern" aria-hidden="true">↓ ↓ ↑</span>' in text
    assert "Strokes: down, down, up." in words(text)
    assert "4 beats" in words(text)


def test_a_practice_box_keeps_its_key_when_steps_are_numbered_anew() -> None:
    item = PracticeItem("change", 0, 1, keep=("2", "3"), ring=(5,), clean=5, tries=6)
    boxes = Markup(block_html(loosening(practice=(PracticeItem("warm_up", minutes=3), item)))).named("input")
    assert [box["data-key"] for box in boxes] == ["tide/warm_up", "tide/change/tide--0/tide--1"]


def test_a_line_of_practice_says_what_to_keep_to_watch_and_to_hear() -> None:
    item = PracticeItem(
        "change",
        0,
        1,
        keep=("2", "3"),
        ring=(5,),
        watch=(Watch("landing", ("1",)), Watch("clear", ("1",), (4, 6))),
        clean=5,
        tries=6,
    )
    assert item_text(item, loosening().steps, Voice()) == (
        "G to Gadd9: 5 clean of 6. Keep fingers 2 and 3 down. Mind the landing of finger 1. "
        "Finger 1 must not touch strings 6 and 4. "
        "The A string (5) must ring clear."
    )
    assert item_text(PracticeItem("rest", minutes=1), (), Voice()).startswith("Rest for about one minute")


@pytest.mark.parametrize("kind", ["bar", "rest_of_bar", "guide", "landing", "clear", "stretch", "together"])
def test_each_thing_to_watch_has_its_sentence(kind: str) -> None:
    item = PracticeItem("change", 0, 1, watch=(Watch(kind, ("2", "T"), (5, 4)),), clean=5, tries=6)
    assert item_text(item, loosening().steps, Voice()).count(". ") == 1


@pytest.mark.parametrize("kind", ["warm_up", "change", "change_back", "round", "whole", "rest", "stop"])
def test_each_kind_of_practice_has_its_sentence(kind: str) -> None:
    item = PracticeItem(kind, 0, 1, clean=5, tries=6, minutes=3)
    text = item_text(item, loosening().steps, Voice())
    assert text.endswith(".")
    assert ("health professional" in text) == (kind == "stop")


def test_a_change_between_steps_of_one_name_gives_their_numbers() -> None:
    item = PracticeItem("change", 2, 3, clean=5, tries=6)
    assert item_text(item, loosening().steps, Voice()) == "Cmaj9 (step 3) to Cmaj9 (step 4): 5 clean of 6."


def test_a_broken_block_loses_nothing() -> None:
    broken = BrokenBlock("tide", SPAN, f"id: tide\n\n  - {NASTY}\n", (NASTY, "Line 3: no finger 9."))
    text = broken_html(broken)
    page = Markup(text)
    assert page.classed("fp-broken")
    assert page.named("pre")
    assert not page.named("script")
    assert f"id: tide\n\n  - {NASTY}\n".replace("\x07", "") in page.words
    assert "Line 3: no finger 9." in page.words


def test_mentions_draw_link_or_stay_words() -> None:
    made = loosening()
    meaning = MentionMeaning("chord", 4, "Gadd9", SPAN, "lesson.md", "tide", made.steps[1], made.fretboard)
    drawn = Markup(mention_html(meaning))
    assert len(drawn.named("svg")) == 1
    assert drawn.ids == ["fp-mention-4-t", "fp-mention-4-d"]
    assert drawn.named("a")[0]["href"] == "#tide--1"
    link = MentionMeaning("step", 5, "tide Gadd9", SPAN, "other.md", "tide", made.steps[1], made.fretboard)
    look = Look(links=Links(step=lambda lesson, block, step: f"../{lesson}#{step}"))
    assert Markup(mention_html(link, look)).named("a")[0]["href"] == "../other.md#tide--1"
    now = MentionMeaning("now", 6, "G6", SPAN, "lesson.md", "tide", made.steps[1], made.fretboard)
    assert not Markup(mention_html(now)).named("svg")
    lost = MentionMeaning("chord", 7, NASTY, SPAN)
    assert words(mention_html(lost)).strip() == re.sub(r"\s+", " ", NASTY.replace("\x07", ""))


def test_a_course_sets_the_look() -> None:
    chosen, problems = Settings.from_mapping({"view": "player", "handed": "left", "note_names": "german"})
    assert not problems
    look = Look.of(chosen)
    assert look.facing == Facing(player_view=True, left_handed=True)
    text = block_html(block([("320003/21---3", "G", {})]), look)
    assert 'data-view="player" data-hand="left"' in text
    assert "fp-strings-down" in text
    assert ">H<" in text
