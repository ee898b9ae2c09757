"""Takes the pictures that whoever changes the theme looks at: `make show` puts them in build/show.

Practice mid-move, the tuner at a flat string, a self-check answered, a left-handed lesson in German names, each on a
phone in light and dark; the practice view on the smallest screens; the longest lesson printed on A4 and Letter. It
asserts nothing: people look.
"""

from __future__ import annotations

import sys
import tempfile
from collections.abc import Callable
from pathlib import Path

from playwright.sync_api import Browser, Page, sync_playwright

if __package__ in (None, ""):
    raise SystemExit("Run it as `make show`, or as `python -m tests.site.show`.")

from .looking import PHONE, ROOT, Visit, build, chromium, served, until, visiting
from .practising import VIEW, press
from .recordings import hearing, record, tone

LESSON, LONGEST = "the-long-dark/", "the-midnight-round/"
SIZES = [(390, 664), (844, 390), (320, 256), (1280, 900)]
HALFWAY = "() => document.getAnimations().forEach((one) => { one.pause(); one.currentTime = 500; })"
FLAT_A = 44.82
"""An A string of a guitar, 18 cents flat, as a MIDI note number."""


def opened(student: Visit) -> Page:
    """The practice view at the first change of a lesson, its movement let run."""
    student.page.emulate_media(reduced_motion="no-preference")
    page = student.open(LESSON)
    page.locator("button[data-practise]").nth(1).click()
    until(page, f"document.querySelector('{VIEW}[open] [data-picture] svg') !== null")
    return page


def mid_move(student: Visit) -> Page:
    """Half a second into the move."""
    page = opened(student)
    press(page, "ArrowRight")
    page.evaluate(HALFWAY)
    return page


def self_check(student: Visit) -> Page:
    """A question answered wrongly, with its reason."""
    page = student.open(LESSON)
    page.click("[data-ask] [data-ask-begin]")
    until(page, "!!document.querySelector('.ask fieldset')")
    page.locator(".ask button[data-option]").last.click()
    page.locator(".ask").scroll_into_view_if_needed()
    return page


def left_in_german(student: Visit) -> Page:
    """A lesson for the left hand with its names in German."""
    page = student.open(LESSON)
    page.click("details.view > summary")
    for choice in ("hand][value=left", "notes][value=german"):
        page.locator(f"input[name={choice}]").check()
    page.click("details.view > summary")
    page.locator(".fp-step").nth(1).scroll_into_view_if_needed()
    return page


def tuned(student: Visit) -> Page:
    """The tuner, hearing a flat string."""
    page = student.open("tuner/")
    page.click(".tuner [data-listen]")
    until(page, "document.querySelector('.tuner [data-cents]').textContent.includes('flat')")
    return page


Shown = Callable[[Visit], Page]
VIEWS: dict[str, Shown] = {"mid-move": mid_move, "self-check": self_check, "left-in-german": left_in_german}


def take(
    browser: Browser, address: str, folder: Path, name: str, view: Shown, *, size: tuple[int, int] = PHONE
) -> None:
    """One picture in the light and one in the dark."""
    for light in ("light", "dark"):
        with visiting(browser, address, size=size, light=light) as student:
            view(student).screenshot(path=folder / f"{name}-{size[0]}x{size[1]}-{light}.png")


def printed(browser: Browser, address: str, folder: Path) -> None:
    """The longest lesson as it comes from a printer."""
    for paper in ("A4", "Letter"):
        with visiting(browser, address) as student:
            student.open(LONGEST).pdf(path=folder / f"printed-{paper}.pdf", format=paper, prefer_css_page_size=False)


def main(folder: Path) -> None:
    """Builds the demo, visits it and writes the pictures."""
    folder.mkdir(parents=True, exist_ok=True)
    with tempfile.TemporaryDirectory() as made, sync_playwright() as playwright:
        browser = chromium(playwright)
        record(Path(made) / "flat.wav", [tone(FLAT_A, 4)])
        with served(build(ROOT / "mkdocs.yml", Path(made) / "site")) as address:
            for name, view in VIEWS.items():
                take(browser, address, folder, name, view)
            for size in SIZES:
                take(browser, address, folder, "mid-move", mid_move, size=size)
            printed(browser, address, folder)
            with hearing(browser.browser_type, Path(made) / "flat.wav") as ear:
                take(ear, address, folder, "tuner", tuned)
        browser.close()
    for file in sorted(folder.iterdir()):
        print(file.relative_to(Path.cwd()) if file.is_relative_to(Path.cwd()) else file)


if __name__ == "__main__":
    main(Path(sys.argv[1]) if len(sys.argv) > 1 else ROOT / "build" / "show")
