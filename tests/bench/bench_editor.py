"""How soon the findings of a keystroke come: from didChange to publishDiagnostics, with a real client over stdio.

Run it by itself: `python tests/bench/bench_editor.py`. The lesson of 100 steps stands in a copy of the demo course. It
prints and asserts nothing. Beside the time on the clock stand the processor seconds of the server, since a machine
that does other things too makes the clock say more than the work does.
"""

from __future__ import annotations

import argparse
import datetime
import os
import platform
import random
import shutil
import statistics
import sys
import tempfile
import time
from pathlib import Path

from fingerpost.diagnostics import Code
from fingerpost.workspace.checked import check
from fingerpost.workspace.course_folder import load
from long_course import PROSE, STEPS_A_BLOCK, lesson, walk
from lsprotocol import types

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT / "tests" / "editor"))

from client import Editor, talk  # noqa: E402

STEPS = 100
AIM = 0.050


def lessons() -> dict[str, str]:
    """The same number of steps in blocks as lessons have them, and all in one block, which is the worst case."""
    whole = walk(random.Random(3), STEPS)
    return {
        f"{STEPS // STEPS_A_BLOCK} blocks of {STEPS_A_BLOCK} steps": lesson(900, STEPS // STEPS_A_BLOCK),
        f"one block of {STEPS} steps": f"# Long\n\n{PROSE}\n```moves\nid: long\n{whole}\n```\n\n{PROSE}",
    }


def copy_of_demo(folder: Path) -> Path:
    """The demo course, to which a lesson can be added."""
    shutil.copy(ROOT / "mkdocs.yml", folder / "mkdocs.yml")
    shutil.copytree(ROOT / "course", folder / "course")
    return folder / "course" / "bench.md"


def with_its_chords_taught(page: Path) -> str:
    """The lesson with a `teaches` in each block, of what it uses first, as a lesson has that is being written."""
    lines = page.read_text(encoding="utf-8").split("\n")
    words: dict[int, list[str]] = {}
    for finding in check(load(page.parent.parent), for_pages=False).findings:
        if finding.code is Code.USED_BEFORE_TAUGHT and finding.span.file == page.name:
            block = max(at for at, line in enumerate(lines[: finding.span.line]) if line.startswith("id: "))
            words.setdefault(block, []).append(finding.message.split("`")[1])
    for block in sorted(words, reverse=True):
        lines.insert(block + 1, f"teaches: [{', '.join(words[block])}]")
    return "\n".join(lines)


def processor(pid: int) -> float:
    """Processor seconds of a process so far; 0 where the system does not tell."""
    try:
        fields = Path(f"/proc/{pid}/stat").read_text(encoding="utf-8").rpartition(")")[2].split()
    except OSError:
        return 0.0
    return (int(fields[11]) + int(fields[12])) / os.sysconf("SC_CLK_TCK")


def typed(page: Path, text: str, keys: int) -> tuple[list[float], float]:
    """Seconds from each keystroke to its findings, and the processor seconds of one; at places all over the lesson."""

    async def conversation(editor: Editor) -> tuple[list[float], float]:
        await editor.begin(page.parent.parent)
        uri = editor.open(page, text)
        await editor.findings(uri)
        rng, took = random.Random(11), []
        assert editor._server is not None
        before = processor(editor._server.pid)
        for number in range(keys):
            # One key is pressed at a place, and taken back by the next.
            if number % 2 == 0:
                line = len(text.split("\n")) * number // keys
                place = types.Position(line, rng.randrange(len(text.split("\n")[line]) + 1))
                change = types.Range(place, place), rng.choice("12 ab=")
            else:
                change = types.Range(place, types.Position(place.line, place.character + 1)), ""
            begun = time.perf_counter()
            editor.send(uri, types.TextDocumentContentChangePartial(*change))
            await editor.findings(uri)
            took.append(time.perf_counter() - begun)
        return took, (processor(editor._server.pid) - before) / keys

    return talk(conversation)


def full_check(folder: Path) -> float:
    """Seconds of a check from nothing, in this process, the second time."""
    check(load(folder), for_pages=False)
    begun = time.perf_counter()
    check(load(folder), for_pages=False)
    return time.perf_counter() - begun


def main() -> None:
    """Prints the table with the date and the machine."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--keys", type=int, default=200)
    args = parser.parse_args()
    print(f"{datetime.date.today().isoformat()}  {platform.machine()}, {os.cpu_count()} cores, ", end="")
    print(f"Python {platform.python_version()}, load {os.getloadavg()[0]:.1f}; aim {AIM * 1000:.0f} ms a keystroke")
    for name, text in lessons().items():
        with tempfile.TemporaryDirectory() as folder:
            page = copy_of_demo(Path(folder))
            page.write_text(text, encoding="utf-8")
            text = with_its_chords_taught(page)
            page.write_text(text, encoding="utf-8")
            took, work = typed(page, text, args.keys)
            whole = full_check(Path(folder))
        median, slow = statistics.median(took), statistics.quantiles(took, n=20)[-1]
        print(f"{name:<24} median {median * 1000:6.1f} ms   p95 {slow * 1000:6.1f} ms   ", end="")
        print(f"processor {work * 1000:5.1f} ms   full check {whole * 1000:6.0f} ms, ratio {median / whole:.2f}")


if __name__ == "__main__":
    main()
