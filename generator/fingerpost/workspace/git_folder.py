"""Where a repository lies: its root, and what can be known about it without running git."""

from __future__ import annotations

import os
from dataclasses import dataclass
from pathlib import Path

from fingerpost.workspace.tree import leads_out

_MOST_BYTES = 100_000


class GitError(Exception):
    """A repository that can't be read. message: what is wrong; fix: what to do about it."""

    def __init__(self, message: str, fix: str) -> None:
        """Both are for the person at the terminal."""
        super().__init__(message)
        self.message, self.fix = message, fix


@dataclass(frozen=True)
class GitFolder:
    """The root of a working copy; entry is its `.git`, common the folder that holds its objects and branches."""

    root: Path
    entry: Path
    common: Path

    @property
    def shallow(self) -> bool:
        """Whether the clone holds only the newest commits."""
        return (self.common / "shallow").is_file()


def git_folder(path: Path) -> GitFolder:
    """The repository around a folder. Raises GitError where there is none, or it borrows from elsewhere."""
    start = Path(os.path.realpath(path))
    for root in (start, *start.parents):
        entry = root / ".git"
        own = _own(entry)
        if own is not None:
            common = _common(own)
            _refuse_borrowed(common)
            return GitFolder(root, entry, common)
    raise GitError(f"There is no git repository at {path} or above it", "run it inside a clone of the course")


def _own(entry: Path) -> Path | None:
    """The folder that a `.git` is or names; None where it is neither."""
    if entry.is_dir():
        return entry if (entry / "HEAD").exists() else None
    text = _text(entry)
    if not text.startswith("gitdir: "):
        return None
    named = entry.parent / text.removeprefix("gitdir: ").strip()
    return named if (named / "HEAD").exists() else None


def _common(own: Path) -> Path:
    """Of several working copies of one repository, the folder that they share."""
    named = _text(own / "commondir").strip()
    return Path(os.path.realpath(own / named)) if named else Path(os.path.realpath(own))


def _refuse_borrowed(common: Path) -> None:
    """Objects that lie in another repository are not read: they are not under the folder that was asked about."""
    objects = common / "objects"
    lines = _text(objects / "info" / "alternates").splitlines()
    borrowed = [line for line in lines if line.strip() and not line.startswith("#")]
    if leads_out(objects, common) or any(leads_out(objects / line, common) for line in borrowed):
        raise GitError(
            "This repository borrows objects from a folder outside it, which is not read",
            "`git repack -a -d`, then remove the file alternates in .git/objects/info",
        )


def _text(path: Path) -> str:
    """The start of a small file; nothing where there is none."""
    try:
        with path.open("rb") as file:
            return file.read(_MOST_BYTES).decode("utf-8", "surrogateescape")
    except OSError:
        return ""
