"""The texts that are open in the editor, with what was typed into them and not saved.

Kept here rather than by pygls, which takes U+2028 and other separators for line ends, so that after one of them every
edit would land elsewhere than the author made it.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field
from pathlib import Path
from urllib.parse import unquote, urlsplit

from lsprotocol import types

from fingerpost.editor.positions import UTF_16, Lines, whole


@dataclass(frozen=True)
class OpenText:
    """One open text: its address as the editor writes it, where it lies (None: on no disk), and its version."""

    uri: str
    path: Path | None
    version: int | None
    lines: Lines


@dataclass
class OpenTexts:
    """All open texts by address; encoding is what the editor counts in."""

    encoding: str = UTF_16
    by_uri: dict[str, OpenText] = field(default_factory=dict)

    def put(self, uri: str, text: str, version: int | None) -> OpenText:
        """Takes in a text as it is now."""
        self.by_uri[uri] = OpenText(uri, path_of(uri), version, Lines(whole(text), self.encoding))
        return self.by_uri[uri]

    def change(
        self, uri: str, changes: Iterable[types.TextDocumentContentChangeEvent], version: int | None
    ) -> OpenText | None:
        """Makes the changes one after the other; None where the text is not open."""
        if uri not in self.by_uri:
            return None
        lines = self.by_uri[uri].lines
        for change in changes:
            lines = Lines(changed(lines, change), self.encoding)
        return self.put(uri, lines.text, version)

    def close(self, uri: str) -> None:
        """Lets go of a text."""
        self.by_uri.pop(uri, None)

    def at(self, path: Path) -> OpenText | None:
        """The open text of a file."""
        return next((text for text in self.by_uri.values() if text.path == path), None)

    def on_disk(self) -> dict[Path, str]:
        """The open texts that belong to files, by file."""
        return {text.path: text.lines.text for text in self.by_uri.values() if text.path is not None}


def changed(lines: Lines, change: types.TextDocumentContentChangeEvent) -> str:
    """The text after one change; a change without a range is the whole text."""
    if not isinstance(change, types.TextDocumentContentChangePartial):
        return whole(change.text)
    start = lines.offset(change.range.start.line, change.range.start.character)
    end = max(start, lines.offset(change.range.end.line, change.range.end.character))
    return lines.text[:start] + whole(change.text) + lines.text[end:]


def path_of(uri: str) -> Path | None:
    """The file that an address names, None where it names none (a text that was never saved, say)."""
    try:
        parts = urlsplit(uri)
        path = unquote(parts.path, errors="surrogateescape")
    except ValueError:
        return None
    if parts.scheme != "file" or not path.startswith("/") or "\0" in path:
        return None
    drive = len(path) > 2 and path[2] == ":" and path[1].isalpha()
    return Path(path[1:] if drive else path)


def uri_of(path: Path) -> str:
    """The address of a file."""
    return path.absolute().as_uri()
