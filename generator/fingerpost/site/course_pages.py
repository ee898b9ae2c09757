"""The pages that the build adds to a course: where they stand among its files and in its navigation."""

from __future__ import annotations

from collections.abc import Iterable

from mkdocs.config.defaults import MkDocsConfig
from mkdocs.structure.files import File, Files, InclusionLevel
from mkdocs.structure.nav import Navigation

from fingerpost.render.course_pages import MAKERS
from fingerpost.workspace.nav import nav_files


def add_course_pages(files: Files, config: MkDocsConfig) -> tuple[str, ...]:
    """Adds the pages that the author has not written; what is in them comes later. Returns their names."""
    added = tuple(name for name in MAKERS if files.get_file_from_path(name) is None)
    named = set(nav_files(config.nav))
    for name in added:
        # One that the author's nav does not name is put at its end, so its absence there is no fault.
        inclusion = InclusionLevel.INCLUDED if name in named else InclusionLevel.NOT_IN_NAV
        files.append(File.generated(config, name, content="", inclusion=inclusion))
    return added


def pages_in_order(nav: Navigation, files: Iterable[File]) -> list[File]:
    """All pages in the order in which they are taught: those of the navigation, then the others."""
    named = [page.file for page in nav.pages]
    return list({file.src_uri: file for file in (*named, *files)}.values())


def unplaced(files: Iterable[File], nav: Navigation) -> frozenset[str]:
    """The pages that a `nav` leaves out without saying so (`not_in_nav`): where they are taught is not known."""
    named = {page.file.src_uri for page in nav.pages}
    return frozenset(
        file.src_uri for file in files if file.src_uri not in named and file.inclusion is not InclusionLevel.NOT_IN_NAV
    )


def append_to_nav(nav: Navigation, files: Files, added: Iterable[str]) -> None:
    """Puts added pages that the navigation lacks at its end."""
    there = {page.file.src_uri for page in nav.pages}
    for name in added:
        file = files.get_file_from_path(name)
        if file is None or file.page is None or name in there:
            continue
        page, last = file.page, nav.pages[-1] if nav.pages else None
        page.previous_page = last
        if last is not None:
            last.next_page = page
        nav.items.append(page)
        nav.pages.append(page)
