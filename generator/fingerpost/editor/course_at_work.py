"""A course while it is written: its sources, the open texts over them, and the last check, kept between keystrokes."""

from __future__ import annotations

import os
from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from pathlib import Path

from fingerpost.course.memory import Memory
from fingerpost.editor.overlaid_files import OverlaidFiles
from fingerpost.editor.positions import Lines
from fingerpost.source.block import read_block
from fingerpost.source.grammar import Reading
from fingerpost.source.page import PageRead, read_page
from fingerpost.source.syntax import BlockSyntax, Fence
from fingerpost.workspace.checked import Checked, check
from fingerpost.workspace.course_folder import SETTINGS_NAMES, CourseSources, course_from
from fingerpost.workspace.files import DiskFiles
from fingerpost.workspace.nav import is_page
from fingerpost.workspace.page_text import PageText


@dataclass(frozen=True)
class PageKept:
    """A page as it was read last, with its text and its blocks, so that only what has changed is read anew."""

    text: str
    read: PageRead
    blocks: Mapping[Fence, Reading[BlockSyntax]]

    @classmethod
    def reading(cls, file: str, text: str, before: Mapping[Fence, Reading[BlockSyntax]]) -> PageKept:
        """Reads a page; before: its blocks as they were read last."""
        blocks: dict[Fence, Reading[BlockSyntax]] = {}

        def block(file: str, fence: Fence) -> Reading[BlockSyntax]:
            blocks[fence] = before.get(fence) or read_block(file, fence)
            return blocks[fence]

        return cls(text, read_page(file, text, block), blocks)


@dataclass
class CourseAtWork:
    """A course with its pages. root is its folder; settings is the name of mkdocs.yml there, None for a lone page.

    reads keeps each page as it was read last; memory what the last build made of its blocks.
    """

    root: Path
    settings: str | None
    sources: CourseSources
    memory: Memory = field(default_factory=lambda: Memory(lines=Memory()))
    reads: dict[str, PageKept] = field(default_factory=dict)
    last: Checked | None = None

    @classmethod
    def of_folder(cls, settings: Path, texts: Mapping[Path, str]) -> CourseAtWork:
        """The course of a mkdocs.yml, its open texts instead of the saved ones."""
        root = settings.parent
        return cls(root, settings.name, _read(root, settings.name, texts))

    @classmethod
    def of_page(cls, path: Path, text: str) -> CourseAtWork:
        """A page that belongs to no course, by itself."""
        page = PageText(path.name, Lines(text).plain)
        return cls(path.parent, None, CourseSources(path.parent, path.parent, (page,), only=path.name))

    def reload(self, texts: Mapping[Path, str]) -> None:
        """Reads the folder anew."""
        self.last = None
        if self.settings is not None:
            self.sources = _read(self.root, self.settings, texts)

    def write(self, file: str, text: str) -> None:
        """What was typed into a page, without reading anything else anew."""
        pages = (PageText(file, Lines(text).plain) if page.file == file else page for page in self.sources.pages)
        # What was wrong with the bytes on the disk is not wrong with what the editor holds.
        findings = tuple(finding for finding in self.sources.findings if finding.span.file != file)
        self.sources = replace(self.sources, pages=tuple(pages), findings=findings)
        self.last = None

    def checked(self) -> Checked:
        """The model and all findings, as of now."""
        if self.last is None:
            self.last = check(self.sources, False, self.memory, self._page)
        return self.last

    def file_of(self, path: Path) -> str | None:
        """How findings name a file: a page by its path from the sources' folder, or mkdocs.yml; None for others."""
        if self.settings is not None and path == self.root / self.settings:
            return self.settings
        file = inside(path, self.sources.docs)
        return file if any(page.file == file for page in self.sources.pages) else None

    def path_of(self, file: str) -> Path:
        """Where a file lies that a finding names."""
        if file == self.settings:
            return self.root / file
        return self.sources.docs / file

    def _page(self, file: str, text: str) -> PageRead:
        known = self.reads.get(file)
        if known is None or known.text != text:
            known = self.reads[file] = PageKept.reading(file, text, {} if known is None else known.blocks)
        return known.read


def _read(root: Path, settings: str, texts: Mapping[Path, str]) -> CourseSources:
    inner = {file: text for path, text in texts.items() if (file := inside(path, root)) is not None}
    return course_from(OverlaidFiles(DiskFiles(root), inner), settings, root)


def inside(path: Path, folder: Path) -> str | None:
    """The way from a folder to a file in it, with `/`."""
    whole, above = Path(os.path.abspath(path)), Path(os.path.abspath(folder))
    if not whole.is_relative_to(above):
        whole, above = Path(os.path.realpath(path)), Path(os.path.realpath(folder))
    return whole.relative_to(above).as_posix() if whole.is_relative_to(above) else None


def settings_above(path: Path) -> Path | None:
    """The nearest mkdocs.yml in a folder above a file."""
    for folder in Path(os.path.abspath(path)).parents:
        if (found := settings_in(folder)) is not None:
            return found
    return None


def settings_in(folder: Path) -> Path | None:
    """The mkdocs.yml of a folder."""
    try:
        return next((folder / name for name in SETTINGS_NAMES if (folder / name).is_file()), None)
    except OSError:
        return None


def is_ours(path: Path) -> bool:
    """Whether a file is a page or the settings of a course, by its name."""
    return is_page(path.name) or path.name in SETTINGS_NAMES
