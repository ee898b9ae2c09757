"""How soon the heaviest lesson answers a tap on a phone four times slower than this machine, and how much it shifts.

Run it by itself: `python tests/bench/bench_interaction.py`. It prints and asserts nothing. For each tap: the time from
it to the next painted frame, as the browser reports it (Event Timing; INP is the worst of a visit). Then layout shift.
First the floor: a page with one button and nothing else, tapped in the same way; no page can be answered sooner here.
"""

from __future__ import annotations

import argparse
import datetime
import os
import platform
import statistics
import sys
import tempfile
from pathlib import Path

from playwright.sync_api import Locator, Page, sync_playwright

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT / "tests" / "site"))
from looking import PHONE, build, chromium, served  # noqa: E402

SLOWER = 4
WATCH = """
  globalThis.taps = []; globalThis.shifts = [];
  new PerformanceObserver((list) => list.getEntries().forEach((one) => {
    if (one.interactionId) taps.push([one.name, one.duration]);
  })).observe({type: 'event', durationThreshold: 16, buffered: true});
  new PerformanceObserver((list) => list.getEntries().forEach((one) => {
    if (!one.hadRecentInput) shifts.push(one.value);
  })).observe({type: 'layout-shift', buffered: true});
"""
BLANK = (
    "data:text/html,<!doctype html><meta name=viewport content='width=device-width'><style>.on { color: red }</style>"
    "<button onclick='this.classList.toggle(`on`)'>tap</button>"
)
TAPS = [
    ("open the view panel", "details.view > summary"),
    ("left-handed", "input[name=hand][value=left]"),
    ("as a player sees it", "input[name=view][value=player]"),
    ("upright again", "input[name=view][value=upright]"),
    ("German names", "input[name=notes][value=german]"),
    ("dark", "input[name=light][value=dark]"),
    ("close the panel", "details.view > summary"),
    ("tick", ".fp-practice input"),
    ("ask me", "[data-ask-begin]"),
    ("answer", ".ask button[data-option]"),
    ("practise", "main header [data-practise]"),
]
"""What is tapped, in this order; what the page does not have is left out."""


def reach(page: Page, target: Locator) -> None:
    """Scrolls as a thumb does, a good half of the screen at a time, until something is on the screen."""
    for _ in range(100):
        box = target.bounding_box()
        if box is None or (page.evaluate("scrollY") == 0 and box["y"] < 0) or 0 <= box["y"] < PHONE[1] - 100:
            return
        page.mouse.wheel(0, max(-500, min(500, box["y"] - PHONE[1] // 2)))
        page.wait_for_timeout(100)


def tapped(page: Page, selector: str) -> float | None:
    """Milliseconds from a tap to the next frame; below 16, the browser's own limit, it reports nothing: 0."""
    target = page.locator(selector).first
    if not target.count():
        return None
    reach(page, target)
    page.evaluate("taps.length = 0")
    target.tap(force=True)
    page.wait_for_timeout(700)
    return float(page.evaluate("Math.max(0, ...taps.map(([, duration]) => duration))"))


def floor(page: Page) -> float:
    """What a tap takes where there is nothing to do; the middle of several, since the browser counts in steps of 8."""
    page.goto(BLANK)
    page.wait_for_timeout(1000)
    return statistics.median(tapped(page, "button") or 0.0 for _ in range(9))


def measured(page: Page) -> None:
    """Prints a line a tap, and the shifts."""
    worst = 0.0
    for name, selector in TAPS:
        found = tapped(page, selector)
        if found is not None:
            worst = max(worst, found)
            print(f"  {name:<24}{found:6.0f} ms")
    for key in ("ArrowRight", "ArrowRight", "ArrowLeft"):
        page.evaluate("taps.length = 0")
        page.keyboard.press(key)
        page.wait_for_timeout(700)
        found = float(page.evaluate("Math.max(0, ...taps.map(([, duration]) => duration))"))
        worst = max(worst, found)
        print(f"  practice view, {key:<9}{found:6.0f} ms")
    print(f"  the slowest             {worst:6.0f} ms (aim 50)")
    print(f"  layout shift            {page.evaluate('shifts.reduce((sum, one) => sum + one, 0)'):9.4f} (aim 0)")


def main() -> None:
    """Builds the demo, opens its heaviest lesson and taps."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--lesson", default="the-gate/")
    args = parser.parse_args()
    print(f"{datetime.date.today().isoformat()}  {platform.machine()}, {os.cpu_count()} cores, ", end="")
    print(f"load {os.getloadavg()[0]:.1f}; {args.lesson}, processor {SLOWER} times slower")
    with tempfile.TemporaryDirectory() as folder, sync_playwright() as playwright:
        site = build(ROOT / "mkdocs.yml", Path(folder) / "site")
        with served(site) as address:
            context = chromium(playwright).new_context(
                viewport={"width": PHONE[0], "height": PHONE[1]}, has_touch=True, is_mobile=True
            )
            page = context.new_page()
            context.new_cdp_session(page).send("Emulation.setCPUThrottlingRate", {"rate": SLOWER})
            page.add_init_script(WATCH)
            print(f"  a blank page's button   {floor(page):6.0f} ms (the floor)")
            page.goto(address + args.lesson)
            page.wait_for_timeout(5000)
            measured(page)


if __name__ == "__main__":
    main()
