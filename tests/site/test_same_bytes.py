"""The same source gives the same bytes, wherever, whenever and in whatever surroundings it is built."""

from __future__ import annotations

import hashlib
import os
import shutil
import subprocess
import sys
from pathlib import Path

from .looking import ROOT

HERE = {"TZ": "Pacific/Kiritimati", "LC_ALL": "C.UTF-8", "PYTHONHASHSEED": "1"}
# Python's own care for bare surroundings is turned off, so that a file opened without saying its encoding would show.
THERE = {"TZ": "Pacific/Marquesas", "LC_ALL": "C", "PYTHONHASHSEED": "2", "PYTHONUTF8": "0", "PYTHONCOERCECLOCALE": "0"}
"""Half a day and a day apart; with and without an alphabet; and sets in another order."""


def built(folder: Path, surroundings: dict[str, str], backwards: bool) -> dict[str, str]:
    """The digest of each file that the demo course gives when built in this folder, its files written in this order."""
    files = sorted(file for file in (ROOT / "course").rglob("*") if file.is_file())
    for file in reversed(files) if backwards else files:
        to = folder / file.relative_to(ROOT)
        to.parent.mkdir(parents=True, exist_ok=True)
        shutil.copyfile(file, to)
    shutil.copyfile(ROOT / "mkdocs.yml", folder / "mkdocs.yml")
    environment = {**os.environ, **surroundings, "SOURCE_DATE_EPOCH": "1767225600"}
    command = [sys.executable, "-m", "mkdocs", "build", "--strict", "--site-dir", str(folder / "site")]
    done = subprocess.run(command, cwd=folder, env=environment, capture_output=True, text=True)
    assert done.returncode == 0, done.stdout + done.stderr
    return digests(folder / "site")


def digests(site: Path) -> dict[str, str]:
    """SHA-256 of each file. The compressed sitemap depends on the compressor's version, so it is left out."""
    return {
        file.relative_to(site).as_posix(): hashlib.sha256(file.read_bytes()).hexdigest()
        for file in sorted(site.rglob("*"))
        if file.is_file() and file.name != "sitemap.xml.gz"
    }


def test_two_builds_in_two_surroundings_are_the_same_bytes(tmp_path: Path) -> None:
    one, other = tmp_path / "one", tmp_path / "another folder, with blanks"
    here, there = built(one, HERE, backwards=False), built(other, THERE, backwards=True)
    assert len(here) > 40
    assert {file for file in here.keys() | there.keys() if here.get(file) != there.get(file)} == set()
