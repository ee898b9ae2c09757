"""The trial that listens to a strum, through a fake microphone: what it names, what it never says, when it lets go."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page

from .looking import until, visiting
from .recordings import hearing, record, silence, strum

pytestmark = pytest.mark.xdist_group("sound")
LESSON = "the-long-dark/"
A_MINOR = (45, 52, 57, 60, 64)
"""The lesson's first shape, x02210: A2 E3 A3 C4 E4, the lowest string first."""
STRING_2 = 60
SAYS = ".ring [data-strum-says]"
# Keeps what the page listens with, to be looked at from outside; the answer waits for `answer`, where a test sets it.
SPY = """(() => {
  const devices = navigator.mediaDevices;
  const listen = devices.getUserMedia.bind(devices);
  devices.getUserMedia = async (wanted) => {
    const heard = await listen(wanted);
    if (window.answered) await window.answered;
    window.heard = heard;
    window.all?.push(heard);
    return heard;
  };
})()"""


@pytest.fixture(scope="module")
def recordings(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A minor strummed, clean and with string 2 silent; and a room where nobody plays."""
    folder = tmp_path_factory.mktemp("strums")
    record(folder / "clean.wav", [silence(1), strum(A_MINOR), silence(1)])
    record(folder / "silent.wav", [silence(1), strum(A_MINOR, muted=STRING_2), silence(1)])
    record(folder / "room.wav", [silence(4)])
    return folder


@contextmanager
def trial(browser: Browser, address: str, recording: Path, allowed: bool = True) -> Iterator[Page]:
    """The trial of the lesson's first shape, open in a browser that hears a recording."""
    with hearing(browser.browser_type, recording, allowed) as opened, visiting(opened, address) as student:
        student.page.add_init_script(SPY)
        page = student.open(LESSON)
        page.locator("[data-ring]").first.click()
        page.click(".ring [data-strum-trial] summary")
        page.wait_for_selector(".ring [data-strum-covered]:not(:empty)")
        yield page
        assert all(url.startswith(student.address) for url in student.asked), "nothing is sent"


def said(page: Page) -> str:
    """What the page says once it has heard a strum, or can't."""
    page.click(".ring button[data-strum]")
    until(page, "document.querySelector('.ring button[data-strum]').ariaBusy === 'false'", seconds=20)
    return page.inner_text(SAYS)


def words(page: Page, which: str) -> str:
    """What stands in the page's own templates for that case."""
    return page.locator(f".ring [data-word={which}]").text_content() or ""


def test_a_string_that_is_silent_in_a_strum_is_named_and_the_microphone_let_go(
    browser: Browser, address: str, recordings: Path
) -> None:
    with trial(browser, address, recordings / "silent.wav") as page:
        assert page.inner_text(".ring [data-strum-covered]").endswith("covered by others: 3, 1.")
        assert said(page).startswith("String 2 seems to be silent.")
        assert page.evaluate("heard.getTracks().map((track) => track.readyState)") == ["ended"]


def test_each_string_that_a_strum_covers_is_marked_at_its_own_line_and_stays_so(
    browser: Browser, address: str, recordings: Path
) -> None:
    marked = """[...document.querySelectorAll('.ring li')].map((line) => line.textContent)
      .filter((line) => line.endsWith('can’t hear this one here.')).map((line) => Number(/\\d/.exec(line)[0]))"""
    with trial(browser, address, recordings / "room.wav") as page:
        # Of x02210 the overtones of string 3 are those of 5 an octave higher; of string 1 those of 4.
        assert page.evaluate(marked) == [3, 1]
        page.click(".ring [data-strum-trial] summary")
        page.click(".ring [data-listen]")
        until(page, "document.querySelector('.ring li[aria-current]') !== null")
        assert page.evaluate(marked) == [3, 1], "also when the lines are written anew"


def test_of_a_clean_strum_no_fault_is_named_and_no_praise_is_given(
    browser: Browser, address: str, recordings: Path
) -> None:
    with trial(browser, address, recordings / "clean.wav") as page:
        assert said(page) == words(page, "cant-tell") != ""
        assert "no praise and no blame" in words(page, "cant-tell")


def test_a_microphone_that_is_refused_is_said_in_plain_words_and_can_be_asked_for_again(
    browser: Browser, address: str, recordings: Path
) -> None:
    with trial(browser, address, recordings / "clean.wav", allowed=False) as page:
        for _ in range(2):
            assert said(page) == words(page, "denied")
        assert "may not be used here" in words(page, "denied")


def test_the_key_that_asks_to_be_listened_to_also_ends_it(browser: Browser, address: str, recordings: Path) -> None:
    with trial(browser, address, recordings / "room.wav") as page:
        control = page.locator(".ring button[data-strum]")
        control.focus()
        page.keyboard.press("Enter")
        until(page, "window.heard?.active === true")
        assert control.inner_text() == "Stop listening"
        assert control.evaluate("(one) => one === document.activeElement")
        page.keyboard.press("Enter")
        until(page, "heard.active === false", seconds=3)
        assert page.inner_text(SAYS) == words(page, "nothing") != ""
        assert control.inner_text() == "Listen to one strum"
        assert control.evaluate("(one) => one === document.activeElement")


LIVE = "window.all.flatMap((one) => one.getTracks()).filter((track) => track.readyState === 'live').length"
LISTEN, STRUM = ".ring [data-listen]", ".ring button[data-strum]"


@pytest.mark.parametrize(("first", "then"), [(LISTEN, STRUM), (STRUM, LISTEN)], ids=["strum last", "strum first"])
@pytest.mark.parametrize("answered", [True, False], ids=["while it listens", "while the browser asks"])
def test_only_one_of_the_check_and_the_trial_listens(
    browser: Browser, address: str, recordings: Path, first: str, then: str, answered: bool
) -> None:
    def stops(control: str) -> str:
        return f"document.querySelector('{control}').textContent === 'Stop listening'"

    with trial(browser, address, recordings / "room.wav") as page:
        page.evaluate("void (window.all = [], window.answered = new Promise((yes) => { window.answer = yes; }))")
        if answered:
            page.evaluate("answer()")
        page.click(first)
        if answered:
            until(page, f"{stops(first)} && {LIVE} === 1")
        page.click(then)
        page.evaluate("answer()")
        until(page, f"window.all.length === 2 && {LIVE} === 1")
        until(page, stops(then))
        assert not page.evaluate(stops(first))
        page.click(then)
        until(page, f"{LIVE} === 0")
        # What had begun first, and was ended, begins again when it is asked to.
        page.click(first)
        until(page, f"window.all.length === 3 && {stops(first)} && {LIVE} === 1")


@pytest.mark.parametrize("leave", [".ring [data-close]", "Escape"])
def test_whoever_closes_the_check_is_no_longer_listened_to(
    browser: Browser, address: str, recordings: Path, leave: str
) -> None:
    with trial(browser, address, recordings / "room.wav") as page:
        page.click(".ring button[data-strum]")
        until(page, "window.heard?.active === true")
        page.click(leave) if leave.startswith(".") else page.keyboard.press(leave)
        until(page, "heard.active === false", seconds=3)


@pytest.mark.parametrize("control", ["[data-strum]", "[data-listen]"])
def test_an_answer_that_comes_when_the_check_is_closed_opens_no_microphone(
    browser: Browser, address: str, recordings: Path, control: str
) -> None:
    with trial(browser, address, recordings / "room.wav") as page:
        page.evaluate("void (window.answered = new Promise((yes) => { window.answer = yes; }))")
        page.click(f".ring button{control}")
        page.keyboard.press("Escape")
        until(page, "document.querySelector('.ring') === null")
        page.evaluate("answer()")
        until(page, "window.heard?.active === false", seconds=3)
