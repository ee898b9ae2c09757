"""How long `fingerpost check` takes, against MkDocs building the same pages without us (search on): whole processes.

Run it by itself: `python tests/bench/bench_check.py`. It prints processor seconds and asserts nothing.
"""

from __future__ import annotations

import argparse
import datetime
import os
import platform
import resource
import statistics
import subprocess
import sys
import tempfile
from pathlib import Path

from long_course import SETTINGS, STEPS_A_BLOCK, course


def seconds(command: list[str], folder: Path) -> float:
    """Processor seconds of a command in a process of its own, its start included."""
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    done = subprocess.run(command, capture_output=True, text=True, cwd=folder, check=False)
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    if done.returncode:
        sys.exit(f"{' '.join(command)}: {done.stdout[-2000:]}{done.stderr[-2000:]}")
    return after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime


def main() -> None:
    """Prints the table with the date and the machine."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--lessons", type=int, default=300)
    parser.add_argument("--times", type=int, default=3)
    args = parser.parse_args()
    print(f"{datetime.date.today().isoformat()}  {platform.machine()}, {os.cpu_count()} cores, ", end="")
    print(f"Python {platform.python_version()}, load {os.getloadavg()[0]:.1f}")
    with tempfile.TemporaryDirectory() as name:
        folder = course(Path(name) / "course", args.lessons, 1).parent
        (folder / "plain.yml").write_text(SETTINGS % "", encoding="utf-8")
        build = [sys.executable, "-m", "mkdocs", "build", "--quiet", "-f", "plain.yml", "-d", str(folder / "site")]
        check = [sys.executable, "-m", "fingerpost.cli", "check"]
        # In turns, so that what else the machine does falls on both.
        runs = [(seconds(check, folder), seconds(build, folder)) for _ in range(args.times)]
    ours, theirs = (statistics.median(run[side] for run in runs) for side in (0, 1))
    print(f"{f'check of {args.lessons} lessons of {STEPS_A_BLOCK} steps':<45}{ours:8.2f} s")
    print(f"{'  MkDocs builds the same as plain pages':<45}{theirs:8.2f} s   ratio {ours / theirs:.2f} (aim 1.00)")


if __name__ == "__main__":
    main()
