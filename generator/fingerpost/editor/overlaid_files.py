"""Files of a course with what is open in an editor laid over them."""

from __future__ import annotations

import dataclasses
import posixpath
from collections.abc import Mapping
from dataclasses import dataclass

from fingerpost.workspace.files import DiskFiles, TooLargeError
from fingerpost.workspace.tree import Tree, in_order


@dataclass(frozen=True)
class OverlaidFiles:
    """The files of a folder on the disk; `texts` are those that are open, by their path from the folder."""

    disk: DiskFiles
    texts: Mapping[str, str]

    def is_file(self, path: str) -> bool:
        """Whether there is such a file, or such an open text."""
        return path in self.texts or self.disk.is_file(path)

    def is_folder(self, path: str) -> bool:
        """Whether there is such a folder."""
        return self.disk.is_folder(path)

    def leads_out(self, path: str) -> bool:
        """Whether a path, its links followed, lies outside."""
        return self.disk.leads_out(path)

    def read(self, path: str, most: int) -> bytes:
        """The bytes of an open text as they would be saved, else those of the file."""
        text = self.texts.get(posixpath.normpath(path))
        if text is None:
            return self.disk.read(path, most)
        data = text.encode("utf-8", "replace")
        if len(data) > most:
            raise TooLargeError(len(data))
        return data

    def walk(self, folder: str) -> Tree:
        """Every file under a folder, open texts that are not saved yet (or deleted meanwhile) among them."""
        tree = self.disk.walk(folder)
        here = posixpath.normpath(folder) + "/"
        texts = (path.removeprefix(here) for path in self.texts if path.startswith(here))
        new = {path for path in texts if path not in tree.refused and not self.leads_out(here + path)}
        return dataclasses.replace(tree, files=in_order({*tree.files, *new})) if new - set(tree.files) else tree
