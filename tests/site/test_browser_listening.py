"""The tuner and the check that strings ring, while they ask for the microphone and while they listen, by the axe rules.

The rules are those of axe-core (WCAG 2.2 A and AA, and its best practices).
"""

from __future__ import annotations

from pathlib import Path

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser, Page

from .looking import DESK, PHONE, until, visiting
from .recordings import hearing, record, silence, tone

pytestmark = pytest.mark.xdist_group("sound")
LESSON = "the-long-dark/"
LIGHTS = pytest.mark.parametrize(
    ("light", "size"), [("light", PHONE), ("dark", PHONE), ("light", DESK), ("dark", DESK)]
)
# The browser asks the student, who has not answered yet.
ASKING = "navigator.mediaDevices.getUserMedia = () => new Promise(() => undefined)"


def violations(page: Page, within: str) -> list[str]:
    """What the rules find in a part of the page."""
    found = Axe().run(page, context=within).response["violations"]
    return [f"{one['id']}: {node['target']} {node['failureSummary']}" for one in found for node in one["nodes"]]


@pytest.fixture(scope="module")
def flat(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """An A string, a little flat, plucked again and again: the lesson's string 5, and wrong for every other."""
    return record(tmp_path_factory.mktemp("flat") / "a.wav", [silence(0.3), tone(44.85, 1.5)])


@LIGHTS
def test_the_axe_rules_find_nothing_in_the_tuner(
    browser: Browser, address: str, flat: Path, light: str, size: tuple[int, int]
) -> None:
    with visiting(browser, address, size, light) as student:
        student.page.add_init_script(ASKING)
        page = student.open("tuner/")
        page.click(".tuner details summary")
        page.click(".tuner [data-listen]")
        until(page, "document.querySelector('.tuner [data-listen][aria-disabled=true]') !== null")
        assert violations(page, "main") == []
    with hearing(browser.browser_type, flat) as opened, visiting(opened, address, size, light) as student:
        page = student.open("tuner/")
        page.locator("[data-only]").nth(1).click()
        page.click(".tuner [data-listen]")
        until(page, "document.querySelector('.tuner [data-scale]').dataset.heard === 'flat'")
        assert violations(page, "main") == []


@LIGHTS
def test_the_axe_rules_find_nothing_in_the_check_that_strings_ring(
    browser: Browser, address: str, flat: Path, light: str, size: tuple[int, int]
) -> None:
    def check(page: Page) -> None:
        page.locator("[data-ring]").first.click()
        page.click(".ring [data-strum-trial] summary")
        page.wait_for_selector(".ring [data-strum-covered]:not(:empty)")
        page.click(".ring [data-listen]")

    with visiting(browser, address, size, light) as student:
        student.page.add_init_script(ASKING)
        page = student.open(LESSON)
        check(page)
        page.click(".ring button[data-strum]")
        until(page, "document.querySelectorAll('.ring :is([aria-disabled=true], [aria-busy=true])').length === 2")
        assert violations(page, ".ring") == []
    with hearing(browser.browser_type, flat) as opened, visiting(opened, address, size, light) as student:
        page = student.open(LESSON)
        check(page)
        until(page, "document.querySelector('.ring li[data-verdict=rings]') !== null", seconds=15)
        until(page, "document.querySelector('.ring li[data-verdict=other-string]') !== null", seconds=15)
        assert violations(page, ".ring") == []
