"""The pages that the build adds."""

from __future__ import annotations

import re

from fingerpost.course.model import Block, ChordEntry, Course, Lesson, ShapeMet
from fingerpost.course.settings import Settings
from fingerpost.music.chord_symbol import read
from fingerpost.render.course_pages import MAKERS, chord_index, how_to_read, staying_unhurt
from fingerpost.render.legend import EXAMPLES
from fingerpost.render.look import Links, Look
from fingerpost.render.picture import Role
from fingerpost.workspace.links import ADDED

from .examples import NASTY, loosening
from .markup import Markup


def course(block: Block) -> Course:
    place = ("first.md", block.id, block.steps[1].id)
    met = ShapeMet(block.steps[1].shape, block.fretboard, (place, ("first.md", block.id, block.steps[2].id)))
    sharp = ShapeMet(block.steps[0].shape, block.fretboard, (place,))
    entries = (
        ChordEntry("Gadd9", read("Gadd9"), place, (met,)),
        ChordEntry("C#m7b5/G", read("C#m7b5/G"), place, (sharp, met)),
    )
    return Course((Lesson("first.md", "The first", (block,)),), entries)


def test_the_index_shows_every_chord_every_shape_and_where_it_stands() -> None:
    look = Look(links=Links(step=lambda lesson, block, step: f"../{lesson}#{step}"))
    page = chord_index(course(loosening()), look)
    read_back = Markup(page.html)
    assert len(read_back.named("svg")) == 3
    assert len(read_back.ids) == len(set(read_back.ids))
    links = [link["href"] for link in read_back.named("a")]
    assert links[0] == "#chord-g-major-added-ninth"
    assert set(links[:2]) <= {f"#{ident}" for ident in read_back.ids}
    assert "../first.md#tide--1" in links
    assert read_back.words.count("Letting G loosen, step 2") == 5  # taught twice, met in three shapes
    assert read_back.words.count("step 3") == 2  # the same block again
    assert "Notes: G (R), B (3), D (5) and A (9)." in "".join(read_back.words)


def test_ids_of_the_index_hold_no_signs() -> None:
    page = Markup(chord_index(course(loosening()), Look()).html)
    assert all(re.fullmatch(r"[a-z0-9-]+", ident) for ident in page.ids)


def test_an_empty_course_has_an_index_that_says_so() -> None:
    assert "This course teaches no chord yet." in chord_index(Course(()), Look()).html


def test_titles_in_the_index_are_text() -> None:
    page = Markup(chord_index(course(loosening(title=NASTY)), Look()).html)
    assert not page.named("script")


def test_every_mark_is_explained_by_a_picture_that_has_it() -> None:
    page = Markup(how_to_read(Look()).html)
    drawn = {name for _, attributes in page.elements for name in (attributes.get("class") or "").split()}
    in_files_only = {Role.ROW, Role.ROW_NEW, Role.ROW_LINE, Role.ROW_NAME, Role.HEADING}
    of_diagrams = {role.value for role in Role if role.startswith(("fp-map-", "fp-curve-"))}
    assert {role.value for role in Role} - drawn == {role.value for role in in_files_only} | of_diagrams
    assert len(page.named("svg")) == len(EXAMPLES) + 3
    assert len(page.ids) == len(set(page.ids))


def test_pictures_that_show_a_way_of_turning_are_not_turned() -> None:
    fixed = [svg for svg in Markup(how_to_read(Look()).html).named("svg") if "data-turned" not in svg]
    assert len(fixed) == 3


def test_staying_unhurt_says_what_must_be_said_and_where_it_is_from() -> None:
    text = " ".join(Markup(staying_unhurt(Look(), Settings()).html).words)
    # WHO-ITU H.870: 80 dB(A) for 40 h a week for adults, 75 dB(A) for children.
    assert re.search(r"H\.870 .*80 dB\(A\) for 40 hours a week for adults, and 75 dB\(A\) for children", text)
    assert "numbness, tingling" in text
    assert "health professional" in text
    assert "wrist" in text
    assert "Santos & Minghelli 2024" in text
    assert "Simmons 2012" in text
    assert "Wiseheart 2017" in text
    for minutes in re.findall(r"[^.]*\bminutes?\b[^.]*", text):
        assert "common practice" in minutes or "Over a few minutes" in minutes or "ten minutes" in minutes


def test_minutes_follow_the_settings() -> None:
    text = staying_unhurt(Look(), Settings(warm_up_minutes=1, rest_minutes=0)).html
    assert "about one minute (common practice)" in text
    assert "for as long as it feels good (common practice)" in text


def test_a_page_is_one_block_of_markup_below_its_heading() -> None:
    for page in (how_to_read(Look()), staying_unhurt(Look(), Settings()), chord_index(course(loosening()), Look())):
        title, _, body = page.markdown.partition("\n\n")
        assert title == f"# {page.title}"
        assert "\n\n" not in body


def test_the_check_knows_every_page_that_the_build_adds() -> None:
    """`workspace.links` lists them apart, so that `check` need not import what draws them."""
    assert set(MAKERS) == set(ADDED)
