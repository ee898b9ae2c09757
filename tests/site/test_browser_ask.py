"""The questions at a lesson's end: asked, answered by tap and by key, explained, and never a mark kept."""

from __future__ import annotations

import pytest

from .looking import until

pytestmark = pytest.mark.xdist_group(__name__)
SECTION = "[data-ask]"


def begin(page) -> None:
    page.click(f"{SECTION} [data-ask-begin]")
    until(page, "!!document.querySelector('.ask fieldset')")


def right(page) -> str:
    """What the question's right answer is, worked out from the lesson's own table and arm."""
    return page.evaluate(
        """() => {
          const asked = document.querySelector('.ask fieldset').textContent;
          const words = document.querySelector('.ask figure svg').ariaLabel;
          const steps = [...document.querySelectorAll('.fp-step')].filter((step) =>
            step.querySelector('.fp-figure > .fp-frame desc').textContent === words);
          const step = steps.find((one) => asked.includes('new') ? one.querySelector('.fp-row-note .fp-new') : true);
          return asked.includes('new')
            ? step.querySelector('.fp-row-note .fp-new [data-name]').dataset.name
            : step.querySelector('.fp-arm .fp-chord').dataset.name;
        }"""
    )


def test_a_round_is_answered_rightly_with_the_reason_each_time_and_nothing_is_kept(visit, lessons) -> None:
    with visit() as student:
        page = student.open(lessons[0])
        stored = page.evaluate("JSON.stringify(localStorage)")
        begin(page)
        asked = 0
        while page.locator(".ask fieldset").count():
            answer = right(page)
            page.click(f'.ask button[data-option="{answer}"]')
            assert page.inner_text(".ask-reason b") == "Right."
            assert page.locator(".ask-reason .fp-strings").count() == 1
            assert page.locator(".ask button[data-option]:enabled").count() == 0
            # The reason is what is read next.
            assert page.evaluate("document.activeElement.className") == "ask-reason"
            page.click(".ask-on button")
            asked += 1
        assert page.inner_text(".ask-reason b") == f"{asked} of {asked} right."
        assert asked >= 4
        assert page.evaluate("JSON.stringify(localStorage)") == stored


# For each step of the page, by its id: its chord's name, and what its table says each string sounds in that chord.
TONES = """() => Object.fromEntries([...document.querySelectorAll('.fp-step[data-pitches]')].map((step) => {
  const row = (kind) => [...step.querySelectorAll(`.fp-row-${kind} td`)];
  const tones = row('note').map((cell, at) => [cell.querySelector('[data-name]')?.textContent,
    row('interval')[at].querySelector('[aria-label]')?.getAttribute('aria-label')]).filter(([note]) => note);
  return [step.id, [step.querySelector('.fp-arm .fp-chord').textContent, tones]];
}))"""
REASON = ".ask-reason [data-slot=reason]"


@pytest.mark.parametrize("lesson", ["the-gate/", "the-mast-hums-e/"], ids=["plain", "with a capo"])
@pytest.mark.parametrize("lying", [False, True], ids=["upright", "lying"])
def test_a_name_is_explained_by_the_tones_of_its_chord_from_the_root_upwards(visit, lesson: str, lying: bool) -> None:
    with visit() as student:
        if lying:
            student.page.add_init_script("localStorage.setItem('fingerpost:view', '{\"view\": \"player\"}')")
        page = student.open(lesson)
        with visit() as other:
            tones = other.open(lesson).evaluate(TONES)
        explained = 0
        begin(page)
        while page.locator(".ask fieldset").count():
            asks_name = "called" in page.inner_text(".ask legend")
            page.locator(".ask button[data-option]").first.click()
            until(page, f"!!document.querySelector('{REASON}')")
            if asks_name:
                step = page.get_attribute(".ask-reason [data-slot=step]", "href")
                name, heard = tones[step.lstrip("#")]
                said = page.inner_text(REASON)
                assert said.startswith(f"{name}: {name[0]}")
                assert said.index("(the root)") == min(said.index(f"({words})") for _, words in heard)
                for note, words in heard:
                    assert said.count(f"{note} ({words})") == 1, said
                explained += 1
            page.click(".ask-on button")
        assert explained >= 2


def test_the_table_of_a_reason_holds_no_control_that_does_nothing(visit, lessons) -> None:
    with visit() as student:
        page = student.open(lessons[0])
        begin(page)
        page.locator(".ask button[data-option]").first.click()
        until(page, "!!document.querySelector('.ask-reason .fp-strings')")
        assert page.locator(".ask-reason th button").count() == 0
        heads = "(all) => all.map((one) => one.innerText.trim())"
        assert page.locator(".ask-reason thead th").evaluate_all(heads)[1:] == [
            "E 6",
            "A 5",
            "D 4",
            "G 3",
            "B 2",
            "e 1",
        ]


def test_a_note_is_read_aloud_as_a_note_and_no_chord(visit, lessons) -> None:
    with visit() as student:
        page = student.open(lessons[0])
        begin(page)
        assert "one note is new" in page.inner_text(".ask legend")
        for label in page.locator(".ask [data-option] [data-name]").evaluate_all(
            "(all) => all.map((one) => one.ariaLabel)"
        ):
            assert label is None or "major" not in label


def test_a_wrong_answer_is_told_in_words_by_the_keyboard_too(visit, lessons) -> None:
    with visit() as student:
        page = student.open(lessons[0])
        page.focus(f"{SECTION} [data-ask-begin]")
        page.keyboard.press("Enter")
        until(page, "!!document.querySelector('.ask fieldset')")
        answer = right(page)
        wrong = page.locator(f'.ask button[data-option]:not([data-option="{answer}"])').first
        wrong.focus()
        page.keyboard.press("Enter")
        assert page.inner_text(".ask-reason b") == "Not quite."
        assert wrong.locator("small").inner_text() == "not this one"
        assert page.locator(f'.ask button[data-option="{answer}"] small').inner_text() == "this one"


def test_no_picture_gives_its_name_away_and_no_id_stands_twice(visit, lessons) -> None:
    with visit() as student:
        page = student.open(lessons[0])
        begin(page)
        for _ in range(2):
            assert page.locator(".ask figure title").count() == 0
            assert page.evaluate("document.querySelector('.ask figure svg').ariaLabel").startswith("Finger")
            ids = page.evaluate("[...document.querySelectorAll('[id]')].map((one) => one.id)")
            assert len(ids) == len(set(ids))
            page.locator(".ask button[data-option]").first.click()
            page.click(".ask-on button")


def test_answers_are_large_and_names_follow_the_readers_style(visit, lessons) -> None:
    with visit() as student:
        student.page.add_init_script("localStorage.setItem('fingerpost:view', '{\"notes\": \"solfege\"}')")
        page = student.open(lessons[0])
        begin(page)
        until(page, "/^(Do|Re|Mi|Fa|Sol|La|Si)/.test(document.querySelector('.ask button[data-option]').textContent)")
        for button in page.locator(".ask button[data-option]").all():
            box = button.bounding_box()
            assert box["height"] >= 44
            assert box["width"] >= 44


def test_a_page_without_scripts_shows_no_dead_control(visit, lessons) -> None:
    with visit(java_script_enabled=False) as student:
        student.page.goto(student.address + lessons[0])
        assert not student.page.locator(SECTION).is_visible()
