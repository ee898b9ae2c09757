"""The tuner and the check that strings ring, through a fake microphone; and what is said where none may be used."""

from __future__ import annotations

import math
import re
from collections import Counter
from collections.abc import Callable, Iterator
from contextlib import AbstractContextManager
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page

from .looking import Visit, until, visiting
from .recordings import SPY, hearing, plucked, record, silence, tone

pytestmark = pytest.mark.xdist_group("sound")
Visiting = Callable[..., AbstractContextManager[Visit]]
LISTEN = ".tuner [data-listen]"
SMALL = pytest.mark.parametrize("size", [(390, 844), (390, 664), (844, 390), (320, 256)], ids="{0[0]}x{0[1]}".format)
OUT_OF_SIGHT = """(parts) => parts.filter((part) => {
  const shown = document.querySelector(part);
  const { top, bottom, left, right, height } = shown.getBoundingClientRect();
  return !height || top < -1 || bottom > innerHeight + 1 || left < -1 || right > innerWidth + 1
    || !shown.contains(document.elementFromPoint((left + right) / 2, (top + bottom) / 2));
})"""
"""Those of some parts that a student with both hands on the guitar would not see: out of the window, or covered."""


def cents(page: Page) -> int:
    """What the tuner says: cents above the note, negative below it."""
    text = page.inner_text(".tuner [data-cents]")
    number = int(re.findall(r"\d+", text)[0])
    return -number if "flat" in text else number


@pytest.fixture(scope="module")
def recordings(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A flat A string; and the strings of A minor, string 3 left open at first."""
    folder = tmp_path_factory.mktemp("recordings")
    record(folder / "a.wav", [tone(44.82, 4)])
    pause = silence(0.4)
    plucks = [part for midi in (45, 52, 55, 57) for part in (tone(midi, 1.1), pause)]
    record(folder / "am.wav", [silence(1.5), *plucks, silence(6)])
    record(folder / "room.wav", [silence(4)])
    return folder


@pytest.fixture
def flat(browser: Browser, recordings: Path) -> Iterator[Browser]:
    with hearing(browser.browser_type, recordings / "a.wav") as opened:
        yield opened


def test_a_flat_string_is_named_and_told_by_word_number_and_place(flat: Browser, address: str) -> None:
    with visiting(flat, address) as student:
        page = student.open("tuner/")
        page.click(LISTEN)
        until(page, "document.querySelector('.tuner [data-cents]').textContent.includes('flat')")
        page.wait_for_timeout(600)
        assert abs(cents(page) + 18) <= 3
        assert page.inner_text(".tuner [data-note]") == "A"
        assert page.inner_text(".tuner [data-which]") == "string 5"
        assert page.inner_text(".tuner .tuner-verdict").startswith("Flat")
        mark, goal = (page.locator(f".tuner-{one}").bounding_box() for one in ("mark", "goal"))
        assert mark
        assert goal
        assert mark["x"] < goal["x"]
        page.locator("[data-only]").first.click()
        until(page, "document.querySelector('.tuner .tuner-verdict').textContent.startsWith('Much too high')")
        page.click(LISTEN)
        assert page.inner_text(".tuner [data-says]") == "The microphone is off."
        assert all(url.startswith(student.address) for url in student.asked), "nothing is sent"


LIVE = "window.heard.flatMap((one) => one.getTracks()).filter((track) => track.readyState === 'live').length"
# Keeps every stream that the page has listened to.
STREAMS = """(() => {
  window.heard = [];
  const devices = navigator.mediaDevices, listen = devices.getUserMedia.bind(devices);
  devices.getUserMedia = async (wanted) => {
    const stream = await listen(wanted);
    window.heard.push(stream);
    return stream;
  };
})()"""


def listeners(page: Page) -> list[tuple[str, int]]:
    """How many listen for what at the page's document and window: what a closed view leaves behind."""
    session = page.context.new_cdp_session(page)
    found = Counter[str]()
    for place in ("document", "window"):
        handle = session.send("Runtime.evaluate", {"expression": place})["result"]["objectId"]
        told = session.send("DOMDebugger.getEventListeners", {"objectId": handle})["listeners"]
        found.update(f"{place} {one['type']}" for one in told)
    return sorted(found.items())


def test_when_no_string_is_left_the_microphone_is_off_the_sum_stays_and_so_does_the_focus(
    browser: Browser, address: str, recordings: Path
) -> None:
    with hearing(browser.browser_type, recordings / "room.wav") as opened, visiting(opened, address) as student:
        student.page.add_init_script(STREAMS)
        page = student.open("the-long-dark/")
        before = None
        for _ in range(2):
            page.locator("[data-ring]").first.click()
            page.click(".ring [data-listen]")
            until(page, "document.querySelector('.ring [data-says]').textContent === 'Pluck string 5.'")
            assert page.evaluate(LIVE) == 1
            page.focus(".ring [data-next]")
            for _ in range(5):
                page.keyboard.press("Enter")
            assert page.inner_text(".ring [data-says]") == "0 of 5 strings rang. The microphone is off."
            assert page.evaluate(LIVE) == 0
            assert page.inner_text(".ring [data-listen]") == "Listen by microphone"
            assert page.evaluate("document.activeElement.matches('.ring [data-listen]')")
            page.keyboard.press("Escape")
            until(page, "document.querySelector('.ring') === null")
            before = before or listeners(page)
        assert listeners(page) == before, "a check that is closed listens to nothing any more"


HOP = 0.03
"""Seconds from one reading to the next (theme/js/tuner/pitch.js)."""
# Keeps every reading that is shown, in their order; one without a text where nothing has been heard for a while.
READINGS = """(() => {
  window.readings = [];
  let string = '';
  const [which, cents] = ['which', 'cents'].map((one) => document.querySelector(`.tuner [data-${one}]`));
  new MutationObserver((changes) => {
    for (const { target, addedNodes } of changes) {
      const text = [...addedNodes].map((node) => node.data ?? '').join('');
      if (target === which) string = text;
      if (target === cents) window.readings.push([string, text]);
    }
  }).observe(cents.closest('.tuner-reading'), { childList: true, subtree: true });
})()"""
PLUCKED = {6: (40, -0.31), 3: (55, 0.18), 1: (64, -0.12)}
"""Strings by their number: MIDI number, and by how much they are off."""
GLIDE = 15


def runs(page: Page) -> list[list[tuple[str, str]]]:
    """The readings of each pluck that is over."""
    out: list[list[tuple[str, str]]] = [[]]
    for string, text in page.evaluate("readings"):
        if text:
            out[-1].append((string, text))
        elif out[-1]:
            out.append([])
    return out[:-1]


@pytest.mark.parametrize("noise", [20, 30])
def test_stiff_gliding_noisy_strings_are_read_within_three_cents_and_never_grossly_wrong(
    browser: Browser, address: str, tmp_path: Path, noise: int
) -> None:
    plucks = [
        part
        for midi, off in PLUCKED.values()
        for part in (plucked(midi + off, 1.6, stiff=1.5e-4, glide=GLIDE, noise=noise), silence(2.6))
    ]
    record(tmp_path / "plucks.wav", [silence(0.5), *plucks])
    with hearing(browser.browser_type, tmp_path / "plucks.wav") as opened, visiting(opened, address) as student:
        page = student.open("tuner/")
        page.evaluate(READINGS)
        page.click(LISTEN)
        until(page, "readings.filter(([, text]) => !text).length > 3", seconds=40)
        heard = runs(page)
    settled = int(0.5 / HOP)
    assert len(heard) >= len(PLUCKED)
    for (number, (_, off)), run in zip(PLUCKED.items(), heard, strict=False):
        assert {string for string, _ in run} == {f"string {number}"}
        assert not [text for _, text in run if "semitone" in text]
        later = [int(re.findall(r"\d+", text)[0]) * (-1 if "flat" in text else 1) for _, text in run[settled:]]
        assert len(later) > settled, "it is read to its end"
        # What is left of the glide is counted to the truth; half a cent is lost where the page shows whole ones.
        truth, left = 100 * off, GLIDE * math.exp(-4 * 0.5)
        assert all(truth - 3.5 <= cents <= truth + left + 3.5 for cents in later), (number, later)
        assert abs(later[-1] - truth) <= 3.5


@pytest.mark.parametrize(
    ("midi", "said"),
    [
        (45.00, "0 cents off"),
        (45.01, "1 cent off"),
        (45.20, "20 cents sharp"),
        (44.02, "about 1 semitone flat"),
        (46.04, "about 1 semitone sharp"),
        (42.98, "about 2 semitones flat"),
    ],
)
def test_one_cent_and_one_semitone_are_told_as_one(visit: Visiting, midi: float, said: str) -> None:
    with visit() as student:
        page = student.open("tuner/")
        until(page, "!!document.querySelector('.tuner')")
        # String 5 alone, so that what is far off is told of it; the pitch comes as the microphone's would.
        shown = page.evaluate(
            """async (midi) => {
              const { displayOf } = await import('/js/tuner/panel.js');
              const row = document.querySelector('tr[data-midi="45"]');
              const rows = [...row.closest('table').querySelectorAll('tr[data-midi]')];
              const tuning = { rows, midi: rows.map((one) => Number(one.dataset.midi)) };
              const chosen = { tuning: () => tuning, wanted: () => rows.indexOf(row) };
              const display = displayOf(document.querySelector('.tuner'), chosen);
              display.show({ hertz: 440 * 2 ** ((midi - 69) / 12), power: 1 }, 0);
              return document.querySelector('.tuner [data-cents]').textContent;
            }""",
            midi,
        )
        assert shown == said


@SMALL
def test_the_reading_is_in_sight_as_soon_as_the_tuner_listens(
    flat: Browser, address: str, size: tuple[int, int]
) -> None:
    reading = [f".tuner .tuner-{part}" for part in ("note", "scale", "verdict", "cents")]
    with visiting(flat, address, size) as student:
        page = student.open("tuner/")
        page.click(LISTEN)
        until(page, "document.querySelector('.tuner [data-cents]').textContent.includes('flat')")
        assert page.evaluate(OUT_OF_SIGHT, reading) == []
        # Chosen further down, one string alone is looked at again.
        page.locator("[data-only]").last.click()
        until(page, "document.querySelector('.tuner [data-cents]').textContent.includes('flat')")
        assert page.evaluate(OUT_OF_SIGHT, reading) == []


@SMALL
def test_the_string_that_is_asked_for_is_in_sight_and_so_is_what_is_said_of_the_last(
    browser: Browser, address: str, recordings: Path, size: tuple[int, int]
) -> None:
    with hearing(browser.browser_type, recordings / "room.wav") as opened, visiting(opened, address, size) as student:
        page = student.open("the-long-dark/")
        page.locator("[data-ring]").first.click()
        page.click(".ring [data-listen]")
        for string in (5, 4, 3, 2, 1):
            until(page, f"document.querySelector('.ring [data-says]').textContent.includes('Pluck string {string}.')")
            asked = page.inner_text(".ring li[aria-current]")
            assert asked.startswith(f"String {string}, ")
            assert page.evaluate(OUT_OF_SIGHT, [".ring [data-says]", ".ring li[aria-current]"]) == []
            page.locator(".ring [data-next]").dispatch_event("click")


def test_strings_ring_or_are_wrong_one_by_one(browser: Browser, address: str, recordings: Path) -> None:
    said: list[str] = []
    with hearing(browser.browser_type, recordings / "am.wav") as opened, visiting(opened, address) as student:
        page = student.open("the-long-dark/")
        page.locator("[data-ring]").first.click()
        page.click(".ring [data-listen]")
        until(page, "document.querySelectorAll('.ring li[data-verdict=rings]').length >= 2", seconds=15)
        until(page, "document.querySelectorAll('.ring li[data-verdict=rings]').length >= 3", seconds=15)
        said = page.locator(".ring li").all_inner_texts()
    assert said[0] == "String 5, open: rings."
    assert said[2] == "String 3, fret 2: rings."


@pytest.mark.parametrize("opener", [None, "[data-ring]"], ids=["tuner", "ring"])
def test_the_key_that_asks_to_listen_also_ends_it_and_the_focus_stays(
    flat: Browser, address: str, opener: str | None
) -> None:
    with visiting(flat, address) as student:
        student.page.add_init_script(
            "(() => { const devices = navigator.mediaDevices, listen = devices.getUserMedia.bind(devices);"
            " const answered = new Promise((yes) => { window.answer = yes; });"
            " devices.getUserMedia = (wanted) => answered.then(() => listen(wanted)); })()"
        )
        page = student.open("the-long-dark/" if opener else "tuner/")
        if opener:
            page.locator(opener).first.click()
        within = ".ring" if opener else ".tuner"
        focused = f"document.activeElement?.matches('{within} [data-listen]')"
        page.focus(f"{within} [data-listen]")
        page.keyboard.press("Enter")
        until(page, f"document.querySelector('{within} [data-listen]').ariaDisabled === 'true'")
        assert page.evaluate(focused), "while the browser asks"
        page.evaluate("answer()")
        until(page, f"document.querySelector('{within} [data-listen]').textContent === 'Stop listening'")
        assert page.evaluate(focused), "while it listens"
        page.keyboard.press("Enter")
        until(page, f"document.querySelector('{within} [data-says]').textContent === 'The microphone is off.'")
        assert page.evaluate(focused)


def test_a_microphone_that_may_not_be_used_is_said_in_plain_words(visit: Visiting) -> None:
    cases = {
        "NotAllowedError": "may not be used",
        "NotFoundError": "No microphone",
        "NotReadableError": "another program",
    }
    for error, words in cases.items():
        with visit() as student:
            student.page.add_init_script(
                "navigator.mediaDevices.getUserMedia = (wanted) => { window.wanted = wanted;"
                f" return Promise.reject(new DOMException('', '{error}')); }}"
            )
            page = student.open("tuner/")
            page.click(LISTEN)
            until(page, f"document.querySelector('.tuner [data-says]').textContent.includes('{words}')")
            assert page.evaluate("Object.values(window.wanted.audio)") == [False, False, False]
            assert page.inner_text(LISTEN) == "Tune by microphone"


def test_tones_by_ear_and_the_tuning_of_the_lesson(visit: Visiting) -> None:
    with visit() as student:
        student.page.add_init_script(SPY)
        page = student.open("storm-from-the-south/")
        page.click(".top a[data-tuner]")
        page.wait_for_url("**/tuner/#tuning-38-45-50-55-57-62")
        until(page, "document.querySelectorAll('[data-hear=tone]').length === 12")
        assert page.evaluate("spy.contexts") == 0
        assert page.locator(".tuner input:checked").get_attribute("value") == "tuning-38-45-50-55-57-62"
        page.locator("[data-hear=tone]").first.click()
        until(page, "spy.starts.length === 1")


def test_without_scripts_the_page_says_what_each_string_is_tuned_to(visit: Visiting) -> None:
    with visit(java_script_enabled=False) as student:
        student.page.goto(student.address + "tuner/")
        assert "82.41 Hz" in student.page.inner_text("main")
        assert student.page.locator("main button:visible").count() == 0
