"""The short form of a move, in the words that a course is written in (design.md, the block)."""

from __future__ import annotations

import re

import pytest
from fingerpost.course.model import Block
from fingerpost.music.fretboard import Fretboard
from fingerpost.music.shape import Shape
from fingerpost.music.shape_text import read_shape
from fingerpost.music.transition import transition
from fingerpost.music.tuning import parse_tuning
from fingerpost.render.named import unmarked
from fingerpost.render.page import block_html
from fingerpost.render.short import short
from fingerpost.render.voice import Voice
from fingerpost.site.search_words import without_pictures
from hypothesis import given, settings

from .examples import block, loosening
from .hands import changes
from .markup import Markup

NECK = Fretboard()


@pytest.mark.parametrize(
    ("before", "after", "said"),
    [
        ("x02210/--231-", "x32010/-32-1-", "3 → A3"),
        ("x32010/-32-1-", "x32000/-32---", "1 off"),
        ("x32000/-32---", "x32010/-32-1-", "1 → B1"),
        ("000000", "111111/111111", "1 → E1–e1"),
        ("111111/111111", "000001/-----1", "1 → e1"),
        ("111111/111111", "000000", "1 off"),
        ("320003/21---3", "320003/21---4", "4 for 3"),
        ("244322/134211", "355433/134211", "hand +1"),
        ("355433/134211", "244322/134211", "hand −1"),
        ("032010/-32-1-", "332010/342-1-", "3 → E3, 4 → A3"),
        ("032010/-32-1-", "x32010/-32-1-", "strum A–e"),
    ],
)
def test_a_move_is_told_shortly(before: str, after: str, said: str) -> None:
    assert unmarked(short(transition(read_shape(before), read_shape(after), NECK), Voice())) == said


def test_where_strings_share_a_letter_numbers_serve() -> None:
    neck = Fretboard(parse_tuning("DADGAD"))
    change = transition(read_shape("000000"), read_shape("020000/-1----"), neck)
    assert short(change, Voice(tuning=neck.tuning)) == "1 → 5:2"


@settings(max_examples=100, deadline=None)
@given(changes())
def test_the_short_form_names_every_finger_that_moves_and_is_short(change: tuple[Shape, Shape, Fretboard]) -> None:
    before, after, neck = change
    told = transition(before, after, neck)
    said = unmarked(short(told, Voice(tuning=neck.tuning)))
    if not told.shift:
        assert all(move.finger.mark in said for move in told.moves)
    assert len(said) <= 24 * (len(told.moves) + 1)


def test_each_step_carries_its_short_form_and_the_way_back_out_of_sight() -> None:
    page = Markup(block_html(loosening()))
    assert all("hidden" in one for one in page.classed("fp-for-practice"))
    text = block_html(loosening())
    shorts = [re.sub("<.*?>", "", one) for one in re.findall(r'<p class="fp-short">(.*?)</p>', text)]
    assert shorts == ["1 off", "2 → A3", "hold", "rest", "back"]
    back = {
        role: re.sub("<.*?>", "", found) for role, found in re.findall(r'<p class="fp-back-(\w+)">(.*?)</p>', text)[:3]
    }
    assert back == {
        "stays": "Fingers 2 and 3 stay.",
        "move": "Finger 1 goes to the A string (5), second fret.",
        "short": "1 → A2",
    }
    assert '1 → <span data-name="A">A</span>2' in text, "the string's name can be shown in another style"


def test_a_block_of_one_step_has_nothing_out_of_sight() -> None:
    alone: Block = block([("320003/21---3", "G", {})])
    assert "fp-for-practice" not in block_html(alone)


def test_what_is_out_of_sight_is_not_found_by_the_search() -> None:
    words = without_pictures(block_html(loosening()))
    assert "2 → A3" not in words
    assert "fp-back-move" not in words
    assert "fp-move" in words
