"""Every slip at every place of the demo course: whether `check` finds it, where, and with which fix.

Run it by itself: `python tests/bench/bench_seeding.py`. `--share 0.1 --seed 7` takes a tenth of the places, chosen by
that seed; `--missed` lists what was not told in its place;
`--course FOLDER` takes another course, on which nothing was tuned. Nothing is asserted; a sample of it is a test
(tests/bench/seeding/test_sample.py).
"""

from __future__ import annotations

import argparse
import datetime
import os
import platform
import random
import time
from pathlib import Path

from fingerpost.course.settings import Settings
from fingerpost.workspace.course_folder import load
from seeding.clean import OPTIONS, PREFERRED, REFORMATTED, lessons
from seeding.judging import Judge
from seeding.slips import slips
from seeding.tables import rows


def demo() -> Judge:
    """The demo course."""
    return Judge(lessons(), Settings.from_mapping(OPTIONS)[0], PREFERRED)


def of_folder(folder: Path) -> Judge:
    """Another course: its pages in their order. One that settles ties is judged as if it did not."""
    sources = load(folder)
    return Judge({page.file: page.text for page in sources.pages}, Settings.from_mapping(sources.options)[0])


def main() -> None:
    """Prints the table with the date, the machine and the seed."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--share", type=float, default=1.0)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--missed", action="store_true")
    parser.add_argument("--course", type=Path, help="the folder of another course, on which nothing was tuned")
    args = parser.parse_args()
    judge = demo() if args.course is None else of_folder(args.course)
    rng = random.Random(args.seed)
    chosen = [slip for slip in slips(judge.texts) if args.share >= 1 or rng.random() < args.share]
    began = time.process_time()
    verdicts = [judge.verdict(slip) for slip in chosen]
    print(f"{datetime.date.today().isoformat()}  {platform.machine()}, {os.cpu_count()} cores, ", end="")
    print(f"Python {platform.python_version()}, share {args.share:g}, seed {args.seed}, ", end="")
    print(f"{time.process_time() - began:.0f} processor seconds")
    print(f"clean course: {len(judge.found)} findings; ", end="")
    print("written otherwise: ", end="")
    again = {
        name: sum(len(judge.checked({f: change(t)})[1]) for f, t in judge.texts.items())
        for name, change in REFORMATTED.items()
    }
    print(", ".join(f"{name} {count}" for name, count in again.items()))
    print("\n".join(rows(verdicts)))
    for verdict in verdicts if args.missed else ():
        if verdict.changes and not verdict.line:
            said = [(f.span.file, f.span.line, str(f.code), f.fix) for f in verdict.findings[:2]]
            slip = verdict.slip
            why = verdict.denied or "another right course"
            print(f"  {slip.kind}: {slip.file}:{slip.line} {slip.lines[slip.line - 1]!r} ({why}) {said}")


if __name__ == "__main__":
    main()
