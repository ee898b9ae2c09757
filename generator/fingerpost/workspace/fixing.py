"""The safe fixes of a course, made in memory round by round until none is left; whoever asked writes the files."""

from __future__ import annotations

import os
from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from pathlib import Path

from fingerpost.diagnostics import Code, Diagnostic
from fingerpost.workspace.checked import check
from fingerpost.workspace.course_folder import CourseSources
from fingerpost.workspace.edits import chosen, edited
from fingerpost.workspace.page_text import PageText, decode

MOST_ROUNDS = 50
SURE_OF_WHAT_IS_TAUGHT = frozenset(
    {
        *(Code.USED_BEFORE_TAUGHT, Code.UNRESOLVED_MENTION, Code.MENTION_DENIED, Code.MISSING_IMAGE),
        *(Code.DEAD_LINK, Code.DEAD_REDIRECT, Code.CUES_OUT_OF_ORDER, Code.START_WITHOUT_FINGERS, Code.NAME_WOULD_HOLD),
        *(Code.HARDER_STEP, Code.NO_WARM_UP, Code.NO_REST, Code.UNUSED_ID, Code.SHAPE_REPEATED, Code.DAMPING_LAPSED),
        *(Code.ACCEPTANCE_WITHOUT_REASON, Code.ACCEPTANCE_UNKNOWN, Code.ACCEPTANCE_REFUSED, Code.ACCEPTANCE_LAPSED),
    }
)
"""What may be found while all that the course teaches and plays is known. Where anything else is found, a block or a
page may be missing or play something else, and a word added to `teaches` could cover that up."""
BYTE_ORDER_MARK = b"\xef\xbb\xbf"


@dataclass(frozen=True)
class Original:
    """A page as it lies on the disk, and its text without byte-order mark, its line ends as they are."""

    path: Path
    data: bytes
    text: str

    def with_text(self, text: str) -> bytes:
        """The bytes of the page with another text."""
        return (BYTE_ORDER_MARK if self.data.startswith(BYTE_ORDER_MARK) else b"") + text.encode("utf-8")


@dataclass(frozen=True)
class Rewritten:
    """A page to be written anew. before: the bytes that must still be there; after: those to put in their place."""

    path: Path
    before: bytes
    after: bytes


@dataclass(frozen=True)
class Fixed:
    """A course after its safe fixes: made, in the order in which they were made, and the pages that they change.

    untouched: why a page with safe fixes was left as it is, by its name.
    """

    sources: CourseSources
    made: tuple[Diagnostic, ...]
    pages: tuple[Rewritten, ...]
    untouched: Mapping[str, str] = field(default_factory=dict)


def fix(sources: CourseSources) -> Fixed:
    """Makes every safe fix of a course on the disk. Writes nothing."""
    return _Fixing(sources).run()


@dataclass
class _Fixing:
    """originals: the pages with safe fixes; texts: what has become of them."""

    sources: CourseSources
    originals: dict[str, Original] = field(default_factory=dict)
    texts: dict[str, str] = field(default_factory=dict)
    untouched: dict[str, str] = field(default_factory=dict)
    made: list[Diagnostic] = field(default_factory=list)

    def run(self) -> Fixed:
        seen: set[tuple[tuple[str, str], ...]] = set()
        for _ in range(MOST_ROUNDS):
            state = tuple(sorted(self.texts.items()))
            if state in seen or not self.round():
                break
            seen.add(state)
        pages = [
            Rewritten(original.path, original.data, original.with_text(self.texts[file]))
            for file, original in self.originals.items()
            if self.texts[file] != original.text
        ]
        return Fixed(self.sources, tuple(self.made), tuple(pages), self.untouched)

    def round(self) -> bool:
        """One round of edits that do not touch each other; whether there were any.

        What is mended at its own word comes first. A word that is missing elsewhere (in `teaches`) is added when
        nothing that was found could still change what is missing.
        """
        every = check(replace(self.sources, only=None), for_pages=False).findings
        found = [finding for finding in every if self.sources.only in (None, finding.span.file)]
        mendable = [finding for finding in found if finding.edits and self._may_touch(finding)]
        together = chosen(finding for finding in mendable if finding.code is not Code.USED_BEFORE_TAUGHT)
        if not together and all(finding.code in SURE_OF_WHAT_IS_TAUGHT for finding in every):
            together = chosen(mendable)
        for file in {finding.span.file for finding in together}:
            edits = (edit for finding in together if finding.span.file == file for edit in finding.edits)
            self.texts[file] = edited(self.texts[file], edits)
        self.made += together
        self.sources = replace(self.sources, pages=tuple(map(self._page, self.sources.pages)))
        return bool(together)

    def _page(self, page: PageText) -> PageText:
        return replace(page, text=_plain(self.texts[page.file])) if page.file in self.texts else page

    def _may_touch(self, finding: Diagnostic) -> bool:
        """Whether all edits are to the finding's own page, and that can be written."""
        file = finding.span.file
        if any(edit.span.file != file for edit in finding.edits) or file in self.untouched:
            return False
        if file not in self.originals:
            read = _original(self.sources, file)
            if isinstance(read, str):
                self.untouched[file] = read
                return False
            self.originals[file], self.texts[file] = read, read.text
        return True


def _plain(text: str) -> str:
    return text.replace("\r\n", "\n").replace("\r", "\n")


def _original(sources: CourseSources, file: str) -> Original | str:
    """The page on the disk, or why it must be left alone."""
    known = next((page.text for page in sources.pages if page.file == file), None)
    if known is None:
        return "it is no page of the course"
    path = sources.docs / file
    if os.path.realpath(path) != os.path.join(os.path.realpath(sources.docs), *file.split("/")):
        return "it is reached through a link"
    try:
        data = path.read_bytes()
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError:
        return "it is not UTF-8 text"
    except OSError as problem:
        return f"it can't be read: {(problem.strerror or 'unknown reason').lower()}"
    return Original(path, data, text) if decode(file, data)[0].text == known else "it has changed meanwhile"
