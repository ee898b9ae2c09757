"""Where findings stand, as a person names it from where the command runs, and the lines that they point at."""

from __future__ import annotations

import os
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from fingerpost.diagnostics import Diagnostic
from fingerpost.workspace.checked import moved
from fingerpost.workspace.course_folder import CourseSources


@dataclass(frozen=True)
class Places:
    """settings: how findings call mkdocs.yml; docs and root: the folders of the pages and of mkdocs.yml, from here."""

    settings: str | None
    docs: str
    root: str
    lines: Mapping[str, list[str]]

    @classmethod
    def of(cls, sources: CourseSources, absolute: bool = False) -> Places:
        """absolute: the command was given an absolute path, so what lies outside the current folder is named so."""
        docs, root = _from_here(sources.docs, absolute), _from_here(sources.root, absolute)
        lines = {os.path.join(docs, page.file): page.text.split("\n") for page in sources.pages}
        if sources.settings_name:
            lines[os.path.join(root, sources.settings_name)] = sources.settings_text.splitlines()
        return cls(sources.settings_name, docs, root, lines)

    def shown(self, finding: Diagnostic) -> Diagnostic:
        """The finding with its file as it is named from here."""
        return moved(finding, self.root if finding.span.file == self.settings else self.docs)

    def line_of(self, file: str, line: int) -> str | None:
        """A line of a file that is named from here."""
        known = self.lines.get(file, [])
        return known[line - 1] if 0 < line <= len(known) else None


def _from_here(folder: Path, absolute: bool) -> str:
    whole = Path(os.path.abspath(folder))
    path = str(whole) if absolute and not whole.is_relative_to(Path.cwd()) else os.path.relpath(whole)
    return "" if path == "." else Path(path).as_posix()
