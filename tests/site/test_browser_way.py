"""The maps and curves in a real browser, as a phone shows them: nothing overlaps, every name leads to its step."""

from __future__ import annotations

from collections.abc import Callable
from contextlib import AbstractContextManager

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Page

from .looking import PHONE, Visit, until

pytestmark = pytest.mark.xdist_group("browser")
Visiting = Callable[..., AbstractContextManager[Visit]]
LYING_ON_ANOTHER = """() => [...document.querySelectorAll('.fp-map svg')].flatMap((map) => {
  const frame = map.getBoundingClientRect();
  const boxed = (mark) => [mark.getBoundingClientRect(), mark];
  const texts = [...map.querySelectorAll('text:not(.fp-map-number)')].map(boxed);
  const solid = [...texts, ...[...map.querySelectorAll('.fp-map-stop, .fp-map-met, .fp-map-count, circle')].map(boxed)];
  const meet = (a, b) => a.left < b.right - 1 && b.left < a.right - 1 && a.top < b.bottom - 3 && b.top < a.bottom - 3;
  return [
    ...texts.flatMap(([box, text]) => solid.filter(([other, mark]) => mark !== text && meet(box, other))
      .map(([, mark]) => `${text.textContent} lies on ${mark.outerHTML.slice(0, 90)}`)),
    ...solid.filter(([box]) => box.left < frame.left - 1 || box.right > frame.right + 1)
      .map(([, mark]) => `${mark.outerHTML.slice(0, 90)} is cut off`),
    ...texts.filter(([, text]) => parseFloat(getComputedStyle(text).fontSize) * map.getScreenCTM().a < 14.9)
      .map(([, text]) => `${text.textContent} is too small`),
  ];
})"""
TOO_WIDE = """() => [...document.querySelectorAll('.fp-map-frame')]
  .filter((frame) => frame.scrollWidth > frame.clientWidth + 1)
  .map((frame) => frame.querySelector('title').textContent)"""
SMALL = """() => [...document.querySelectorAll('.fp-map-target')].map((mark) => mark.getBoundingClientRect())
  .filter(({ width, height }) => width < 24 || height < 41.9).length"""


def _violations(page: Page) -> list[str]:
    found = Axe().run(page).response["violations"]
    return [f"{one['id']}: {node['target']} {node['failureSummary']}" for one in found for node in one["nodes"]]


def _fits(page: Page) -> None:
    assert page.evaluate(LYING_ON_ANOTHER) == []
    assert page.evaluate(TOO_WIDE) == []
    assert page.evaluate(SMALL) == 0


def test_the_maps_of_lessons_fit_a_phone(visit: Visiting, lessons: list[str]) -> None:
    with visit(size=PHONE) as student:
        for path in lessons[1::4]:
            page = student.open(path)
            page.evaluate("document.querySelectorAll('.fp-map details').forEach((folded) => folded.open = true)")
            _fits(page)
        assert page.locator(".fp-map-drawn a").count() > 2
        assert _violations(page) == []


def test_the_map_of_the_course_fits_and_each_name_leads_to_its_step(visit: Visiting) -> None:
    with visit(size=PHONE, light="dark") as student:
        page = student.open("course-map/")
        _fits(page)
        assert _violations(page) == []
        hrefs = page.evaluate("[...document.querySelectorAll('.fp-map-drawn a')].map((a) => a.href.baseVal)")
        wanted: dict[str, set[str]] = {}
        for href in hrefs:
            path, _, ident = href.removeprefix("../").partition("#")
            wanted.setdefault(path, set()).add(ident)
        assert len(wanted) > 5
        for path, idents in list(wanted.items())[::6]:
            there = student.open(path).evaluate(
                "(ids) => ids.filter((id) => !document.getElementById(id))", list(idents)
            )
            assert there == []


def test_a_name_on_the_map_is_pressed_reached_by_key_and_written_as_the_reader_chose(
    visit: Visiting, lessons: list[str]
) -> None:
    with visit(size=PHONE) as student:
        page = student.open(lessons[0])
        last = page.locator(".fp-map-drawn a").last
        href = last.get_attribute("href")
        last.click()
        until(page, "(hash) => location.hash === hash", href)
        last.focus()
        page.keyboard.press("Shift+Tab")
        page.keyboard.press("Tab")
        ring = "getComputedStyle(document.activeElement.querySelector('.fp-map-target')).strokeWidth"
        assert page.evaluate(ring) == "3px"
        page.evaluate("document.activeElement.blur()")
        name = page.locator(".fp-map-name").first
        before = name.text_content()
        page.evaluate(
            "document.documentElement.dataset.notes = 'solfege';"
            "document.documentElement.dispatchEvent(new Event('viewchange'))"
        )
        until(page, "(before) => document.querySelector('.fp-map-name').textContent !== before", before)
        assert name.text_content() == "Re"
        assert page.evaluate(LYING_ON_ANOTHER) == []
