"""How long builds take, as ratios in one run: against the same site with its markup pasted in, by steps, in `serve`.

Run it by itself: `python tests/bench/bench_build.py`. It prints processor seconds and asserts nothing.
"""

from __future__ import annotations

import argparse
import contextlib
import datetime
import logging
import os
import platform
import re
import resource
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Iterator
from functools import partial
from pathlib import Path

from long_course import SETTINGS, STEPS_A_BLOCK, course
from mkdocs.commands.build import build
from mkdocs.config import load_config


def pasted(source: Path, folder: Path) -> Path:
    """The same site with the made markup of blocks and course pages pasted into its pages; its mkdocs.yml."""
    (folder / "docs").mkdir(parents=True)
    (folder / "mkdocs.yml").write_text(SETTINGS % "", encoding="utf-8")
    site = source.parent / "site"
    block = re.compile(r'<section class="fp-block.*?</section>\n?(?=<p>|<h|</main>|\s*<nav)', re.DOTALL)
    for page in sorted((source.parent / "docs").glob("*.md")):
        made = (site / ("" if page.stem == "index" else page.stem) / "index.html").read_text(encoding="utf-8")
        sections = iter(block.findall(made))
        text = re.sub(r"```moves\n.*?```\n", lambda _: next(sections) + "\n", page.read_text("utf-8"), flags=re.DOTALL)  # noqa: B023
        (folder / "docs" / page.name).write_text(text, encoding="utf-8")
    for name in ("chords", "reading-the-pictures", "tuner", "staying-unhurt"):
        made = (site / name / "index.html").read_text(encoding="utf-8")
        body = re.search(r'<div class="fp-page.*</div>', made, re.DOTALL)
        (folder / "docs" / f"{name}.md").write_text(f"# {name}\n\n{body[0] if body else ''}\n", encoding="utf-8")
    return folder / "mkdocs.yml"


def cold(settings: Path) -> float:
    """Processor seconds of a build in a process of its own, its start included."""
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    command = [sys.executable, "-m", "mkdocs", "build", "--quiet", "-f", str(settings)]
    subprocess.run(command, check=True, capture_output=True, cwd=settings.parent)
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    return after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime


def warm(settings: Path) -> float:
    """Processor seconds of one more build in this process, as `mkdocs serve` does it."""
    began = time.process_time()
    build(load_config(str(settings), site_dir=str(settings.parent / "site")))
    return time.process_time() - began


def best(times: int, measure: Callable[[], float]) -> float:
    """The least of several measurements: what disturbs a machine only ever makes it slower."""
    return min(measure() for _ in range(times))


def change(page: Path) -> None:
    """One finger's word changed in a lesson, as an author would."""
    text = page.read_text(encoding="utf-8")
    page.write_text(text.replace("Once more, and slowly.", f"Again {time.monotonic_ns()}.", 1), encoding="utf-8")


def rebuild(settings: Path) -> float:
    """Processor seconds until a change of one lesson is built, when everything was built before."""
    change(settings.parent / "docs" / "lesson-0001.md")
    return warm(settings)


def table(sizes: list[int], lessons: int) -> Iterator[str]:
    """The lines of the report."""
    with tempfile.TemporaryDirectory() as name:
        root = Path(name)
        ours = course(root / "ours", lessons, 1)
        cold(ours)
        theirs = pasted(ours, root / "pasted")
        yield from compared(f"{lessons} lessons of {STEPS_A_BLOCK} steps, built cold", 3, cold, ours, theirs, "0.70")
        warm(ours), warm(theirs)
        yield from compared("one lesson changed while served", 5, rebuild, ours, theirs, "1.10")
        for steps in sizes:
            settings = course(root / f"steps-{steps}", max(1, steps // 50), min(5, steps // STEPS_A_BLOCK))
            seconds = best(1 if steps > 1000 else 3, partial(cold, settings))
            yield f"{steps:>6} steps, built cold {'':20}{seconds:8.2f} s   {1000 * seconds / steps:.1f} ms a step"


def compared(
    what: str, times: int, measure: Callable[[Path], float], ours: Path, theirs: Path, aim: str
) -> Iterator[str]:
    """Two lines: our build, and that of the site with the markup pasted in, with the ratio."""
    mine, other = best(times, partial(measure, ours)), best(times, partial(measure, theirs))
    yield f"{what:<45}{mine:8.2f} s"
    yield f"{'  the same with its markup pasted in':<45}{other:8.2f} s   ratio {mine / other:.2f} (aim {aim})"


def main() -> None:
    """Prints the table with the date and the machine."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--steps", type=int, nargs="*", default=[100, 1000, 10_000])
    parser.add_argument("--lessons", type=int, default=60)
    args = parser.parse_args()
    logging.disable(logging.CRITICAL)
    day = datetime.date.today().isoformat()
    print(f"{day}  {platform.machine()}, {os.cpu_count()} cores, Python {platform.python_version()}")
    with contextlib.suppress(OSError):
        print(f"load before: {os.getloadavg()[0]:.1f}")
    for line in table(args.steps, args.lessons):
        print(line)
        sys.stdout.flush()


if __name__ == "__main__":
    main()
