"""What a page weighs on the way to a phone: itself, its styles and scripts, compressed as a host does it."""

from __future__ import annotations

import gzip
import re
from dataclasses import dataclass
from pathlib import Path

LOADED = re.compile(r'<(?:link rel="stylesheet" href|script(?: type="module")? src)="([^"]+)"')
IMPORTED = re.compile(r'^import .* from "([^"]+)";$', re.MULTILINE)


@dataclass(frozen=True)
class Weight:
    """Bytes of a page after gzip (level 6, the usual one): its HTML, styles and scripts."""

    page: int
    styles: int
    scripts: int

    @property
    def all(self) -> int:
        """Everything that opening the page for the first time asks for, its own pictures excepted."""
        return self.page + self.styles + self.scripts


def packed(file: Path) -> int:
    """Bytes of a file after gzip."""
    return len(gzip.compress(file.read_bytes(), 6, mtime=0))


def weigh(page: Path) -> Weight:
    """The weight of a built page."""
    files = {(page.parent / path).resolve() for path in LOADED.findall(page.read_text("utf-8"))}
    scripts = _with_imports({file for file in files if file.suffix == ".js"})
    styles = {file for file in files if file.suffix == ".css"}
    return Weight(packed(page), sum(map(packed, styles)), sum(map(packed, scripts)))


def _with_imports(files: set[Path]) -> set[Path]:
    found: set[Path] = set()
    waiting = list(files)
    while waiting:
        file = waiting.pop()
        if file not in found:
            found.add(file)
            waiting += [(file.parent / path).resolve() for path in IMPORTED.findall(file.read_text("utf-8"))]
    return found
