"""The files of a course in a commit, read without a checkout; links and submodules are named, not followed."""

from __future__ import annotations

import posixpath
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from fingerpost.workspace.git import Entry, Objects
from fingerpost.workspace.git_folder import GitError
from fingerpost.workspace.tree import Tree, in_order

_UNFOLLOWED = {"120000": "a symbolic link", "160000": "a submodule"}


@dataclass(frozen=True)
class CommitFiles:
    """Files under a folder of a commit. blobs: object ids by path; unfollowed: what is no file, by path."""

    objects: Objects
    blobs: Mapping[str, str]
    unfollowed: Mapping[str, str]
    folders: frozenset[str]

    def is_file(self, path: str) -> bool:
        """Whether there is such a file."""
        return posixpath.normpath(path) in self.blobs

    def is_folder(self, path: str) -> bool:
        """Whether there is a file below this path."""
        return posixpath.normpath(path) in self.folders

    def leads_out(self, path: str) -> bool:
        """Whether a path leaves the course's folder or goes through a link or a submodule."""
        whole = posixpath.normpath(path)
        return whole.startswith(("/", "../")) or whole == ".." or any(way in self.unfollowed for way in _ways(whole))

    def read(self, path: str, most: int) -> bytes:
        """The bytes of a file. Raises TooLargeError, FileNotFoundError, and GitError where its object is missing."""
        whole = posixpath.normpath(path)
        if whole not in self.blobs:
            raise FileNotFoundError(2, "No such file in the commit", path)
        return self.objects.blob(self.blobs[whole], most)

    def walk(self, folder: str) -> Tree:
        """Every file under a folder of the course."""
        top = posixpath.normpath(folder)
        files = _below(self.blobs, top)
        unfollowed = sorted(_below(self.unfollowed, top).items())
        return Tree(in_order(files), (), tuple(unfollowed))


def commit_files(objects: Objects, entries: Iterable[Entry], folder: str) -> CommitFiles:
    """The files of a commit under a folder (`""` for all). Raises GitError for a name that is no UTF-8."""
    start = f"{folder}/".encode() if folder else b""
    inside = [entry for entry in entries if entry.name.startswith(start)]
    named = {_name(entry.name)[len(folder) + 1 if folder else 0 :]: entry for entry in inside}
    blobs = {name: entry.object_id for name, entry in named.items() if entry.mode not in _UNFOLLOWED}
    unfollowed = {name: _UNFOLLOWED[e.mode] for name, e in named.items() if e.mode in _UNFOLLOWED}
    folders = frozenset(way for name in blobs for way in _ways(posixpath.dirname(name)))
    return CommitFiles(objects, blobs, unfollowed, folders | {"."})


def _name(name: bytes) -> str:
    try:
        return name.decode("utf-8")
    except UnicodeDecodeError:
        shown = name.decode("utf-8", "backslashreplace")
        raise GitError(
            f"The branch has a file whose name is not UTF-8: {ascii(shown)[1:-1]}",
            "`git mv` it to a name that every machine can read",
        ) from None


def _ways(path: str) -> Iterator[str]:
    """The path and every folder above it."""
    while path:
        yield path
        path = posixpath.dirname(path) if path != "/" else ""


def _below(named: Mapping[str, str], folder: str) -> dict[str, str]:
    start = "" if folder == "." else f"{folder}/"
    return {name[len(start) :]: value for name, value in named.items() if name.startswith(start)}
