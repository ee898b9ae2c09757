"""The long run: so many pages with one block each, checked, reported, and one in so many shown.

`python -m tests.fuzz.run --blocks 1000000` from the top of the sources, or `make fuzz`. What breaks a promise is
printed with the page; a page that was found so becomes a case in tests/fuzz/test_found.py.
"""

from __future__ import annotations

import argparse
import datetime
import logging
import os
import platform
import sys
import time
import traceback
from concurrent.futures import ProcessPoolExecutor

from .pages import Pages
from .trial import Tally, check, show

PART = 5_000
"""Blocks of one seed; a longer run goes through more seeds, so that any part of it can be run again by itself."""


def part(seed: int, blocks: int, show_every: int, timely: bool = True) -> tuple[Tally, list[str]]:
    """Runs the blocks of one seed; the tally, and what went wrong with the page that did."""
    tally, wrong, pages = Tally(timely=timely), list[str](), Pages(seed)
    logging.disable(logging.CRITICAL)
    for number in range(blocks):
        page = pages.next()
        try:
            check(page, tally)
            if number % show_every == 0:
                show(page, tally)
        except Exception:
            wrong.append(f"seed {seed}, block {number}:\n{traceback.format_exc(limit=-3)}\n{page!r}")
    # What is said of a million broken pages is said to nobody; others who run in this process want to hear.
    logging.disable(logging.NOTSET)
    return tally, wrong


def total(tallies: list[Tally]) -> Tally:
    """All of them together."""
    out = Tally()
    for tally in tallies:
        out.checked, out.shown = out.checked + tally.checked, out.shown + tally.shown
        out.findings, out.drawn = out.findings + tally.findings, out.drawn + tally.drawn
        for what, (took, page) in tally.slowest.items():
            out.timed(what, took, page)
    return out


def told(tally: Tally, wrong: int, began: float) -> str:
    """The figures of a run so far, in one line."""
    slow = ", ".join(f"slowest to {what} {took * 1000:.0f} ms" for what, (took, _) in sorted(tally.slowest.items()))
    return (
        f"{datetime.datetime.now(datetime.UTC):%Y-%m-%d %H:%M} UTC  {tally.checked:,} blocks checked, {tally.shown:,} "
        f"shown, {tally.drawn:,} of them with pictures, {tally.findings:,} findings; {slow}; {wrong} broke a promise; "
        f"{time.monotonic() - began:.0f} s"
    )


def main() -> int:
    """Runs, prints the figures after every twenty parts and at the end; 1 where a promise was broken."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--blocks", type=int, default=1_000_000)
    parser.add_argument("--seed", type=int, default=1, help="the first seed; each part takes the next")
    parser.add_argument("--show-every", type=int, default=25, help="one in so many blocks is also drawn")
    parser.add_argument("--processes", type=int, default=1)
    args = parser.parse_args()
    print(f"{platform.machine()}, {os.cpu_count()} cores, Python {platform.python_version()}, seeds from {args.seed}")
    sizes = [min(PART, args.blocks - done) for done in range(0, args.blocks, PART)]
    tallies, broken, began = list[Tally](), 0, time.monotonic()
    with ProcessPoolExecutor(args.processes) as pool:
        runs = pool.map(part, range(args.seed, args.seed + len(sizes)), sizes, [args.show_every] * len(sizes))
        for number, (tally, wrong) in enumerate(runs, 1):
            tallies.append(tally)
            broken += len(wrong)
            for case in wrong[:5]:
                print(case, flush=True)
            if number % 20 == 0 or number == len(sizes):
                print(told(total(tallies), broken, began), flush=True)
    for what, (took, page) in total(tallies).slowest.items():
        print(f"slowest to {what}, {took * 1000:.0f} ms: {page[:2000]!r}")
    return 1 if broken else 0


if __name__ == "__main__":
    sys.exit(main())
