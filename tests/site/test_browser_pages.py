"""Every page of the demo course in a real browser: nothing wrong, nothing asked of others, nothing out of sight.

The accessibility rules are those of axe-core (WCAG 2.2 A and AA, and its best practices); contrast in light and dark is
among them. Widths: 390 px is a phone, 1280 px a desk, 320 px is 1280 px at 400 % (WCAG 2.2, 1.4.10).
"""

from __future__ import annotations

import itertools
from collections.abc import Callable
from contextlib import AbstractContextManager

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Page

from .looking import CUT_OFF, DESK, NARROW, PHONE, Visit

Visiting = Callable[..., AbstractContextManager[Visit]]
UNSEEN = """async () => {
  for (const image of document.querySelectorAll('main img')) { image.loading = 'eager'; await image.decode(); }
  return [...document.querySelectorAll('main svg[role=img], main img')].filter((picture) => {
  const box = picture.getBoundingClientRect();
  return box.width < 100 || box.height < 20 || getComputedStyle(picture).visibility !== 'visible';
}).map((picture) => picture.outerHTML.slice(0, 120));
}"""
SIDEWAYS = """() => {
  const width = document.documentElement.clientWidth;
  if (document.documentElement.scrollWidth <= width) return [];
  return [...document.querySelectorAll('body *')].filter((element) => element.getBoundingClientRect().right > width + 1)
    .map((element) => element.outerHTML.slice(0, 120)).slice(0, 5).concat('the page is too wide');
}"""


@pytest.mark.parametrize(("size", "light"), list(itertools.product((PHONE, DESK), ("light", "dark"))))
def test_no_page_has_an_error_a_stranger_or_a_picture_out_of_sight(
    visit: Visiting, pages: list[str], size: tuple[int, int], light: str
) -> None:
    wrong: dict[str, list[str]] = {}
    # Every page on the phone and on the desk, half of them in each light, in turns.
    half = ((PHONE, "light"), (DESK, "dark")).count((size, light))
    with visit(size=size, light=light) as student:
        for path in pages[half::2]:
            page = student.open(path)
            wrong[path] = page.evaluate(CUT_OFF)
            wrong[path] += page.evaluate(UNSEEN) + page.evaluate(SIDEWAYS)
    assert not any(wrong.values()), {path: found for path, found in wrong.items() if found}


@pytest.mark.parametrize("text", ["", "large"])
def test_no_page_scrolls_sideways_at_320_px(visit: Visiting, pages: list[str], text: str) -> None:
    with visit(size=NARROW) as student:
        student.page.add_init_script(f"localStorage.setItem('fingerpost:view', JSON.stringify({{text: '{text}'}}))")
        # All pages with large text, which is wider; every third as it comes.
        wrong = {
            path: (page := student.open(path)).evaluate(CUT_OFF) + page.evaluate(SIDEWAYS)
            for path in (pages if text else pages[::3])
        }
    assert not any(wrong.values()), {path: found for path, found in wrong.items() if found}


def _violations(page: Page) -> list[str]:
    found = Axe().run(page).response["violations"]
    return [f"{one['id']}: {node['target']} {node['failureSummary']}" for one in found for node in one["nodes"]]


@pytest.mark.parametrize(("size", "light"), [(PHONE, "light"), (PHONE, "dark"), (DESK, "light"), (DESK, "dark")])
def test_the_axe_rules_find_nothing(visit: Visiting, pages: list[str], size: tuple[int, int], light: str) -> None:
    wrong: dict[str, list[str]] = {}
    with visit(size=size, light=light) as student:
        # The rules take a second a page: each combination of width and light takes its turn through all pages.
        student.means("404")
        turn = [(PHONE, "light"), (PHONE, "dark"), (DESK, "light"), (DESK, "dark")].index((size, light))
        for path in ["", *pages[turn::4], "no-such-page/"]:
            wrong[path] = _violations(student.open(path))
    assert not any(wrong.values()), {path: found for path, found in wrong.items() if found}


def test_the_axe_rules_find_nothing_in_the_open_panels(visit: Visiting, lessons: list[str]) -> None:
    with visit() as student:
        page = student.open(lessons[0])
        page.click("summary:text('View')")
        assert _violations(page) == []
        page.keyboard.press("Escape")
        page.click("button[data-search]")
        page.keyboard.type("Am")
        page.wait_for_selector("dialog ol a")
        assert _violations(page) == []


def test_a_page_that_is_not_there_leads_back(visit: Visiting) -> None:
    with visit() as student:
        student.means("404")
        page = student.open("lessons/no-such-page/")
        page.click("main a.arm")
        page.wait_for_selector("main.home")
        assert page.locator("main.home").count() == 1


def test_everything_to_press_is_large_enough(visit: Visiting, lessons: list[str]) -> None:
    """WCAG 2.2, 2.5.8: 24 px, links within a sentence apart; what a thumb uses while playing: 44 px."""
    measure = """(selector) => [...document.querySelectorAll(selector)].map((element) => {
      const box = element.getBoundingClientRect();
      return [element.textContent.trim().slice(0, 40), Math.min(box.width, box.height), box.height];
    }).filter(([, least]) => least > 0)"""
    with visit() as student:
        page = student.open(lessons[1])
        small = [
            one
            for one in page.evaluate(measure, "button, summary, input, header a, footer a, .contents a")
            if one[1] < 24
        ]
        thumb = [one for one in page.evaluate(measure, ".arm, .top a, .top button, summary") if one[2] < 43.9]
    assert small == []
    assert thumb == []
