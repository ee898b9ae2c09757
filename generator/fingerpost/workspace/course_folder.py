"""A course on the disk or in a commit: its settings, its pages in order, and what is wrong with them before meaning."""

from __future__ import annotations

import dataclasses
import os
import posixpath
from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from fingerpost.diagnostics import Code, Diagnostic, Severity, Span
from fingerpost.workspace.files import DiskFiles, Files, TooLargeError
from fingerpost.workspace.nav import is_page, lost_findings, order_of
from fingerpost.workspace.own_options import option_places, own_options
from fingerpost.workspace.page_text import MOST_BYTES, PageText, binary, decode, is_binary, no_address, too_large
from fingerpost.workspace.settings_file import SettingsFile, read_settings
from fingerpost.workspace.tree import Tree, link_findings, unfollowed_findings

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
    readable is False where mkdocs.yml can't be read or its folder of sources is not there; findings say why.
    no_text: the pages that are none, such as a picture with the ending of a page; they are not read.
    unplaced: the pages that a `nav` leaves out; nav_place: where that is written.
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
    readable: bool = True
    no_text: tuple[str, ...] = ()
    unplaced: tuple[str, ...] = ()
    nav_place: Span | None = None


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
    text, findings = _page(DiskFiles(real.parent), "", real.name)
    no_text = (real.name,) if findings == (binary(real.name),) else ()
    return CourseSources(
        real.parent,
        real.parent,
        text,
        files=frozenset(os.listdir(real.parent)),
        findings=findings,
        only=real.name,
        no_text=no_text,
    )


def _course(settings_path: Path, only: Path | None) -> CourseSources:
    root = settings_path.parent
    course = course_from(DiskFiles(root), settings_path.name, root)
    return dataclasses.replace(course, only=_relative(only, course.docs)) if only else course


def course_from(files: Files, settings_name: str, root: Path) -> CourseSources:
    """The course whose mkdocs.yml stands at the top of `files`. root: where that is, as findings are to name it."""
    settings = read_settings(files, settings_name, settings_name)
    docs = str(settings.values.get("docs_dir") or "docs")
    problem = _docs_problem(docs, files, settings)
    tree = files.walk(docs) if problem is None else Tree((), ())
    order = order_of(tree.files, settings.values)
    read = [_page(files, docs, file) for file in order.pages]
    _, options = own_options(settings.values)
    return CourseSources(
        root=root,
        docs=root / docs,
        pages=tuple(page for pages, _ in read for page in pages),
        options=options or {},
        option_places=option_places(settings),
        files=frozenset(tree.files),
        findings=(
            *settings.findings,
            *((problem,) if problem and settings.usable else ()),
            *(_not_turned_on(settings_name) if options is None and settings.usable else ()),
            *link_findings(tree.refused),
            *unfollowed_findings(tree.unfollowed),
            *(lost_findings(order, order.pages, settings.said.__getitem__) if problem is None else ()),
            *(finding for _, findings in read for finding in findings),
        ),
        settings_name=settings_name,
        settings_text=_text_of(files, settings_name),
        readable=settings.usable and problem is None,
        no_text=tuple(
            found.span.file for _, findings in read for found in findings if found == binary(found.span.file)
        ),
        unplaced=order.unplaced,
        nav_place=settings.places.get(("nav",)),
    )


def _page(files: Files, docs: str, file: str) -> tuple[tuple[PageText, ...], tuple[Diagnostic, ...]]:
    if (nameless := no_address(file)) is not None:
        return (), (nameless,)
    try:
        data = files.read(posixpath.join(docs, file), MOST_BYTES)
        if is_binary(data):
            return (), (binary(file),)
        text, findings = decode(file, data)
        return (text,), findings
    except TooLargeError as error:
        return (), (too_large(file, error.size),)
    except OSError as error:
        reason = (error.strerror or "unknown reason").lower()
        span = Span(file, 1, 1, 1, 1)
        message = f"This page can't be opened: {reason}"
        return (), (Diagnostic(span, Severity.ERROR, Code.UNREADABLE_FILE, message, "a file that can be read"),)


def _docs_problem(docs: str, files: Files, settings: SettingsFile) -> Diagnostic | None:
    span = settings.places.get(("docs_dir",), Span("mkdocs.yml", 1, 1, 1, 1))
    if files.leads_out(docs):
        message = f"docs_dir is {docs}, which lies outside the folder of mkdocs.yml, so it is not read"
        return Diagnostic(
            span, Severity.ERROR, Code.LINK_OUT_OF_TREE, message, "a folder beside mkdocs.yml",
            "move the sources there",
        )  # fmt: skip
    if not files.is_folder(docs):
        message = f"The folder of the sources, {docs}, does not exist"
        return Diagnostic(
            span, Severity.ERROR, Code.UNREADABLE_FILE, message, "a folder with the pages of the course",
            f"make the folder {docs}, or set docs_dir to the one that holds the pages",
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


def _text_of(files: Files, path: str) -> str:
    """The text of mkdocs.yml for showing its lines beside findings; nothing where it can't be had."""
    try:
        if files.leads_out(path):
            return ""
        return files.read(path, MOST_BYTES).decode("utf-8-sig", errors="replace")
    except (OSError, TooLargeError):
        return ""
