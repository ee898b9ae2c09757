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
from collections.abc import Iterator
from pathlib import Path

from playwright.sync_api import CDPSession, Locator, Page, sync_playwright

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT / "tests" / "site"))
from looking import PHONE, build, chromium, served  # noqa: E402

SLOWER = 4
SHIFT = "shift"
PRESSED = 60
"""Milliseconds for which a finger stays on the glass, or on a key; people's stay a little longer."""
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


def tapped(page: Page, finger: CDPSession, selector: str) -> float | None:
    """Milliseconds from a tap to the next frame; below 16, the browser's own limit, it reports nothing: 0."""
    target = page.locator(selector).first
    if not target.count():
        return None
    reach(page, target)
    box = target.bounding_box()
    assert box is not None
    at = {"x": box["x"] + box["width"] / 2, "y": box["y"] + box["height"] / 2}
    page.evaluate("taps.length = 0")
    # Through the browser itself: a tap by the test library runs a script of its own in the page, which is counted too.
    finger.send("Input.dispatchTouchEvent", {"type": "touchStart", "touchPoints": [at]})
    page.wait_for_timeout(PRESSED)
    finger.send("Input.dispatchTouchEvent", {"type": "touchEnd", "touchPoints": []})
    return longest(page)


def longest(page: Page) -> float:
    """What the browser reports of the tap or key just made."""
    page.wait_for_timeout(700)
    return float(page.evaluate("Math.max(0, ...taps.map(([, duration]) => duration))"))


def floor(page: Page, finger: CDPSession) -> float:
    """What a tap takes where there is nothing to do; the middle of several, since the browser counts in steps of 8."""
    page.goto(BLANK)
    page.wait_for_timeout(1000)
    return statistics.median(tapped(page, finger, "button") or 0.0 for _ in range(9))


def visit(page: Page, finger: CDPSession) -> Iterator[tuple[str, float]]:
    """The taps of one visit, each with what it took; then the shifts."""
    for name, selector in TAPS:
        found = tapped(page, finger, selector)
        if found is not None:
            yield name, found
    for at, key in enumerate(("ArrowRight", "ArrowRight", "ArrowRight", "ArrowLeft"), 1):
        page.evaluate("taps.length = 0")
        page.keyboard.press(key, delay=PRESSED)
        yield f"practice view, {at}: {key}", longest(page)
    yield SHIFT, float(page.evaluate("shifts.reduce((sum, one) => sum + one, 0)"))


def main() -> None:
    """Builds the demo, opens its heaviest lesson and taps."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--lesson", default="the-gate/")
    parser.add_argument("--visits", type=int, default=3, help="the median of so many is printed, and the range")
    args = parser.parse_args()
    print(f"{datetime.date.today().isoformat()}  {platform.machine()}, {os.cpu_count()} cores, ", end="")
    print(f"load {os.getloadavg()[0]:.1f}; {args.lesson}, processor {SLOWER} times slower, {args.visits} visits")
    with tempfile.TemporaryDirectory() as folder, sync_playwright() as playwright:
        site = build(ROOT / "mkdocs.yml", Path(folder) / "site")
        with served(site) as address:
            browser, found = chromium(playwright), dict[str, list[float]]()
            for _ in range(args.visits):
                context = browser.new_context(
                    viewport={"width": PHONE[0], "height": PHONE[1]}, has_touch=True, is_mobile=True
                )
                # As a browser with a window does; the one without refuses it, and practice has a word more to say.
                context.grant_permissions(["screen-wake-lock"])
                page = context.new_page()
                finger = context.new_cdp_session(page)
                finger.send("Emulation.setCPUThrottlingRate", {"rate": SLOWER})
                page.add_init_script(WATCH)
                found.setdefault("a blank page's button (the floor)", []).append(floor(page, finger))
                page.goto(address + args.lesson)
                page.wait_for_timeout(5000)
                for name, took in visit(page, finger):
                    found.setdefault(name, []).append(took)
                context.close()
    shifts = found.pop(SHIFT)
    for name, times in found.items():
        print(f"  {name:<36}{statistics.median(times):5.0f} ms  ({min(times):.0f} to {max(times):.0f})")
    slowest = max(found, key=lambda name: statistics.median(found[name]))
    print(f"  the slowest: {slowest} (aim: below 50 ms)")
    print(f"  layout shift, at most {max(shifts):.4f} (aim 0)")


if __name__ == "__main__":
    main()
