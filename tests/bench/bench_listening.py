"""How often the listening to a strum names the right fault, on a guitar that its limits were not set on (node needed).

Run it by itself: `python tests/bench/bench_listening.py`. Shapes: those of tests/music/usual_fingerings_held_out.txt.
`silent` counts the strums of which nothing was said, `covered` those whose string other strings' overtones cover.
"""

from __future__ import annotations

import argparse
import datetime
import os
import platform
import subprocess
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]


def main() -> None:
    """Prints the table with the date and the machine."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--times", type=int, default=3)
    parser.add_argument("--seed", type=int, default=17)
    args = parser.parse_args()
    lines = (ROOT / "tests/music/usual_fingerings_held_out.txt").read_text("utf-8").splitlines()
    shapes = sorted({line.split()[1] for line in lines if line and not line.startswith("#")})
    print(f"{datetime.date.today().isoformat()}  {platform.machine()}, {os.cpu_count()} cores; ", end="")
    print(f"{len(shapes)} shapes, {args.times} times, seed {args.seed}", flush=True)
    table = ROOT / "tests/theme/listening/table.js"
    subprocess.run(["node", str(table), str(args.seed), str(args.times), *shapes], check=True)


if __name__ == "__main__":
    main()
