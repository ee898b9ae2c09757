"""Walking a folder of sources without ever leaving it: links that lead out are named, not followed."""

from __future__ import annotations

import os
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from pathlib import Path

from fingerpost.diagnostics import Code, Diagnostic, Severity, Span


@dataclass(frozen=True, slots=True)
class Tree:
    """The files under a folder, as paths from it with `/`, in MkDocs' order; refused: the links that lead out.

    unfollowed: what a commit holds that is no file, and is never followed: its path, and what it is.
    """

    files: tuple[str, ...]
    refused: tuple[str, ...]
    unfollowed: tuple[tuple[str, str], ...] = ()


def leads_out(path: Path, root: Path) -> bool:
    """Whether a path, its links followed, lies outside `root`."""
    return not Path(os.path.realpath(path)).is_relative_to(os.path.realpath(root))


def walk(root: Path) -> Tree:
    """Every regular file under `root`, `index` and `README` first in each folder, folders last."""
    files: list[str] = []
    refused: list[str] = []
    for name, inside in _walk(root, root, "", frozenset()):
        (files if inside else refused).append(name)
    return Tree(tuple(files), tuple(sorted(refused)))


def _walk(folder: Path, root: Path, prefix: str, above: frozenset[str]) -> Iterator[tuple[str, bool]]:
    real = os.path.realpath(folder)
    if real in above:
        return
    entries = sorted(os.scandir(folder), key=lambda entry: _order(entry.name))
    for entry in entries:
        if entry.is_symlink() and leads_out(Path(entry.path), root):
            yield prefix + entry.name, False
        elif entry.is_file():
            yield prefix + entry.name, True
    for entry in entries:
        if entry.is_dir() and not (entry.is_symlink() and leads_out(Path(entry.path), root)):
            yield from _walk(Path(entry.path), root, f"{prefix}{entry.name}/", above | {real})


def in_order(paths: Iterable[str]) -> tuple[str, ...]:
    """Paths with `/` in the order in which `walk` meets their files."""
    return tuple(sorted(paths, key=_way))


def _way(path: str) -> list[tuple[bool, bool, str]]:
    *folders, name = path.split("/")
    return [*((True, *_order(folder)) for folder in folders), (False, *_order(name))]


def _order(name: str) -> tuple[bool, str]:
    return (os.path.splitext(name)[0] not in ("index", "README"), name)


def link_findings(refused: tuple[str, ...]) -> tuple[Diagnostic, ...]:
    """A finding for each link that leads out of the tree."""
    return tuple(
        Diagnostic(
            Span(name, 1, 1, 1, 1),
            Severity.ERROR,
            Code.LINK_OUT_OF_TREE,
            f"{name} is a link to something outside the course's sources, so it is left out",
            "files that lie in the folder of the sources",
            "copy the file into the folder, or remove the link",
        )
        for name in refused
    )


def unfollowed_findings(unfollowed: Iterable[tuple[str, str]]) -> tuple[Diagnostic, ...]:
    """A finding for each entry of a commit that is no file."""
    return tuple(
        Diagnostic(
            Span(name, 1, 1, 1, 1),
            Severity.ERROR,
            Code.LINK_OUT_OF_TREE,
            f"{name} is {what}, which is not followed, so it is left out",
            "files that lie in the folder of the sources",
            "put the files themselves into the folder",
        )
        for name, what in unfollowed
    )
