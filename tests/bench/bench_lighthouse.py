"""Lighthouse's four marks (of 100) for pages of the built demo, on its emulated phone and on a desk.

Run it by itself: `python tests/bench/bench_lighthouse.py`; npm fetches the pinned version at the first run.
It prints and asserts nothing: the mark for performance depends on the machine.
"""

from __future__ import annotations

import argparse
import datetime
import json
import os
import platform
import re
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT / "tests" / "site"))
from looking import chromium_path, served  # noqa: E402

VERSION = "12.8.2"
CATEGORIES = ("performance", "accessibility", "best-practices", "seo")
FLAGS = "--headless=new --no-sandbox --disable-gpu --disable-quic --no-first-run --disable-background-networking"


def pages(demo: Path) -> list[str]:
    """The front page, the first and the heaviest lesson, and the chord index."""
    home = (demo / "index.html").read_text("utf-8")
    lessons = re.findall(r'<li><a class="arm" href="([^"]+)"', home)
    heaviest = max(lessons, key=lambda page: (demo / page / "index.html").stat().st_size)
    return ["", lessons[0], heaviest, "chords/"]


def marks(address: str, desk: bool) -> dict[str, int]:
    """The marks of one page, and what lost any."""
    with tempfile.TemporaryDirectory() as folder:
        out = Path(folder) / "report.json"
        command = [
            "npm", "exec", "--yes", f"--package=lighthouse@{VERSION}", "--",
            "lighthouse", address, "--quiet", "--output=json", f"--output-path={out}",
            f"--chrome-flags={FLAGS}", f"--only-categories={','.join(CATEGORIES)}",
            *(["--preset=desktop"] if desk else []),
        ]  # fmt: skip
        environment = {**os.environ, "CHROME_PATH": chromium_path()}
        done = subprocess.run(command, capture_output=True, text=True, env=environment, check=False)
        if done.returncode:
            sys.exit(done.stderr[-2000:])
        report = json.loads(out.read_text("utf-8"))
    for line in lost(report):
        print(f"    {line}")
    return {name: round(100 * report["categories"][name]["score"]) for name in CATEGORIES}


def lost(report: dict[str, dict[str, dict[str, object]]]) -> Iterator[str]:
    """What was found wanting, where it counts."""
    weights = {
        audit["id"]: audit["weight"]
        for name in CATEGORIES
        for audit in report["categories"][name]["auditRefs"]  # type: ignore[attr-defined]
    }
    for name, audit in report["audits"].items():
        score = audit["score"]
        if weights.get(name) and isinstance(score, (int, float)) and score < 0.9:
            yield f"{name}: {score} {audit.get('displayValue', '')}"


def main() -> None:
    """Prints the table with the date and the machine."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--site", type=Path, default=ROOT / "site_demo")
    args = parser.parse_args()
    print(f"{datetime.date.today().isoformat()}  {platform.machine()}, {os.cpu_count()} cores, ", end="")
    print(f"load {os.getloadavg()[0]:.1f}; {', '.join(CATEGORIES)}")
    with served(args.site) as address:
        for page in pages(args.site):
            for desk in (False, True):
                found = marks(address + page, desk)
                print(
                    f"{page or 'front page':<30} {'desk' if desk else 'phone':<6}", *(f"{n:>4}" for n in found.values())
                )


if __name__ == "__main__":
    main()
