"""Every built page against the HTML standard, with the checker that the standard's own community keeps (vnu)."""

from __future__ import annotations

import shutil
import subprocess
from pathlib import Path

from .looking import ROOT

CHECKER = ROOT / "node_modules/vnu-jar/build/dist/vnu.jar"


def test_no_page_has_an_error(demo: Path) -> None:
    java = shutil.which("java")
    assert java, "no Java: `make node` installs it, as `make test` does"
    assert CHECKER.is_file(), "no checker: `make node` installs it, as `make test` does"
    command = [java, "-jar", str(CHECKER), "--errors-only", "--skip-non-html", str(demo)]
    done = subprocess.run(command, capture_output=True, text=True, check=False, timeout=300)
    assert done.returncode == 0, done.stderr[-4000:]
