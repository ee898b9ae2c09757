"""What a block within the bounds on its size costs to check that was made to cost much: processor time, kind by kind.

Run it by itself: `python tests/bench/bench_hostile.py`. Each block has as many lines and bytes as a block may have. It
prints and asserts nothing; the long run of tests/fuzz holds what it generates to the same aim.
"""

from __future__ import annotations

import argparse
import datetime
import os
import platform
import random
import time
from collections.abc import Callable
from itertools import cycle, islice

from fingerpost.course.build import build
from fingerpost.course.settings import Settings
from fingerpost.source.block import MOST_BYTES, MOST_LINES
from fingerpost.source.page import read_page
from long_course import walk

AIM = 0.1
START = "x02210/--231- = Am"

def fenced(*lines: str, start: str = START, keys: tuple[str, ...] = ()) -> str:
    """A page with one block of as many of these lines, over and over, as a block may have."""
    head = ["id: hostile", f"start: {start}", *keys, "steps:"]
    room = MOST_BYTES - len("\n".join(head).encode()) - 1
    body: list[str] = []
    for line in islice(cycle(lines), MOST_LINES - len(head)):
        room -= len(line.encode()) + 1
        if room < 0:
            break
        body.append(line)
    return "\n".join(["```moves", *head, *body, "```", ""])


def walked() -> str:
    """Different steps, each with its right name, one finger a step; as long as a block can be."""
    text = walk(random.Random(5), MOST_LINES).split("\n")
    moves = [line.replace("move: ", "") for line in text[2:] if line.startswith("- move: ")]
    return fenced(*moves, start=text[0].removeprefix("start: "))


def in_long_form() -> str:
    """The same in the long form of four lines."""
    keys = ("  say: Keep the hand quiet.", "  beats: 4", "  pattern: D DU UDU")
    return fenced("- move: 1 off = Am/C", *keys, "- move: 1 to B1 = Am", *keys)


KINDS: dict[str, Callable[[], str]] = {
    "dashes": lambda: fenced("-"),
    "signs": lambda: fenced("- !@#$%^&*()[]{}=~~~``:: -- ??"),
    "two correct steps over and over": lambda: fenced("- 1 off = Asus2", "- 1 to B1 = Am"),
    "a walk of correct steps": walked,
    "correct steps without names": lambda: fenced("- 1 off", "- 1 to B1"),
    "the long form": in_long_form,
    "wrong names": lambda: fenced("- 3 off = C", "- 3 to G2 = F"),
    "wrong names of what is held": lambda: fenced("- hold = G", "- hold = F"),
    "fingers that are not down": lambda: fenced("- 4 off = G", "- 2 to E9 = Gadd9", "- 1 to e19 = C"),
    "bars": lambda: fenced("- 1 to E1-e1", "- 1 to E3-e3", start="133211/134211 = F"),
    "two fingers a step": lambda: fenced("- 1 off, 2 off", "- 1 to B1, 2 to D2"),
    "hands that none can make": lambda: fenced("- 1 to E12", "- 1 to E1"),
    "one wrong name at the end": lambda: fenced(*["- 1 off", "- 1 to B1"] * 900, "- hold = F"),
    "rests": lambda: fenced("- rest", "- back"),
    "shapes without fingers": lambda: fenced("- 1 off", "- 1 to B1", start="x02210 = Am"),
    "a strum a step": lambda: fenced("- strum A-e", "- strum E-e"),
    "easier shapes": lambda: fenced("- move: 1 off", "  or: x02000", "- move: 1 to B1", "  or: x02010"),
    "images": lambda: fenced("- move: 1 off", "  image: a.jpg", "- move: 1 to B1", "  image: ../../b.jpg"),
    "ids twice": lambda: fenced("- move: 1 off", "  id: a", "- move: 1 to B1", "  id: a"),
    "words to teach": lambda: fenced("- 1 off", keys=(f"teaches: [{', '.join(['C', 'D7', 'no'] * 14_000)}]",)),
    "one long line": lambda: fenced(f"- 1 off {'a ' * 90_000}"),
    "brackets": lambda: fenced("- " + "[" * 90),
    "unknown keys": lambda: fenced("- move: hold", "  unknown: a"),
}


def seconds(page: str, times: int) -> tuple[float, int]:
    """Processor seconds of a check, the least of several, and how many findings it made."""
    took, found = [], 0
    for _ in range(times):
        began = time.process_time()
        read = read_page("page.md", page)
        _, of_course = build([read], Settings(), for_pages=False)
        took.append(time.process_time() - began)
        found = len(read.findings) + len(of_course)
    return min(took), found


def main() -> None:
    """Prints the table with the date and the machine."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--times", type=int, default=3)
    parser.add_argument("--only", default="", help="only the kinds with this in their names")
    args = parser.parse_args()
    print(f"{datetime.date.today().isoformat()}  {platform.machine()}, {os.cpu_count()} cores, ", end="")
    print(f"Python {platform.python_version()}, load {os.getloadavg()[0]:.1f}; aim {AIM * 1000:.0f} ms a block")
    for name, page in KINDS.items():
        if args.only in name:
            took, found = seconds(page(), args.times)
            print(f"{name:<34}{took * 1000:8.1f} ms{found:8} findings", flush=True)


if __name__ == "__main__":
    main()
