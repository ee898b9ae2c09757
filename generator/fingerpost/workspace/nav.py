"""Which pages a course has and in which order they are taught: by `nav`, then as MkDocs orders files."""

from __future__ import annotations

import posixpath
from collections.abc import Callable, Container, Iterable, Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from pathspec.gitignore import GitIgnoreSpec

from fingerpost.course.rules.dead_link import ELSEWHERE, nearest_file
from fingerpost.course.slip import error, warning
from fingerpost.course.words import quoted
from fingerpost.diagnostics import Code, Diagnostic, Span
from fingerpost.source.page import PageRead
from fingerpost.workspace.links import ADDED
from fingerpost.workspace.settings_file import Where

PAGE_SUFFIXES = (".markdown", ".mdown", ".mkdn", ".mkd", ".md")
MOST_DEPTH = 20
# What MkDocs leaves out unless told otherwise (its `exclude_docs`).
_ALWAYS_LEFT_OUT = (".*", "/templates/")


@dataclass(frozen=True)
class Order:
    """The pages of a course in the order in which they are taught.

    lost: what `nav` names and no file is, with its way down in the settings and the page that is likely meant ("" for
    none). unplaced: the pages that a `nav` leaves out, which come last; not those that `not_in_nav` names.
    """

    pages: tuple[str, ...]
    lost: tuple[tuple[Where, str, str], ...] = ()
    unplaced: tuple[str, ...] = ()


def order_of(files: Iterable[str], settings: Mapping[str, Any]) -> Order:
    """The order of the pages among `files`. A page that is likely meant where `nav` names none stands in its place."""
    files = list(files)
    left_out = _ignored(settings, "exclude_docs", "draft_docs", always=_ALWAYS_LEFT_OUT)
    pages = _without_doubles(file for file in files if is_page(file) and not left_out.match_file(file))
    entries = list(nav_entries(settings.get("nav")))
    named = {file for file, _ in entries}
    free = [page for page in pages if page not in named]
    lost = []
    for file, way in entries:
        if not (ELSEWHERE.match(file) or file in files or file in ADDED or file == "."):
            meant = nearest_file(file, free)
            free = [page for page in free if page != meant]
            lost.append((way, file, meant))
    stands_for = {way: meant for way, _, meant in lost if meant}
    placed = [stands_for.get(way, file) for file, way in entries]
    beside = _ignored(settings, "not_in_nav")
    unplaced = tuple(page for page in free if not beside.match_file(page)) if entries else ()
    return Order(tuple(dict.fromkeys([*(file for file in placed if file in pages), *pages])), tuple(lost), unplaced)


def lost_findings(order: Order, pages: Iterable[str], place: Callable[[Where], Span]) -> Iterator[Diagnostic]:
    """An error for each entry of `nav` that leads nowhere, at its value. pages: all that it may lead to."""
    for way, file, meant in order.lost:
        message = f"`nav` names {quoted(file)}, and there is no such page or file"
        expected = "a page by its path from the folder of the sources"
        yield error(place(way), Code.DEAD_LINK, message, expected, meant or nearest_file(file, pages))


def unplaced_findings(pages: Iterable[PageRead], unplaced: Container[str], place: Span) -> Iterator[Diagnostic]:
    """A warning for each lesson that `nav` leaves out: nobody said where in the course it is taught."""
    for page in pages:
        if page.syntax.file in unplaced and page.syntax.blocks:
            message = f"`nav` leaves out {quoted(page.syntax.file)}, so its blocks come last in the course"
            expected = "a place in `nav`; or in `not_in_nav`, if the page is to be reached otherwise"
            yield warning(place, Code.PAGE_NOT_IN_NAV, message, expected, f"add {page.syntax.file} where it is taught")


def pages_in_order(files: Iterable[str], settings: Mapping[str, Any]) -> tuple[str, ...]:
    """The pages among `files` in the order in which they are taught."""
    return order_of(files, settings).pages


def nav_files(nav: Any) -> Iterator[str]:
    """Every path that a `nav` setting names, top to bottom."""
    return (file for file, _ in nav_entries(nav))


def nav_entries(nav: Any, way: Where = ("nav",)) -> Iterator[tuple[str, Where]]:
    """The same, each with its way down in the settings."""
    if isinstance(nav, str):
        yield posixpath.normpath(nav), way
    elif isinstance(nav, Mapping | list) and len(way) <= MOST_DEPTH:
        for key, item in nav.items() if isinstance(nav, Mapping) else enumerate(nav):
            yield from nav_entries(item, (*way, key))


def is_page(file: str) -> bool:
    """Whether MkDocs makes a page of a file of this name."""
    return file.endswith(PAGE_SUFFIXES)


def _ignored(settings: Mapping[str, Any], *keys: str, always: Iterable[str] = ()) -> GitIgnoreSpec:
    lines = [line for key in keys for line in str(settings.get(key) or "").splitlines()]
    return GitIgnoreSpec.from_lines([*always, *lines])


def _without_doubles(pages: Iterable[str]) -> list[str]:
    """A `README.md` beside an `index.md` is not a page of its own."""
    kept = list(pages)
    return [
        page
        for page in kept
        if posixpath.basename(page) != "README.md" or posixpath.join(posixpath.dirname(page), "index.md") not in kept
    ]
