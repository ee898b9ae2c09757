"""What plans come to and how long they take: of five, twelve, twenty and two hundred chords; and some chains.

Run it by hand: `python tests/bench/bench_plans.py`. Up to twelve chords a plan is proven the best (`tests/music/plans`
holds such proofs against networkx on small necks); beyond that the table says how many moves any plan needs at the
least. Times are of the processor; the counts are the same on every run.
"""

from __future__ import annotations

import platform
import time
from collections.abc import Sequence
from datetime import UTC, datetime

from fingerpost.music.chord_symbol import read
from fingerpost.music.plans.chord_graph import ChordGraph
from fingerpost.music.plans.long_chain import longest
from fingerpost.music.plans.plan import Planning
from fingerpost.music.routes.conditions import Conditions
from fingerpost.music.routes.question import Atlas, End, Question

ROOTS = "C D E F G A B Bb Eb Ab F# C#".split()
KINDS = [
    "",
    "m",
    "7",
    "m7",
    "maj7",
    "sus4",
    "6",
    "m6",
    "dim",
    "9",
    "add9",
    "sus2",
    "7sus4",
    "aug",
    "m7b5",
    "maj9",
    "m9",
]
FIRST_DOZEN = "C Am F G7 Dm Em D A E G Bm Fmaj7".split()
MANY = [root + kind for kind in KINDS for root in ROOTS]
PLANS = {
    "five chords": FIRST_DOZEN[:5],
    "twelve chords of a first year": FIRST_DOZEN,
    "twelve chords, rarer": "C#m7 Ebmaj7 Bb7 Gm7 Abmaj7 F#dim Bm7b5 E7 Dsus4 A9 Fm6 Caug".split(),
    "twenty chords": [*FIRST_DOZEN, *"A7 D7 E7 B7 Cmaj7 Am7 Em7 Dsus4".split()],
    "two hundred chords": MANY[:200],
}
CHAINS = {"eight chords from Am": ("Am", 8), "twenty chords from C": ("C", 20)}


def planned(label: str, names: Sequence[str]) -> None:
    """One row: moves, the bound, whether proven, grips looked at, seconds."""
    start = time.process_time()
    wish = [End(name, (), read(name)) for name in names]
    search = Planning(wish, Question(wish[0], wish[-1]), Atlas())
    allowed = search.budget.grips
    plan = search.run()
    assert plan is not None
    seconds = time.process_time() - start
    proven = "yes" if plan.proven else "no"
    looked = allowed - max(0, search.budget.grips)
    print(f"{label:<34}{plan.length:>7}{plan.bound:>9}{proven:>8}{plan.difficulty:>9.1f}{looked:>9,}{seconds:>9.1f}")


def chained(label: str, start: str, length: int) -> None:
    """One row for a chain: chords, the bound, whether proven, cost, seconds."""
    began = time.process_time()
    end, atlas = End(start, (), read(start)), Atlas()
    question = Question(end, end, conditions=Conditions(no_bar=True))
    neck = atlas.neck(question)
    grips = [grip for shape in atlas.shapes(end, question) if (grip := neck.grip(shape)) is not None]
    unstruck = grips[0][5]
    graph = ChordGraph(neck, question.conditions, unstruck)
    found = longest(graph, [grip for grip in grips if grip[5] == unstruck], length)
    assert found is not None
    seconds = time.process_time() - began
    proven = "yes" if found.proven else "no"
    print(
        f"{label:<34}{found.chords:>7}{found.bound:>9}{proven:>8}{found.chain.cost / 1000:>9.1f}{'':>9}{seconds:>9.1f}"
    )


def main() -> None:
    """Prints both tables."""
    print(f"{datetime.now(UTC):%Y-%m-%d}, {platform.machine()}, Python {platform.python_version()}\n")
    print(f"{'plan':<34}{'moves':>7}{'at least':>9}{'proven':>8}{'points':>9}{'hands':>9}{'seconds':>9}")
    for label, names in PLANS.items():
        planned(label, names)
    print(f"\n{'chain':<34}{'chords':>7}{'at most':>9}{'proven':>8}{'points':>9}{'':>9}{'seconds':>9}")
    for label, (start, length) in CHAINS.items():
        chained(label, start, length)


if __name__ == "__main__":
    main()
