"""The headings of a page and the anchors that Python-Markdown's table of contents gives them.

An anchor is the words of the heading in small letters, ASCII only, hyphens for blanks; the second heading with the same
one gets `_1` at its end (Python-Markdown 3.11, `toc`). `{#own-id}` at the end of a heading gives an anchor of one's own
where the extension `attr_list` is on; whether it is, a page does not say, so both are taken for anchors.
"""

from __future__ import annotations

import html
import re
import unicodedata
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from fingerpost.source.mentions import KINDS, Piece, Places
from fingerpost.source.syntax import Token

HASHES = re.compile(r"#{1,6}(?=[ \t]|$)")
OWN_ID = re.compile(r"\{:?[^{}]*?#(?P<id>[\w:.-]+)[^{}]*\}\s*$")
MENTION = re.compile(rf"`\s*(?:{'|'.join(KINDS)}):\s+([^`]+)`")
CODE = re.compile(r"(?<![`\\])(`+)(?!`)(.+?)(?<!`)\1(?!`)", re.DOTALL)
KEPT = "\1"
UNSEEN = (
    (re.compile(r"<!--.*?-->|</?[A-Za-z][^<>]*>", re.DOTALL), ""),
    (re.compile(r"(?<!\\)!\[[^\[\]]*\](?:\([^()]*\)|\[[^\[\]]*\])"), ""),
    (re.compile(r"(?<!\\)\[([^\[\]]*)\](?:\([^()]*\)|\[[^\[\]]*\])"), r"\1"),
    (re.compile(r"(?<![\w\\])_{1,2}(?=\S)(.+?)(?<=\S)_{1,2}(?!\w)"), r"\1"),
)
"""Marks of a heading that are not among its words: tags, images, the targets of links, underscores for emphasis."""
COUNTED = re.compile(r"(.*)_([0-9]+)$")
IN_HTML = re.compile(r"<[A-Za-z][^<>]*?\s(?:id|name)\s*=\s*[\"']?(?P<id>[^\s\"'<>]+)")
LONGEST = 1000


@dataclass(frozen=True, slots=True)
class Heading:
    """A heading: its words, or the id that its author gives it, with their place; anchors: what links may say."""

    level: int
    words: Token
    anchors: tuple[str, ...]


def headings_in(file: str, headings: Iterable[tuple[int, Sequence[Piece]]]) -> tuple[Heading, ...]:
    """The headings out of their levels and their lines, in order: anchors that are alike are told apart by it."""
    used: set[str] = set()
    return tuple(_heading(level, "\n".join(p.text for p in of), Places(file, of), used) for level, of in headings)


def _heading(level: int, text: str, places: Places, used: set[str]) -> Heading:
    start, end = _words(text)
    own = OWN_ID.search(text, start, end)
    whole = _unique(slug(text[start:end]), used)
    if own is None:
        return Heading(level, places.token(text, start, end), (whole,))
    short = _unique(slug(text[start : own.start()]), used)
    return Heading(level, places.token(text, own.start("id"), own.end("id")), (own["id"], short, whole))


def _words(text: str) -> tuple[int, int]:
    """Where the words of a heading begin and end, without the marks before and after them."""
    inner = text.rstrip()
    if hashes := HASHES.match(inner):
        bare = inner.rstrip("#")
        inner = bare.rstrip() if bare.endswith((" ", "\t")) else inner
        rest = inner[hashes.end() :]
        return min(len(inner), hashes.end() + len(rest) - len(rest.lstrip())), max(len(inner), hashes.end())
    return len(inner) - len(inner.lstrip()), len(inner)


def slug(words: str) -> str:
    """The anchor of a heading with these words, as Markdown writes them."""
    words = CODE.sub(_literal, MENTION.sub(r"\1", words[:LONGEST]))
    for mark, shown in UNSEEN:
        words = mark.sub(shown, words)
    plain = unicodedata.normalize("NFKD", html.unescape(words)).encode("ascii", "ignore").decode("ascii")
    plain = plain.replace(KEPT, "_")
    return re.sub(r"[-\s]+", "-", re.sub(r"[^\w\s-]", "", plain).strip().lower())


def _literal(found: re.Match[str]) -> str:
    """What a code span says, with no mark in it that means anything: those that an anchor lacks anyway are left out."""
    return re.sub(r"[^\w\s-]", "", found[2]).replace("_", KEPT)


def _unique(wanted: str, used: set[str]) -> str:
    """The anchor as the table of contents gives it out: the first of `wanted`, `wanted_1` ... that is free."""
    ident = wanted
    while ident in used or not ident:
        counted = COUNTED.match(ident)
        ident = f"{counted[1]}_{int(counted[2]) + 1}" if counted else f"{ident}_1"
    used.add(ident)
    return ident


def ids_in_html(text: str) -> Iterator[str]:
    """The ids in the HTML of a page, wherever it stands."""
    if "<" in text:
        yield from (found["id"] for found in IN_HTML.finditer(text))
