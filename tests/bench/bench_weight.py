"""What the demo course's pages weigh on the way to a phone, compressed, styles and scripts included.

Run it by hand: `python tests/bench/bench_weight.py`. It builds the demo, prints a table and asserts nothing; the budget
of 60 KB a lesson is held by tests/site/test_page_weight.py, since bytes do not depend on the machine.
"""

from __future__ import annotations

import subprocess
import sys
import tempfile
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT))

from tests.site.weight import weigh  # noqa: E402 - after the path


def main() -> None:
    """Builds the demo and prints a row a page, heaviest first."""
    with tempfile.TemporaryDirectory() as folder:
        site = Path(folder) / "site"
        command = [sys.executable, "-m", "mkdocs", "build", "--quiet", "--config-file", str(ROOT / "mkdocs.yml")]
        subprocess.run([*command, "--site-dir", str(site)], check=True)
        weights = {file.parent.relative_to(site).as_posix(): weigh(file) for file in site.rglob("index.html")}
    print(f"{'page':36} {'HTML':>8} {'styles':>8} {'scripts':>8} {'all':>8}   bytes after gzip")
    for name, weight in sorted(weights.items(), key=lambda item: -item[1].all):
        print(f"{name:36} {weight.page:8,} {weight.styles:8,} {weight.scripts:8,} {weight.all:8,}")


if __name__ == "__main__":
    main()
