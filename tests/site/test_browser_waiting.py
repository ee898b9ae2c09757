"""What is far out of sight waits undrawn: a jump still lands, nothing shifts before one's eyes, sizes are taken anew.

Layout shift as browsers report it (Layout Instability API, W3C Community Group draft): what moves unasked.
"""

from __future__ import annotations

from collections.abc import Callable
from contextlib import AbstractContextManager

from playwright.sync_api import Page

from .looking import CUT_OFF, PHONE, Visit, until, whole

Visiting = Callable[..., AbstractContextManager[Visit]]
LONG = "the-gate/"
HEIGHTS = "[...document.querySelectorAll('.fp-step')].map((step) => step.offsetHeight)"
NOTE_SHIFTS = """globalThis.shifts = []; new PerformanceObserver((seen) => seen.getEntries()
  .filter((one) => !one.hadRecentInput)
  .forEach((one) => shifts.push([one.value, one.sources.map(({ node }) => node?.className)])))
  .observe({ type: 'layout-shift', buffered: true })"""
SKIPPED = """[...document.querySelectorAll('.fp-step')]
  .filter((step) => !step.firstElementChild.checkVisibility({ contentVisibilityAuto: true })).length"""
LAST_STEP = "[...document.querySelectorAll('.fp-step')].at(-2)"


def heights(visit: Visiting) -> list[int]:
    """Of every step of the lesson, all of them laid out."""
    with visit(size=PHONE) as student:
        return list(whole(student.open(LONG)).evaluate(HEIGHTS))


def waiting(page: Page, known: list[int] | None = None) -> None:
    """Until the steps that are far off wait; known: at these heights."""
    until(page, f"{SKIPPED} > 3")
    if known is not None:
        until(page, f"String({HEIGHTS}) === '{','.join(map(str, known))}' && {SKIPPED} > 3", seconds=30)


def test_what_is_far_waits_at_the_size_it_has(visit: Visiting) -> None:
    known = heights(visit)
    with visit(size=PHONE) as student:
        page = student.open(LONG)
        waiting(page, known)
        assert page.evaluate(CUT_OFF) == []


def test_who_comes_to_a_step_or_scrolls_sees_nothing_move(visit: Visiting) -> None:
    with visit(size=PHONE) as student:
        student.page.add_init_script(NOTE_SHIFTS)
        page = student.open(LONG)
        step = page.evaluate(f"{LAST_STEP}.id")
        page.goto("about:blank")
        page = student.open(f"{LONG}#{step}")
        top = f"Math.abs(document.getElementById('{step}').getBoundingClientRect().top) < 60"
        until(page, top)
        waiting(page)
        assert page.evaluate(top)
        for _ in range(12):
            page.mouse.wheel(0, -700)
            page.wait_for_timeout(50)
        assert page.evaluate("shifts") == []


def test_a_jump_lands_after_the_view_was_changed(visit: Visiting) -> None:
    with visit(size=PHONE) as student:
        page = student.open(LONG)
        waiting(page)
        page.click("summary:text('View')")
        page.click("input[name=view][value=player]", force=True)
        page.keyboard.press("Escape")
        now = page.evaluate(HEIGHTS)
        assert page.evaluate(SKIPPED) > 3
        # The sizes of those that wait are taken anew in the background.
        until(page, f"String({HEIGHTS}) !== '{','.join(map(str, now))}'")
        page.wait_for_timeout(1000)
        there = page.evaluate(HEIGHTS)
        assert page.evaluate(SKIPPED) > 3
        page.evaluate(f"{LAST_STEP}.scrollIntoView({{ behavior: 'instant' }})")
        page.wait_for_timeout(300)
        assert abs(page.evaluate(f"{LAST_STEP}.getBoundingClientRect().top")) < 60
        assert whole(page).evaluate(HEIGHTS) == there


def test_a_jump_that_comes_before_the_sizes_are_known_lands(visit: Visiting) -> None:
    with visit(size=PHONE) as student:
        page = student.open(LONG)
        assert page.evaluate("'waiting' in document.documentElement.dataset")
        page.evaluate(f"""() => {{
          const link = document.createElement('a');
          link.href = `#${{{LAST_STEP}.id}}`;
          document.body.append(link);
          link.click();
        }}""")
        until(page, f"Math.abs({LAST_STEP}.getBoundingClientRect().top) < 60")
        waiting(page)
        assert abs(page.evaluate(f"{LAST_STEP}.getBoundingClientRect().top")) < 60


def test_who_comes_back_is_where_they_were(visit: Visiting) -> None:
    known = heights(visit)
    with visit(size=PHONE) as student:
        page = student.open(LONG)
        waiting(page, known)
        page.evaluate(f"{LAST_STEP}.scrollIntoView({{ behavior: 'instant' }})")
        page.wait_for_timeout(500)
        there = page.evaluate("scrollY")
        page.reload()
        until(page, f"Math.abs(scrollY - {there}) < 2")
        assert page.evaluate(HEIGHTS) == known


def test_without_scripts_nothing_waits(visit: Visiting) -> None:
    with visit(size=PHONE, java_script_enabled=False) as student:
        page = student.page
        page.goto(student.address + LONG)
        assert page.locator(".fp-step .fp-frame").count() > 3
        assert page.locator(".fp-waits").count() == 0
