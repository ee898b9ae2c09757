"""Carrying on where one stopped, the contents that follow, and ticks that stay; kept in this browser, sent nowhere."""

from __future__ import annotations

from collections.abc import Callable
from contextlib import AbstractContextManager

import pytest
from playwright.sync_api import Page

from .looking import DESK, PHONE, Visit, until

pytestmark = pytest.mark.xdist_group(__name__)
Visiting = Callable[..., AbstractContextManager[Visit]]


def read_to(page: Page, number: int) -> str:
    """Scrolls to a step as a reader does, and gives its id."""
    step = page.locator(".fp-step").nth(number)
    page.mouse.wheel(0, 40)
    step.evaluate("(step) => step.scrollIntoView()")
    ident = step.get_attribute("id")
    assert ident
    until(
        page,
        "(id) => Object.entries(localStorage).some(([name, kept]) => name.includes('place') && kept.includes(id))",
        ident,
    )
    return ident


def test_home_begins_the_course_then_carries_on_at_the_step_last_read(visit: Visiting, lessons: list[str]) -> None:
    with visit() as student:
        page = student.open()
        control = page.locator("main .carry-on")
        assert control.count() == 1
        assert control.inner_text().startswith("Begin")
        assert control.get_attribute("href") == lessons[0]
        page = student.open(lessons[2])
        title, step = page.inner_text("h1"), read_to(page, 3)
        name = page.locator(".fp-step .fp-chord").nth(3).inner_text()
        page = student.open()
        assert page.inner_text("main .carry-on").split("\n")[0] == "Carry on"
        assert title in page.inner_text("main .carry-on")
        assert name in page.inner_text("main .carry-on")
        page.click("main .carry-on")
        page.wait_for_url(f"**/{lessons[2]}#{step}")
        box = page.locator(f"[id='{step}']").bounding_box()
        assert box
        assert -5 < box["y"] < 200


def test_a_lesson_that_was_only_opened_is_not_where_one_stopped(visit: Visiting, lessons: list[str]) -> None:
    with visit() as student:
        page = student.open(lessons[1])
        kept = read_to(page, 2)
        page = student.open(lessons[4])
        assert page.locator(".carry-on:visible").count() == 0
        page.wait_for_timeout(100)
        page = student.open(lessons[1])
        assert page.locator(".carry-on").is_visible()
        assert kept in (page.locator(".carry-on").get_attribute("href") or "")


def test_a_step_whose_shape_has_changed_is_found_by_its_place(visit: Visiting, lessons: list[str]) -> None:
    rename = """(id) => {
      for (const name of Object.keys(localStorage)) localStorage[name] = localStorage[name].replaceAll(id, 'gone');
    }"""
    near = "(id) => Math.abs(document.getElementById(id)?.getBoundingClientRect().top ?? 999) < 200"
    with visit() as student:
        page = student.open(lessons[1])
        ident = read_to(page, 3)
        page.evaluate(rename, ident)
        page = student.open()
        page.click("main .carry-on")
        until(page, near, ident)


def test_the_contents_mark_the_step_that_is_read(visit: Visiting, lessons: list[str]) -> None:
    with visit(size=DESK) as student:
        page = student.open(lessons[0])
        links = page.locator(".contents ol a")
        assert links.count() == page.locator(".fp-step").count()
        ident = read_to(page, 4)
        current = page.locator(".contents [aria-current=location]")
        assert current.count() == 1
        assert (current.get_attribute("href") or "").endswith(ident)


def test_the_contents_are_folded_on_a_phone_and_open_on_a_desk(visit: Visiting, lessons: list[str]) -> None:
    with visit(size=PHONE) as student:
        page = student.open(lessons[0])
        assert page.locator(".contents ol a:visible").count() == 0
        page.click(".contents summary")
        page.locator(".contents ol a").nth(2).click()
        assert page.evaluate("location.hash.slice(1)") == page.locator(".fp-step").nth(2).get_attribute("id")
        assert page.locator(".contents ol a:visible").count() == 0
    with visit(size=DESK) as student:
        page = student.open(lessons[0])
        assert page.locator(".contents ol a:visible").count() > 2
        contents, body = page.locator(".contents").bounding_box(), page.locator(".body").bounding_box()
        assert contents
        assert body
        assert contents["x"] > body["x"] + body["width"] - 1


def test_ticks_stay_and_can_be_cleared(visit: Visiting, lessons: list[str]) -> None:
    with visit() as student:
        page = student.open(lessons[0])
        clear = page.locator("button:text('Clear the ticks')").first
        assert not clear.is_visible()
        page.locator(".fp-practice input").nth(1).check()
        page = student.open(lessons[0])
        assert page.locator(".fp-practice input").nth(1).is_checked()
        assert not page.locator(".fp-practice input").nth(0).is_checked()
        page.locator("button:text('Clear the ticks')").first.click()
        assert not page.locator(".fp-practice input").nth(1).is_checked()
        page = student.open(lessons[0])
        assert page.locator(".fp-practice input:checked").count() == 0


def test_a_tick_is_kept_also_where_one_leaves_before_the_frame_that_would_keep_it(
    visit: Visiting, lessons: list[str]
) -> None:
    with visit() as student:
        student.page.add_init_script("window.requestAnimationFrame = () => 0")
        page = student.open(lessons[0])
        page.locator(".fp-practice input").nth(1).check()
        page = student.open(lessons[0])
        assert page.locator(".fp-practice input").nth(1).is_checked()


def test_nothing_is_sent(visit: Visiting, lessons: list[str]) -> None:
    with visit() as student:
        page = student.open(lessons[0])
        read_to(page, 2)
        page.locator(".fp-practice input").first.check()
        asked = len(student.asked)
        page.wait_for_timeout(100)
        assert len(student.asked) == asked
        assert page.context.cookies() == []


def test_lessons_are_counted_and_joined_by_arms(visit: Visiting, lessons: list[str]) -> None:
    with visit() as student:
        page = student.open(lessons[1])
        assert f"Lesson 2 of {len(lessons)}" in page.inner_text(".where")
        names = {name: page.locator(f".ends a[rel={name}]") for name in ("prev", "next")}
        back, ahead = (names[name].bounding_box() for name in ("prev", "next"))
        assert back
        assert ahead
        names["next"].click()
        assert f"Lesson 3 of {len(lessons)}" in page.inner_text(".where")
        page = student.open(lessons[0])
        assert page.locator(".ends a[rel=prev]").count() == 0
        page = student.open(lessons[-1])
        assert page.locator(".ends a[rel=next]").count() == 0


def test_the_keyboard_goes_first_to_the_lesson(visit: Visiting, lessons: list[str]) -> None:
    with visit() as student:
        page = student.open(lessons[0])
        page.keyboard.press("Tab")
        assert page.evaluate("document.activeElement.className") == "skip"
        ring = page.evaluate("getComputedStyle(document.activeElement).outlineStyle")
        assert ring != "none"
        page.keyboard.press("Enter")
        assert page.evaluate("document.activeElement.id") == "main"
