"""The list of a built course's files, by which a browser keeps the course: sizes, digests, and what each page needs."""

from __future__ import annotations

import hashlib
import json
import posixpath
import re
from collections.abc import Sequence
from dataclasses import dataclass
from html import unescape
from pathlib import Path
from urllib.parse import unquote, urlsplit

NAME = "files.json"
VERSION = 1
# The browser keeps the worker itself; a sitemap is for search engines; the compressed one differs from build to build.
_LEFT_OUT = re.compile(
    r"(^|/)[._]|^(files\.json|worker\.js|sitemap\.xml)$|^worker/[^/]+\.js$|\.(gz|br|map)$|(^|/)[^./]+$"
)
_LOADED = re.compile(r"<(?:img|source|audio|video|track|link)\b[^>]*?\s(?:src|href|poster)=\"([^\"]*)\"")
_FRAME = (".css", ".js", ".webmanifest")
_TEXT = (".json", ".txt", ".xml", ".svg", ".csv", ".md")
# Every page may lead to these or ask for them later, so they are kept with the first page.
_FRAME_FILES = ("index.html", "404.html", "not-kept.html", "your-progress/index.html", "names.json")


@dataclass(frozen=True, slots=True)
class Listed:
    """A file of the built course: where it lies, its size in bytes, its SHA-256 in hexadecimal digits.

    frame: every page needs it. needs: files that this page loads besides.
    """

    path: str
    size: int
    sha256: str
    frame: bool
    needs: tuple[str, ...] = ()

    def as_json(self) -> dict[str, object]:
        """What the browser is told; what is empty is left out."""
        extra = {"frame": self.frame, "needs": list(self.needs)}
        told = {name: value for name, value in extra.items() if value}
        return {"path": self.path, "size": self.size, "sha256": self.sha256, **told}


def write_file_list(site: Path, pages: Sequence[str]) -> None:
    """Writes the list into a built course. pages: paths of its pages in the order in which they are taught."""
    files = [file.as_json() for file in listed(site, pages)]
    build = hashlib.sha256(_text(files).encode()).hexdigest()
    (site / NAME).write_text(_text({"version": VERSION, "build": build, "files": files}), encoding="utf-8")


def write_serving(site: Path) -> None:
    """Says that this is an author's own view of a course, of which a browser must keep nothing."""
    (site / NAME).write_text(_text({"version": VERSION, "serving": True}), encoding="utf-8")


def listed(site: Path, pages: Sequence[str] = ()) -> tuple[Listed, ...]:
    """The files of a built course that a page may load, in the order in which a browser keeps them: text first."""
    every = (path.relative_to(site).as_posix() for path in site.rglob("*") if path.is_file())
    paths = {path for path in every if not _LEFT_OUT.search(path)}
    # A host shows the 404 page at any address, so what it loads is written for one place of the course and no other.
    needs = {path: _needs(site, path, paths) for path in paths if path.endswith(".html") and path != "404.html"}
    frame = {path for path in paths if _is_frame(path)} | frozenset.intersection(*needs.values() or [frozenset()])
    place = {path: at for at, path in enumerate(pages)}
    ordered = sorted(paths, key=lambda path: (_rank(path, frame), place.get(path, len(place)), path))
    return tuple(_listed(site, path, path in frame, needs.get(path, frozenset()) - frame) for path in ordered)


def _rank(path: str, frame: set[str]) -> int:
    if path in frame:
        return 0
    return 1 if path.endswith(".html") else 2 if path.endswith(_TEXT) else 3


def _is_frame(path: str) -> bool:
    return path.endswith(_FRAME) or path.startswith(("css/", "js/")) or path in _FRAME_FILES


def _listed(site: Path, path: str, frame: bool, needs: frozenset[str]) -> Listed:
    data = (site / path).read_bytes()
    return Listed(path, len(data), hashlib.sha256(data).hexdigest(), frame, tuple(sorted(needs)))


def _needs(site: Path, page: str, paths: set[str]) -> frozenset[str]:
    """What a page loads of the course itself, styles and scripts left out."""
    html = (site / page).read_bytes().decode("utf-8", "replace")
    loaded = (unescape(address) for address in _LOADED.findall(html))
    there = (posixpath.normpath(posixpath.join(posixpath.dirname(page), unquote(urlsplit(at).path))) for at in loaded)
    return frozenset(path for path in there if path in paths and not _is_frame(path))


def _text(value: object) -> str:
    return json.dumps(value, ensure_ascii=False, separators=(",", ":"), sort_keys=True)
