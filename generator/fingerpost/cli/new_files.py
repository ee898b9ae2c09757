"""Writing files that are new: all of them or none, each whole, and never over a file that is there."""

from __future__ import annotations

import os
import tempfile
from collections.abc import Mapping
from contextlib import suppress
from pathlib import Path


def write_new(folder: Path, texts: Mapping[str, str]) -> None:
    """Writes files into a folder, which is made if need be. Raises OSError; then nothing new is left.

    Each file is written under another name first and then linked to its own, which fails where there is one already.
    """
    made = _make(folder)
    written: list[Path] = []
    try:
        with tempfile.TemporaryDirectory(dir=folder, prefix=".fingerpost-") as aside:
            for name, text in texts.items():
                (Path(aside) / name).write_text(text, encoding="utf-8", newline="\n")
            for name in texts:
                target = folder / name
                os.link(Path(aside) / name, target)
                written.append(target)
    except BaseException:
        for target in written:
            with suppress(OSError):
                target.unlink()
        for parent in made:
            with suppress(OSError):
                parent.rmdir()
        raise


def _make(folder: Path) -> list[Path]:
    """Makes a folder with those above it; those that were made, the innermost first."""
    missing = [one for one in (folder, *folder.parents) if not one.exists()]
    folder.mkdir(parents=True, exist_ok=True)
    return missing
