"""The search: exact chord names first, by keyboard, announced, and nothing in it taken for markup."""

from __future__ import annotations

import json
from collections.abc import Callable
from contextlib import AbstractContextManager

import pytest
from playwright.sync_api import Page

from .looking import Visit, until

pytestmark = pytest.mark.xdist_group(__name__)
Visiting = Callable[..., AbstractContextManager[Visit]]

INDEX = {
    "docs": [
        {"location": "", "title": "Home", "text": "A course about Am and more."},
        {"location": "fog/", "title": "Fog", "text": "In fog the bass goes from E to G. Then Am7, F♯m7 and B♭."},
        {"location": "fog/#bar", "title": "A bar that amazes", "text": "Café. Ammonite."},
        {"location": "chords/", "title": "Chord index", "text": "Every chord."},
        {"location": "chords/#a", "title": "A", "text": "First taught in Fog."},
        {"location": "chords/#am", "title": "Am", "text": "First taught in Fog."},
        {"location": "chords/#am7", "title": "Am7", "text": "First taught in Fog."},
        {"location": "chords/#fs", "title": "F♯", "text": ""},
        {"location": "chords/#bb", "title": "B♭", "text": ""},
        {"location": "chords/#c69", "title": "C6/9", "text": ""},
        {"location": "chords/#cmaj", "title": "Cmaj9(♯11)", "text": ""},
        {"location": "odd/", "title": "Q &amp; A &lt;b&gt;", "text": "x < y & z"},
    ]
}
MATCH = """async ([index, asked, base]) => {
  const { find, prepare } = await import(base + 'js/matcher.js');
  const prepared = prepare(index, 'chords/');
  return asked.map((words) => find(prepared, words).map((found) => found.entry.title));
}"""
FIRST = {
    "A": "A", "Am": "Am", "am": "Am", "Am7": "Am7", "F#": "F♯", "F♯": "F♯", "Bb": "B♭", "B♭": "B♭", "C6/9": "C6/9",
    "Cmaj9(#11)": "Cmaj9(♯11)", "F#m7": "Fog", "fog": "Fog", "bass goes": "Fog", "cafe": "A bar that amazes",
    "amaz": "A bar that amazes", "chord index": "Chord index", "q & a": "Q & A <b>", "  Am  ": "Am",
}  # fmt: skip
NOT_THERE = ["", "   ", "#", "(", "zzz", "Am zzz", ".*", "[a-z]", "\\"]


def test_the_best_match_comes_first(visit: Visiting) -> None:
    with visit() as student:
        found = student.open().evaluate(MATCH, [INDEX, list(FIRST), student.address])
    assert {asked: titles[:1] for asked, titles in zip(FIRST, found, strict=True)} == {
        asked: [first] for asked, first in FIRST.items()
    }


def test_what_is_not_there_is_not_found(visit: Visiting) -> None:
    with visit() as student:
        assert student.open().evaluate(MATCH, [INDEX, NOT_THERE, student.address]) == [[]] * len(NOT_THERE)


def test_the_letter_a_is_the_chord_not_the_beginning_of_every_word(visit: Visiting) -> None:
    with visit() as student:
        (found,) = student.open().evaluate(MATCH, [INDEX, ["A"], student.address])
    assert "A" in found
    assert not {"Am", "Am7"} & set(found)


def search(page: Page, asked: str) -> None:
    page.click("button[data-search]")
    page.keyboard.type(asked)
    until(page, "document.querySelector('dialog [role=status]').textContent !== ''")


def test_a_chord_of_the_demo_is_found_by_its_exact_name(visit: Visiting, lessons: list[str]) -> None:
    with visit() as student:
        for chord in ("Am", "A"):
            page = student.open(lessons[2])
            search(page, chord)
            assert page.locator("dialog ol a").first.inner_text() == chord
            page.keyboard.press("Enter")
            page.wait_for_url("**/chords/**")
            place = "document.getElementById(decodeURIComponent(location.hash.slice(1)))"
            assert page.evaluate(f"{place}.querySelector('.fp-chord').textContent") == chord


def test_the_keyboard_is_enough(visit: Visiting) -> None:
    with visit() as student:
        page = student.open()
        page.focus("button[data-search]")
        page.keyboard.press("Enter")
        page.keyboard.type("bar")
        page.wait_for_selector("dialog ol li:nth-child(2) a")
        page.keyboard.press("ArrowDown")
        page.keyboard.press("ArrowDown")
        assert page.evaluate("[...document.querySelectorAll('dialog ol a')].indexOf(document.activeElement)") == 1
        page.keyboard.press("ArrowUp")
        page.keyboard.press("ArrowUp")
        assert page.evaluate("document.activeElement.id") == "search-field"
        page.keyboard.press("Escape")
        assert page.evaluate("document.activeElement.hasAttribute('data-search')")


def test_how_many_were_found_is_announced(visit: Visiting) -> None:
    with visit() as student:
        page = student.open()
        search(page, "zzzz")
        assert "Nothing has “zzzz”" in page.inner_text("dialog [role=status]")
        assert page.locator("dialog ol li").count() == 0


def test_the_index_is_fetched_when_asked_for_and_only_once(visit: Visiting) -> None:
    with visit() as student:
        page = student.open()
        assert not any("search_index" in url for url in student.asked)
        search(page, "bar")
        search_again = page.locator("#search-field")
        search_again.fill("capo")
        page.wait_for_timeout(50)
        assert sum("search_index" in url for url in student.asked) == 1


def test_nothing_in_the_index_or_the_field_becomes_markup(visit: Visiting) -> None:
    hostile = "<img src=x onerror=alert(1)>"
    index = {"docs": [{"location": "", "title": f"{hostile} lamp", "text": f"lamp {hostile} lamp"}]}
    with visit() as student:
        student.page.route("**/search_index.json", lambda route: route.fulfill(body=json.dumps(index)))
        page = student.open()
        search(page, "lamp")
        assert page.locator("dialog ol a").first.inner_text() == f"{hostile} lamp"
        page.fill("#search-field", hostile)
        page.wait_for_timeout(50)
        assert page.locator("dialog img").count() == 0


def test_a_search_that_cannot_be_reached_says_so(visit: Visiting) -> None:
    with visit() as student:
        student.means("ERR_FAILED")
        student.page.route("**/search_index.json", lambda route: route.abort())
        page = student.open()
        search(page, "A")
        assert "can't be reached" in page.inner_text("dialog [role=status]")
