"""Which pages a course has and in which order they are taught: by `nav`, then as MkDocs orders files."""

from __future__ import annotations

import posixpath
from collections.abc import Iterable, Iterator, Mapping
from typing import Any

from pathspec.gitignore import GitIgnoreSpec

PAGE_SUFFIXES = (".markdown", ".mdown", ".mkdn", ".mkd", ".md")
# What MkDocs leaves out unless told otherwise (its `exclude_docs`).
_ALWAYS_LEFT_OUT = (".*", "/templates/")


def pages_in_order(files: Iterable[str], settings: Mapping[str, Any]) -> tuple[str, ...]:
    """The pages among `files` in the order in which they are taught."""
    left_out = _left_out(settings)
    pages = _without_doubles(file for file in files if is_page(file) and not left_out.match_file(file))
    named = [file for file in nav_files(settings.get("nav")) if file in pages]
    return tuple(dict.fromkeys([*named, *pages]))


def nav_files(nav: Any, depth: int = 20) -> Iterator[str]:
    """Every path that a `nav` setting names, top to bottom."""
    if isinstance(nav, str):
        yield posixpath.normpath(nav)
    elif isinstance(nav, Mapping | list) and depth:
        for item in nav.values() if isinstance(nav, Mapping) else nav:
            yield from nav_files(item, depth - 1)


def is_page(file: str) -> bool:
    """Whether MkDocs makes a page of a file of this name."""
    return file.endswith(PAGE_SUFFIXES)


def _left_out(settings: Mapping[str, Any]) -> GitIgnoreSpec:
    lines = [line for key in ("exclude_docs", "draft_docs") for line in str(settings.get(key) or "").splitlines()]
    return GitIgnoreSpec.from_lines([*_ALWAYS_LEFT_OUT, *lines])


def _without_doubles(pages: Iterable[str]) -> list[str]:
    """A `README.md` beside an `index.md` is not a page of its own."""
    kept = list(pages)
    return [
        page
        for page in kept
        if posixpath.basename(page) != "README.md" or posixpath.join(posixpath.dirname(page), "index.md") not in kept
    ]
