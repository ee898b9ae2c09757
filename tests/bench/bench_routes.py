"""How fast routes are found, how much memory they take, and that they are the shortest and cheapest there are.

Run it by hand: `python tests/bench/bench_routes.py`. It prints two tables. The first has the times of routes between
shapes drawn at random (seeded, so that every run asks the same) from all that the hand can hold, with bars, hidden
fingers and the thumb; and between chords by name. The second is the proof: on graphs that can still be written out
whole, thousands of seeded pairs are answered by networkx too (Dijkstra from each first shape, moves before points),
and the numbers of moves and points must be equal. `tests/music/routes` has the quick part of that proof, and that the
graph itself is the one of `music.neighbours`.
"""

from __future__ import annotations

import gc
import itertools
import platform
import random
import sys
import time
import tracemalloc
from collections.abc import Iterable
from datetime import UTC, datetime
from pathlib import Path
from statistics import quantiles

import networkx as nx
from fingerpost.music import chord_symbol
from fingerpost.music.hand import Hand, Limits
from fingerpost.music.routes.answer import best_route
from fingerpost.music.routes.neck import Grip, Neck
from fingerpost.music.routes.question import Atlas, End, Question
from fingerpost.music.routes.search import cheapest

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "music" / "routes"))

from small_necks import MOVE, by_neck

OPEN = (0,) * 6
PAIRS, SOURCES, TARGETS = 1000, 6, 340
CHORDS = "C Am F G G7 E7 Em Fmaj7 Dsus4 D A Bm F#m B7 Cmaj7 Am7 D7 Bb Gm Ebmaj7".split()


def held(neck: Neck, draw: random.Random) -> Grip:
    """A hand drawn from all that can be held and that one finger at a time can build up.

    All of it is heard, and bars end on strings that are struck.
    """
    fingers = draw.sample(neck.fingers, draw.randint(1, len(neck.fingers)))
    grip, unstruck = list(OPEN), draw.choice((0, 0, 1 << 5, 3 << 4))
    low = draw.randint(neck.low, max(neck.low, neck.high - 3))
    width = len(neck.spots.runs)
    for finger in fingers:
        grip[finger] = 1 + (low - neck.low) * width + draw.randrange(4 * width)
    grip[5] = unstruck
    whole = tuple(grip)
    spots = [(finger, spot) for finger, spot in enumerate(whole[:5]) if spot]
    fits = all(
        spot < len(neck.spots.placed)
        and neck.together.alone[finger] >> spot & 1
        and all(neck.together.hold[neck.together.relation[finger][o]][s] >> spot & 1 for o, s in spots if o != finger)
        for finger, spot in spots
    )
    fits = fits and all(neck.shows(whole, finger) for finger, _ in spots)  # type: ignore[arg-type]
    fits = fits and all(neck.ends_struck(unstruck) >> spot & 1 for _, spot in spots)
    return whole if fits else held(neck, draw)  # type: ignore[return-value]


def timed(work: Iterable[object]) -> list[float]:
    """Milliseconds of the processor that each item took to come."""
    out, items = [], iter(work)
    while True:
        start = time.process_time()
        if next(items, None) is None:
            return out
        out.append(1000 * (time.process_time() - start))


def row(label: str, first: list[float], again: list[float], memory: float | None) -> None:
    """One line of the table of times."""
    cuts = quantiles(again, n=100)
    mib = "" if memory is None else f"{memory / 2**20:8.1f}"
    print(f"{label:<44}{quantiles(first, n=100)[94]:>9.1f}{cuts[49]:>9.1f}{cuts[94]:>9.1f}{max(again):>9.1f}{mib:>9}")


def shapes_row(label: str, high: int) -> None:
    """Times between shapes on frets 1 to high."""
    draw, neck = random.Random(7), Neck(high=high)
    pairs = [(held(neck, draw), held(neck, draw)) for _ in range(PAIRS)]
    first, again = (timed(cheapest(neck, [a], [b]) for a, b in pairs) for _ in range(2))
    gc.collect()
    tracemalloc.start()
    fresh = Neck(high=high)
    for a, b in pairs[: PAIRS // 4]:
        cheapest(fresh, [a], [b])
    memory = tracemalloc.get_traced_memory()[1]
    tracemalloc.stop()
    row(label, first, again, memory)


def chords_row() -> None:
    """Times between chords by name in the open position."""
    atlas = Atlas()
    ends = [End(name, (), chord_symbol.read(name)) for name in CHORDS]
    asked = [Question(a, b) for a, b in itertools.permutations(ends, 2)]
    first, again = (timed(best_route(question, atlas) for question in asked) for _ in range(2))
    row(f"{len(CHORDS)} chords by name, every pair", first, again, None)


def proof(label: str, limits: Limits, high: int) -> None:
    """Compares with networkx."""
    neck, draw = Neck(hand=Hand(limits=limits), high=high), random.Random(11)
    whole = by_neck(neck)
    grips = sorted(whole)
    unlike = 0
    for source in draw.sample(grips, SOURCES):
        theirs = nx.single_source_dijkstra_path_length(whole, source)
        for target in draw.sample(grips, TARGETS):
            ours = cheapest(neck, [source], [target])
            unlike += ours is None or ours.length * MOVE + ours.cost != theirs[target]
    size = f"{whole.number_of_nodes():>10,}{whole.number_of_edges():>12,}"
    print(f"{label:<44}{size}{SOURCES * TARGETS:>8,}{unlike:>8,}")


def main() -> None:
    """Prints the tables."""
    machine = f"{platform.machine()}, Python {platform.python_version()}"
    print(f"{datetime.now(UTC):%Y-%m-%d}, {machine}, networkx {nx.__version__}\n")
    print(f"{'processor ms a route':<44}{'cold p95':>9}{'median':>9}{'p95':>9}{'most':>9}{'MiB':>9}")
    shapes_row(f"{PAIRS:,} pairs of shapes, open position", 4)
    shapes_row(f"{PAIRS:,} pairs of shapes, twelve frets", 12)
    chords_row()
    print(f"\n{'the same as networkx':<44}{'hands':>10}{'moves':>12}{'pairs':>8}{'unlike':>8}")
    no_bars = (1, 1, 1, 1)
    proof("four fingers, no bars, frets 1 to 3", Limits(thumb_strings=0, bar_strings=no_bars), 3)
    proof("three fingers, no bars, frets 1 to 12", Limits(fingers=(1, 2, 3), thumb_strings=0, bar_strings=no_bars), 12)
    proof("two fingers, bars, frets 1 to 5", Limits(fingers=(1, 3), thumb_strings=0), 5)


if __name__ == "__main__":
    main()
