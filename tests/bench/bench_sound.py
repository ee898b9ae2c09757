"""How true the course's strings and its tuner are: cents from the fundamental, over more tones than the tests take.

Run it by hand: `python tests/bench/bench_sound.py`. It asserts what the tests do, prints their tables,
and needs Node.js.
"""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]


def main() -> None:
    """Prints the lines that tests/theme/sound.test.js and tuner.test.js say."""
    for name in ("sound", "tuner"):
        done = subprocess.run(
            ["node", "--test", f"tests/theme/{name}.test.js"],
            cwd=ROOT,
            env={**os.environ, "MORE_TONES": "1"},
            capture_output=True,
            text=True,
        )
        said = [line.removeprefix("# ") for line in done.stdout.splitlines() if line.startswith(("# pitch", "# tuner"))]
        print("\n".join(said))
        if done.returncode:
            sys.exit(done.stdout)


if __name__ == "__main__":
    main()
