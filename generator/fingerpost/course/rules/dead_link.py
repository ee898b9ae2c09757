"""A link that leads nowhere.

A renamed page, a heading with other words, a block with another id: the link still looks like one, and a student who
taps it loses the thread. Links to pages, files and anchors of the course are followed, those by name and images too;
addresses of other sites are not, since the check asks no network.

    [the gate](the-gaet.md)      [once more](the-gate.md#fourth)      [see][gate]

Write the path of the page's source from the page in which the link stands, and an anchor that it has: that of a
heading, or the id of a block or of a step. A link that begins to practise names one step, or the two of a change:
`the-gate.md#practise=one,other`.
"""

from __future__ import annotations

import difflib
import posixpath
import re
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from urllib.parse import unquote

from fingerpost.course.option_values import PAGE_SUFFIXES, nearest
from fingerpost.course.rules.explanation import Explanation
from fingerpost.course.slip import error, warning
from fingerpost.course.words import quoted
from fingerpost.diagnostics import Code, Diagnostic, Edit
from fingerpost.source.links import Link
from fingerpost.source.page import PageRead

ELSEWHERE = re.compile(r"[A-Za-z][A-Za-z0-9+.-]*:|/")
"""Another site, another scheme, or an address from the root of the site, which depends on where it is published."""

LEAST_ALIKE = 0.5
"""Names without endings that share less than this are not taken for each other. By our own choice."""

TOP = ("", "top")
PRACTISE = "practise="
"""How an anchor begins that opens a lesson's practice view; then one step's id, or two with a comma between them."""
MOST_PRACTISED = 2


@dataclass(frozen=True)
class Targets:
    """What links may lead to. files: all pages and files, as paths from the folder of the sources, those included that
    the build makes; anchors: those of a page, None for a file that is no page; steps: the ids of a page's steps, which
    can be practised; redirects: old page to new.

    all_known: False for a page that is checked by itself, of which only its own anchors are known.
    """

    files: frozenset[str]
    anchors: Callable[[str], frozenset[str] | None]
    steps: Callable[[str], frozenset[str]]
    redirects: Mapping[str, str] = field(default_factory=dict)
    all_known: bool = True


def dead_links(page: PageRead, targets: Targets) -> Iterator[Diagnostic]:
    """A finding at the target of each link of the page that leads nowhere."""
    for link in page.links:
        if not link.defined:
            yield _undefined(link, page)
        elif not ELSEWHERE.match(link.target.text):
            yield from _dead(link, page.syntax.file, targets)
        elif _is_page_from_root(link.target.text) and targets.all_known:
            yield _from_root(link, page.syntax.file, targets)
    for tag in page.tags:
        if tag.name == "a" and tag.target is not None and targets.all_known:
            yield from _in_html(Link(tag.target), page.syntax.file, targets)


def _is_page_from_root(written: str) -> bool:
    return written.startswith("/") and not written.startswith("//") and parted(written)[0].endswith(PAGE_SUFFIXES)


def _from_root(link: Link, file: str, targets: Targets) -> Diagnostic:
    """The site knows no page by such an address: only one that is written from the page is led to its page."""
    path, anchor = parted(link.target.text)
    near = nearest_file(posixpath.normpath(path).lstrip("/"), targets.files)
    message = f"{quoted(link.target.text)} begins at the root, so the site leaves it as it is, and nothing is there"
    expected = "a file of the course, its path written from this page"
    fix = f"{from_page(near, file)}{'#' * bool(anchor)}{anchor}" if near else ""
    return error(link.target.span, Code.DEAD_LINK, message, expected, fix)


def _in_html(link: Link, file: str, targets: Targets) -> Iterator[Diagnostic]:
    """A link in HTML to a source that is not there; others are addresses, of which the sources say little."""
    path, _ = parted(link.target.text)
    there = posixpath.normpath(posixpath.join(posixpath.dirname(file), path))
    if _is_page_from_root(link.target.text):
        yield _from_root(link, file, targets)
    elif path.endswith(PAGE_SUFFIXES) and not ELSEWHERE.match(path) and there not in targets.files:
        yield _no_file(link, there, file, targets)


def parted(written: str) -> tuple[str, str]:
    """The path and the anchor of a link, decoded."""
    path, _, anchor = written.partition("#")
    return unquote(path.partition("?")[0]), unquote(anchor)


def _dead(link: Link, file: str, targets: Targets) -> Iterator[Diagnostic]:
    path, anchor = parted(link.target.text)
    there = posixpath.normpath(posixpath.join(posixpath.dirname(file), path)) if path else file
    if there not in targets.files:
        if targets.all_known and not _is_address(path, file, targets.files):
            yield _no_file(link, there, file, targets)
        return
    anchors = targets.anchors(there)
    if anchors is None or anchor in TOP:
        return
    if asked := to_practise(link.target.text):
        yield from _not_practised(link, asked, targets.steps(there), there, file)
    elif anchor not in anchors:
        yield _no_anchor(link, path, anchor, anchors, there, file)


def to_practise(written: str) -> list[str]:
    """The ids that a link asks to practise, as they are written; none where it does not ask."""
    anchor = written.partition("#")[2]
    return anchor[len(PRACTISE) :].split(",") if anchor.startswith(PRACTISE) else []


def _not_practised(link: Link, asked: list[str], steps: frozenset[str], there: str, file: str) -> Iterator[Diagnostic]:
    """A finding at each id that is no step of the page; or one at those that are too many."""
    whose = "this page" if there == file else quoted(there)
    at = link.target.text.index("#") + 1 + len(PRACTISE)
    for number, written in enumerate(asked):
        ident = unquote(written)
        if number == MOST_PRACTISED:
            message = f"A link to practise names a step, or the two of a change; this one names {len(asked)}"
            yield error(link.target.piece(at, len(link.target.text) - at), Code.DEAD_LINK, message, "two ids at most")
            return
        if ident not in steps:
            message = f"There is no step {quoted(ident)} on {whose} to practise"
            near = nearest(ident, sorted(steps))
            yield error(link.target.piece(at, len(written)), Code.DEAD_LINK, message, "the id of a step", near)
        at += len(written) + 1


def _is_address(path: str, file: str, files: frozenset[str]) -> bool:
    """Whether a path without a file's name is the address of a page, as pages stand in folders of their own."""
    if posixpath.splitext(path)[1] and not path.endswith("/"):
        return False
    stem = posixpath.splitext(file)[0]
    home = posixpath.dirname(file) if posixpath.basename(stem) in ("index", "README") else stem
    ways = (posixpath.normpath(posixpath.join(base, path)) for base in (home, posixpath.dirname(file)))
    return any(name in files for way in ways for name in (f"{way}.md", posixpath.normpath(f"{way}/index.md")))


def _no_file(link: Link, there: str, file: str, targets: Targets) -> Diagnostic:
    what = "image" if link.image else "page or file"
    message = f"There is no {what} {quoted(there)}"
    if there.startswith(".."):
        message = f"{quoted(link.target.text)} leads out of the course"
    expected = "a file of the course, its path written from this page"
    _, hash_mark, anchor = link.target.text.partition("#")
    if there in targets.redirects:
        new = targets.redirects[there]
        fix = from_page(new if "#" in new else f"{new}{hash_mark}{anchor}", file)
        edits = () if anchor else (Edit(link.target.span, fix),)
        message = f"The page {quoted(there)} has moved, as `redirects` says"
        return error(link.target.span, Code.DEAD_LINK, message, expected, fix, edits)
    near = nearest_file(there, targets.files)
    fix = f"{from_page(near, file)}{hash_mark}{anchor}" if near else ""
    return error(link.target.span, Code.DEAD_LINK, message, expected, fix)


def _no_anchor(link: Link, path: str, anchor: str, anchors: frozenset[str], there: str, file: str) -> Diagnostic:
    whose = "this page" if there == file else quoted(there)
    near = nearest(anchor, sorted(anchors))
    message = f"There is no {quoted('#' + anchor)} on {whose}"
    span = link.target.piece(len(link.target.text.partition("#")[0]), len(link.target.text.partition("#")[2]) + 1)
    expected = "the anchor of a heading, or the id of a block or a step"
    return error(span, Code.DEAD_LINK, message, expected, f"#{near}" if near else "")


def _undefined(link: Link, page: PageRead) -> Diagnostic:
    message = f"No target is given for {quoted(link.target.text)}, so the brackets are shown as they are"
    expected = f"a line `[{link.target.text}]: page.md` on this page"
    return warning(link.target.span, Code.DEAD_LINK, message, expected)


def nearest_file(path: str, files: Iterable[str]) -> str:
    """The file that is most likely meant: the only one of that name elsewhere, else the one spelled most alike."""
    files = sorted(files)
    same = [file for file in files if posixpath.basename(file) == posixpath.basename(path)]
    if len(same) == 1:
        return same[0]
    near = difflib.get_close_matches(path[:200], files, 3, 0.6)
    return next((file for file in near if _alike(path[:200], file)), "")


def _alike(one: str, other: str) -> bool:
    """Whether two names are alike without their endings, which all pages share."""
    stems = (posixpath.splitext(one)[0], posixpath.splitext(other)[0])
    return difflib.SequenceMatcher(None, *stems).ratio() >= LEAST_ALIKE


def from_page(there: str, file: str) -> str:
    """A path from the sources' folder, perhaps with an anchor, as a page writes it."""
    path, mark, anchor = there.partition("#")
    return f"{posixpath.relpath(path, posixpath.dirname(file) or '.')}{mark}{anchor}"


REASONS = {
    Code.DEAD_LINK: Explanation(
        "A link that leads nowhere",
        "A student taps it and stands before a page that says that there is none, or at the top of a long one.",
        "[the gate](the-gate.md#fourth-step)",
        "[the gate](the-gate.md#the-third-gate)",
    ),
}
