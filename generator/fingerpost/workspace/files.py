"""Where a course's files come from: the disk or a commit. What reads a course knows no other way to them."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import Protocol

from fingerpost.workspace.tree import Tree, leads_out, walk


class TooLargeError(Exception):
    """A file that is not read because of its size. size: in bytes."""

    def __init__(self, size: int) -> None:
        """Notes the size."""
        super().__init__(f"{size} bytes")
        self.size = size


class Files(Protocol):
    """Files under a course's folder, named by their path from it with `/`."""

    def is_file(self, path: str) -> bool:
        """Whether there is such a file."""
        ...

    def is_folder(self, path: str) -> bool:
        """Whether there is such a folder."""
        ...

    def leads_out(self, path: str) -> bool:
        """Whether a path, its links followed, lies outside the course's folder, or is a link that is not followed."""
        ...

    def read(self, path: str, most: int) -> bytes:
        """The bytes of a file. Raises TooLargeError beyond `most` bytes, and OSError where it can't be had."""
        ...

    def walk(self, folder: str) -> Tree:
        """Every file under a folder of the course, as paths from that folder."""
        ...


@dataclass(frozen=True)
class DiskFiles:
    """Files on the disk, under the folder `root`."""

    root: Path

    def is_file(self, path: str) -> bool:
        """Whether there is such a file."""
        return (self.root / path).is_file()

    def is_folder(self, path: str) -> bool:
        """Whether there is such a folder."""
        return (self.root / path).is_dir()

    def leads_out(self, path: str) -> bool:
        """Whether a path, its links followed, lies outside `root`."""
        return leads_out(self.root / path, self.root)

    def read(self, path: str, most: int) -> bytes:
        """The bytes of a file; its size is looked at first."""
        file = self.root / path
        size = file.stat().st_size
        if size > most:
            raise TooLargeError(size)
        return file.read_bytes()

    def walk(self, folder: str) -> Tree:
        """Every file under a folder; links that lead out are named, not followed."""
        return walk(self.root / folder)
