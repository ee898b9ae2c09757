"""A course as it lies on the disk: its settings, its pages in order, and what is wrong before a page is understood."""

from __future__ import annotations

import os
from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from fingerpost.diagnostics import Code, Diagnostic, Severity, Span
from fingerpost.workspace.nav import is_page, pages_in_order
from fingerpost.workspace.own_options import own_options, places_under
from fingerpost.workspace.page_text import MOST_BYTES, PageText, decode, too_large
from fingerpost.workspace.settings_file import SettingsFile, read_settings_file
from fingerpost.workspace.tree import leads_out, link_findings, walk

SETTINGS_NAMES = ("mkdocs.yml", "mkdocs.yaml")


class CourseUnreadableError(Exception):
    """There is nothing to check at a path. message: what is wrong; fix: what to do about it."""

    def __init__(self, message: str, fix: str) -> None:
        """Both sentences are for the teacher."""
        super().__init__(message)
        self.message, self.fix = message, fix


@dataclass(frozen=True)
class CourseSources:
    """What was read. Pages' files are paths from `docs`; `option_places` says where each option of ours is written
    (`limits.span` for one inside another).

    only: the single page that was asked for, else None. files: all files of the sources, as paths from `docs`.
    settings_name is how findings call mkdocs.yml; findings about pages name them by their path from `docs`.
    """

    root: Path
    docs: Path
    pages: tuple[PageText, ...]
    options: Mapping[str, Any] = field(default_factory=dict)
    option_places: Mapping[str, Span] = field(default_factory=dict)
    files: frozenset[str] = frozenset()
    findings: tuple[Diagnostic, ...] = ()
    only: str | None = None
    settings_name: str | None = None
    settings_text: str = ""


def load(path: Path) -> CourseSources:
    """Reads the course in a folder, or the course around one of its pages. Raises CourseUnreadableError."""
    if not path.exists():
        raise CourseUnreadableError(f"There is no {path}", "give the folder of a course, or one of its pages")
    if path.is_dir():
        settings_path = _settings_in(path)
        if settings_path is None:
            raise CourseUnreadableError(
                f"{path} holds no mkdocs.yml, so it is no course", "`fingerpost new DIR` makes a course to start from"
            )
        return _course(settings_path, None)
    if path.name in SETTINGS_NAMES:
        return _course(path, None)
    if not path.is_file() or not is_page(path.name):
        raise CourseUnreadableError(
            f"{path} is no page of Markdown", "give the folder of a course, or one of its pages"
        )
    return _around(path)


def _settings_in(folder: Path) -> Path | None:
    return next((folder / name for name in SETTINGS_NAMES if (folder / name).is_file()), None)


def _around(page: Path) -> CourseSources:
    """The course that a page belongs to; a page that belongs to none stands alone."""
    real = Path(os.path.abspath(page))
    for folder in real.parents:
        settings_path = _settings_in(folder)
        if settings_path is not None:
            course = _course(settings_path, real)
            if course.only in {text.file for text in course.pages}:
                return course
            break
    text, findings = _page(real.parent, real.name)
    return CourseSources(
        real.parent, real.parent, text, files=frozenset(os.listdir(real.parent)), findings=findings, only=real.name
    )


def _course(settings_path: Path, only: Path | None) -> CourseSources:
    root = settings_path.parent
    settings = read_settings_file(settings_path, root, settings_path.name)
    docs = root / str(settings.values.get("docs_dir") or "docs")
    problem = _docs_problem(docs, root, settings)
    tree = walk(docs) if problem is None else None
    files = tree.files if tree else ()
    read = [_page(docs, file) for file in pages_in_order(files, settings.values)]
    way, options = own_options(settings.values)
    return CourseSources(
        root=root,
        docs=docs,
        pages=tuple(page for pages, _ in read for page in pages),
        options=options or {},
        option_places=places_under(way, settings.places) if way else {},
        files=frozenset(files),
        findings=(
            *settings.findings,
            *((problem,) if problem and settings.usable else ()),
            *(_not_turned_on(settings_path.name) if options is None and settings.usable else ()),
            *link_findings(tree.refused if tree else ()),
            *(finding for _, findings in read for finding in findings),
        ),
        only=_relative(only, docs) if only else None,
        settings_name=settings_path.name,
        settings_text=_text_of(settings_path, root),
    )


def _page(docs: Path, file: str) -> tuple[tuple[PageText, ...], tuple[Diagnostic, ...]]:
    path = docs / file
    try:
        size = path.stat().st_size
        if size > MOST_BYTES:
            return (), (too_large(file, size),)
        text, findings = decode(file, path.read_bytes())
        return (text,), findings
    except OSError as error:
        reason = (error.strerror or "unknown reason").lower()
        span = Span(file, 1, 1, 1, 1)
        message = f"This page can't be opened: {reason}"
        return (), (Diagnostic(span, Severity.ERROR, Code.UNREADABLE_FILE, message, "a file that can be read"),)


def _docs_problem(docs: Path, root: Path, settings: SettingsFile) -> Diagnostic | None:
    name = settings.values.get("docs_dir") or "docs"
    span = settings.places.get(("docs_dir",), Span("mkdocs.yml", 1, 1, 1, 1))
    if leads_out(docs, root):
        message = f"docs_dir is {name}, which lies outside the folder of mkdocs.yml, so it is not read"
        return Diagnostic(
            span, Severity.ERROR, Code.LINK_OUT_OF_TREE, message, "a folder beside mkdocs.yml",
            "move the sources there",
        )  # fmt: skip
    if not docs.is_dir():
        message = f"The folder of the sources, {name}, does not exist"
        return Diagnostic(
            span, Severity.ERROR, Code.UNREADABLE_FILE, message, "a folder with the pages of the course",
            f"make the folder {name}, or set docs_dir to the one that holds the pages",
        )  # fmt: skip
    return None


def _not_turned_on(settings_name: str) -> tuple[Diagnostic, ...]:
    return (
        Diagnostic(
            Span(settings_name, 1, 1, 1, 1),
            Severity.WARNING,
            Code.BAD_SETTING,
            "The plugin fingerpost is not turned on, so blocks of moves would be shown as plain text",
            "`- fingerpost` under `plugins:`",
            "add `plugins: [search, fingerpost]`",
        ),
    )


def _relative(page: Path, docs: Path) -> str | None:
    folder = Path(os.path.abspath(docs))
    return page.relative_to(folder).as_posix() if page.is_relative_to(folder) else None


def _text_of(path: Path, root: Path) -> str:
    """The text of mkdocs.yml for showing its lines beside findings; nothing where it can't be had."""
    try:
        return "" if leads_out(path, root) else path.read_bytes().decode("utf-8-sig", errors="replace")
    except OSError:
        return ""
