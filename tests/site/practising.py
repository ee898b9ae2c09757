"""Opens the practice view of a built lesson, and reads what a student sees in it."""

from __future__ import annotations

from playwright.sync_api import Page

from .looking import Visit, until

VIEW = "dialog.practice"
FRAMES = 6
FOLLOWED = """async (frames) => {
  for (let at = 0; at < frames; at += 1) await new Promise(requestAnimationFrame);
}"""


def practise(student: Visit, lesson: str, block: int | None = None) -> Page:
    """Opens a lesson, and the practice view from its own control or from that of a block."""
    page = student.open(lesson)
    page.locator("button[data-practise]").nth(0 if block is None else block + 1).click()
    return shown(page)


def shown(page: Page) -> Page:
    """Waits until the view is open."""
    until(page, f"document.querySelector('{VIEW}[open] [data-picture] svg') !== null")
    return followed(page)


def gone(page: Page) -> None:
    """Waits until the view is away."""
    until(page, f"document.querySelector('{VIEW}') === null")


def followed(page: Page) -> Page:
    """Waits until what follows an answer is there too: it comes with every other frame (theme/js/afterwards.js)."""
    page.evaluate(FOLLOWED, FRAMES)
    return page


def name(page: Page) -> str:
    """The chord's name."""
    return page.inner_text(f"{VIEW} [data-chord] > :first-child")


def short(page: Page) -> str:
    """The short form of the move."""
    return page.inner_text(f"{VIEW} [data-short]")


def press(page: Page, *keys: str) -> None:
    """Presses keys one after another, and waits for what follows the last."""
    for key in keys:
        page.keyboard.press(key)
    followed(page)


def text(page: Page, what: str) -> str:
    """What a part of the view says, by its data attribute."""
    return followed(page).locator(f"{VIEW} [data-{what}]").first.text_content() or ""
