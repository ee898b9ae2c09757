"""What is far out of sight waits undrawn, but only while a panel or the practice view lies over the lesson.

Layout shift as browsers report it (Layout Instability API, W3C Community Group draft): what moves unasked.
"""

from __future__ import annotations

from collections.abc import Callable
from contextlib import AbstractContextManager

import pytest
from playwright.sync_api import Page

from .looking import CUT_OFF, DESK, PHONE, Visit, until
from .practising import VIEW, gone, practise

Visiting = Callable[..., AbstractContextManager[Visit]]
LONG = "the-gate/"
HEIGHTS = "[...document.querySelectorAll('.fp-step')].map((step) => step.offsetHeight)"
WAITING = """[...document.querySelectorAll('.fp-step')]
  .filter((step) => !step.firstElementChild.checkVisibility({ contentVisibilityAuto: true })).length"""
LAST_STEP = "[...document.querySelectorAll('.fp-step')].at(-2)"
TURNED = "[...document.querySelectorAll('.fp-step .fp-strings')].every((t) => t.classList.contains('fp-strings-down'))"
NOTE_SHIFTS = """globalThis.shifts = []; new PerformanceObserver((seen) => seen.getEntries()
  .filter((one) => !one.hadRecentInput)
  .forEach((one) => shifts.push([one.value, one.sources.map(({ node }) => node?.className)])))
  .observe({ type: 'layout-shift', buffered: true })"""


def shut(page: Page) -> None:
    """Shuts the panel, and waits until nothing waits."""
    page.keyboard.press("Escape")
    until(page, f"{WAITING} === 0")


@pytest.mark.parametrize("size", [PHONE, DESK])
def test_while_the_panel_is_open_what_is_far_waits_at_its_size(visit: Visiting, size: tuple[int, int]) -> None:
    with visit(size=size) as student:
        page = student.open(LONG)
        before = page.evaluate(HEIGHTS)
        assert page.evaluate(WAITING) == 0
        page.click("summary:text('View')")
        until(page, f"{WAITING} > 3")
        assert page.evaluate(HEIGHTS) == before
        assert page.evaluate(CUT_OFF) == []
        shut(page)
        assert page.evaluate(HEIGHTS) == before


def test_what_waited_is_turned_as_chosen_and_a_jump_lands(visit: Visiting) -> None:
    with visit(size=PHONE) as student:
        page = student.open(LONG)
        page.click("summary:text('View')")
        until(page, f"{WAITING} > 3")
        page.click("input[name=view][value=player]", force=True)
        until(page, TURNED)
        shut(page)
        page.evaluate(f"{LAST_STEP}.scrollIntoView({{ behavior: 'instant' }})")
        assert abs(page.evaluate(f"{LAST_STEP}.getBoundingClientRect().top")) < 60
        there = page.evaluate(HEIGHTS)
        assert student.open(LONG).evaluate(HEIGHTS) == there


def test_behind_the_practice_view_the_lesson_waits_and_is_whole_again_after_it(visit: Visiting) -> None:
    with visit(size=PHONE) as student:
        page = practise(student, LONG)
        assert page.evaluate(WAITING) > 3
        page.click(f"{VIEW} [data-leave]")
        gone(page)
        assert page.evaluate(WAITING) == 0


def test_who_comes_to_a_step_or_scrolls_sees_nothing_move(visit: Visiting) -> None:
    with visit(size=PHONE) as student:
        student.page.add_init_script(NOTE_SHIFTS)
        page = student.open(LONG)
        step = page.evaluate(f"{LAST_STEP}.id")
        page.goto("about:blank")
        page = student.open(f"{LONG}#{step}")
        until(page, f"Math.abs(document.getElementById('{step}').getBoundingClientRect().top) < 60")
        for _ in range(12):
            page.mouse.wheel(0, -700)
            page.wait_for_timeout(50)
        assert page.evaluate("shifts") == []


def test_a_link_followed_right_after_the_panel_was_shut_lands(visit: Visiting) -> None:
    """What waited is laid out bit by bit then, each bit in its new size: a link does not wait for that."""
    with visit(size=PHONE) as student:
        page = student.open(LONG)
        page.click("summary:text('View')")
        until(page, f"{WAITING} > 3")
        page.click("input[name=view][value=player]", force=True)
        until(page, TURNED)
        left = page.evaluate(f"""async () => {{
          const step = {LAST_STEP}.id;
          document.querySelector('details.view').open = false;
          const all = {WAITING};
          while ({WAITING} === all) await new Promise(requestAnimationFrame);
          const some = {WAITING};
          document.querySelector(`.contents a[href$="#${{step}}"]`).click();
          return [some, {WAITING}];
        }}""")
        assert left[0] > 3, "it ends bit by bit"
        assert left[1] == 0, "the link ended it"
        assert abs(page.evaluate(f"{LAST_STEP}.getBoundingClientRect().top")) < 60


def test_no_caret_is_left_that_would_be_looked_for_in_every_frame(visit: Visiting) -> None:
    """With a caret in what waits, or in a control of a long page, each frame took 20 ms more on a slow phone."""
    caret = "getSelection().type"
    with visit(size=PHONE, has_touch=True) as student:
        page = student.open(LONG)
        page.tap("summary:text('View')")
        assert page.evaluate(caret) == "None"
        until(page, f"{WAITING} > 3")
        shut(page)
        page.click(".fp-step .fp-words .fp-move > span")
        assert page.evaluate(caret) == "Caret"
        page.evaluate("document.querySelector('main header [data-practise]').click()")
        until(page, f"document.querySelector('{VIEW}[open]') !== null")
        assert page.evaluate(caret) == "None"
