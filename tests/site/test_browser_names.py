"""The names of notes and chords in the reader's own style: changed in the page, remembered, and taken back."""

from __future__ import annotations

import pytest

from .looking import until

pytestmark = pytest.mark.xdist_group(__name__)

TEXTS = "[...document.querySelectorAll('main [data-name]')].map((one) => one.textContent)"


def choose(page, name: str, value: str) -> None:
    if not page.evaluate("document.querySelector('details.view').open"):
        page.click("details.view > summary")
    page.check(f"input[name={name}][value='{value}']", force=True)


def test_names_change_in_the_page_and_back_without_reloading(visit, lessons) -> None:
    with visit() as one:
        page = one.open(lessons[0])
        built = page.evaluate(TEXTS)
        assert "B" in built
        choose(page, "notes", "german")
        until(page, f"!({TEXTS}).includes('B')")
        german = page.evaluate(TEXTS)
        # Only B has another name among the notes of C major; German calls it H.
        assert [new for old, new in zip(built, german, strict=True) if old == "B"] == ["H"] * built.count("B")
        # The string is called by its note too, in the table's head and in sentences.
        assert "the H string (2)" in page.text_content("main")
        choose(page, "notes", "solfege")
        until(page, f"({TEXTS}).includes('Sol')")
        choose(page, "notes", "english")
        until(page, f"({TEXTS}).includes('B')")
        assert page.evaluate(TEXTS) == built


def test_signs_of_chords_change_and_are_read_aloud_in_words(visit, pages) -> None:
    with visit() as one:
        page = one.open("chords/")
        before = page.evaluate("[...document.querySelectorAll('[data-name=Cmaj7]')].map((e) => e.ariaLabel)")
        choose(page, "sevenths", "triangle")
        until(
            page,
            "document.querySelector('[data-name=Cmaj7]').textContent === 'CΔ7' || "
            "document.querySelector('[data-name=Cmaj7]').textContent === 'CΔ'",
        )
        assert "major" in page.get_attribute("main [data-name=Cmaj7][role=img]", "aria-label")
        choose(page, "sevenths", "maj7")
        until(page, "document.querySelector('[data-name=Cmaj7]').textContent === 'Cmaj7'")
        assert page.evaluate("[...document.querySelectorAll('[data-name=Cmaj7]')].map((e) => e.ariaLabel)") == before


def test_the_choice_is_remembered_on_the_next_page_and_names_put_in_later_follow_it(visit, lessons) -> None:
    with visit() as one:
        page = one.open(lessons[0])
        choose(page, "notes", "solfege")
        until(page, f"({TEXTS}).includes('Sol')")
        page = one.open(lessons[1])
        until(page, f"!({TEXTS}).some((text) => /^[A-H]$/.test(text))")
        page.evaluate(
            "() => { const late = document.createElement('p'); late.innerHTML ="
            " '<span data-name=\"Am\" id=late>Am</span>'; document.querySelector('main').append(late); }"
        )
        until(page, "document.getElementById('late').textContent === 'Lam'")


def test_without_the_file_of_forms_the_names_stay_as_they_are(visit, lessons) -> None:
    with visit() as one:
        page = one.open(lessons[0])
        one.means("ERR_FAILED")
        page.route("**/names.json", lambda route: route.abort())
        built = page.evaluate(TEXTS)
        choose(page, "notes", "german")
        page.wait_for_timeout(200)
        assert page.evaluate(TEXTS) == built
