"""What a block within the bounds on its size costs to check that was made to cost much: processor time, kind by kind.

Run it by itself: `python tests/bench/bench_hostile.py`. Each block has as many lines and bytes as a block may have. The
first check meets its moves and names for the first time, as a build does; the editor's later ones do not. It prints
and asserts nothing; the long run of tests/fuzz holds what it generates to the same aim.
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
from fingerpost.source.steps import MOST_STEPS
from long_course import walk

AIM = 0.1
START = "x02210/--231- = Am"


def fenced(*lines: str, start: str = START, keys: tuple[str, ...] = (), most: int = MOST_LINES) -> str:
    """A page with one block of as many of these lines, over and over, as a block may have, or of so many at most."""
    head = ["id: hostile", f"start: {start}", *keys, "steps:"]
    room = MOST_BYTES - len("\n".join(head).encode()) - 1
    body: list[str] = []
    for line in islice(cycle(lines), min(most, MOST_LINES - len(head))):
        room -= len(line.encode()) + 1
        if room < 0:
            break
        body.append(line)
    return "\n".join(["```moves", *head, *body, "```", ""])


def walked(end: str = "") -> str:
    """Different steps, each with its right name, one finger a step; as many as a block may have, and that end."""
    text = walk(random.Random(5), MOST_STEPS).split("\n")
    moves = [line.replace("move: ", "") for line in text[2:] if line.startswith("- move: ")]
    if end:
        moves[-1] = end
    return fenced(*moves, start=text[0].removeprefix("start: "), most=MOST_STEPS)


def in_long_form() -> str:
    """The same in the long form of four lines."""
    keys = ("  say: Keep the hand quiet.", "  beats: 4", "  pattern: D DU UDU")
    return fenced("- move: 1 off = Am/C", *keys, "- move: 1 to B1 = Am", *keys)


KINDS: dict[str, Callable[[], str]] = {
    "dashes": lambda: fenced("-"),
    "signs": lambda: fenced("- !@#$%^&*()[]{}=~~~``:: -- ??"),
    "two correct steps over and over": lambda: fenced("- 1 off = Asus2", "- 1 to B1 = Am"),
    "as many as may be": lambda: fenced("- 1 off = Asus2", "- 1 to B1 = Am", most=MOST_STEPS),
    "a walk of as many": walked,
    "correct steps without names": lambda: fenced("- 1 off", "- 1 to B1"),
    "the long form": in_long_form,
    "wrong names": lambda: fenced("- 3 off = C", "- 3 to G2 = F"),
    "wrong names of what is held": lambda: fenced("- hold = G", "- hold = F"),
    "fingers that are not down": lambda: fenced("- 4 off = G", "- 2 to E9 = Gadd9", "- 1 to e19 = C"),
    "bars": lambda: fenced("- 1 to E1-e1", "- 1 to E3-e3", start="133211/134211 = F"),
    "two fingers a step": lambda: fenced("- 1 off, 2 off", "- 1 to B1, 2 to D2"),
    "hands that none can make": lambda: fenced("- 1 to E12", "- 1 to E1"),
    "a walk, a wrong name at its end": lambda: walked("- hold = F"),
    "a walk, then no finger to lift": lambda: walked("- 1 off, 1 off"),
    "no names, a wrong one at the end": lambda: fenced(*["- 1 off", "- 1 to B1"] * 199, "- hold = F", most=399),
    "rests": lambda: fenced("- rest", "- back"),
    "shapes without fingers": lambda: fenced("- 1 off", "- 1 to B1", start="x02210 = Am"),
    "a strum a step": lambda: fenced("- strum A-e", "- strum E-e"),
    "easier shapes": lambda: fenced("- move: 1 off", "  or: x02000", "- move: 1 to B1", "  or: x02010"),
    "images": lambda: fenced("- move: 1 off", "  image: a.jpg", "- move: 1 to B1", "  image: ../../b.jpg"),
    "ids twice": lambda: fenced("- move: 1 off", "  id: a", "- move: 1 to B1", "  id: a"),
    "words to teach": lambda: fenced("- 1 off", keys=(f"teaches: [{', '.join(['C', 'D7', 'no'] * 14_000)}]",)),
    "things to teach a line each": lambda: fenced("- 1 off", keys=("teaches:", *["- D7"] * 1_900)),
    "many moves in a line": lambda: fenced(f"- 1 off{', 1 to B1, 1 off' * 12_000}"),
    "many fingers at the start": lambda: fenced("- 1 off", start=", ".join(["1 B1", "2 D2", "4 x"] * 9_000)),
    "many strings to strike": lambda: fenced(f"- strum {'A-e, ' * 30_000}B"),
    "one long name": lambda: fenced(f"- 1 off = C{'(add9)' * 30_000}"),
    "one long shape": lambda: fenced("- 1 off", start=f"x02210/{'-' * 150_000}"),
    "one long id": lambda: fenced(f"- move: 1 off\n  id: {'a' * 150_000}"),
    "one long line": lambda: fenced(f"- 1 off {'a ' * 90_000}"),
    "brackets": lambda: fenced("- " + "[" * 90),
    "unknown keys": lambda: fenced("- move: hold", "  unknown: a"),
}


def seconds(page: str, times: int) -> tuple[float, float, int]:
    """Processor seconds of the first check, the least of those after it, and how many findings there were."""
    took, found = [], 0
    for _ in range(times + 1):
        began = time.process_time()
        read = read_page("page.md", page)
        _, of_course = build([read], Settings(), for_pages=False)
        took.append(time.process_time() - began)
        found = len(read.findings) + len(of_course)
    return took[0], min(took[1:]), found


def main() -> None:
    """Prints the table with the date and the machine."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--times", type=int, default=3)
    parser.add_argument("--only", default="", help="only the kinds with this in their names")
    args = parser.parse_args()
    print(f"{datetime.date.today().isoformat()}  {platform.machine()}, {os.cpu_count()} cores, ", end="")
    print(f"Python {platform.python_version()}, load {os.getloadavg()[0]:.1f}; aim {AIM * 1000:.0f} ms a block")
    print(f"{'':<34}{'first':>12}{'again':>12}")
    seconds(fenced("- 1 off = Asus2", "- 1 to B1 = Am", "- 1 to B1 = F"), 1)  # so that the first kind pays no start-up
    for name, page in KINDS.items():
        if args.only in name:
            first, again, found = seconds(page(), args.times)
            print(f"{name:<34}{first * 1000:9.1f} ms{again * 1000:9.1f} ms{found:8} findings", flush=True)


if __name__ == "__main__":
    main()
