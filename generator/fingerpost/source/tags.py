"""What HTML in a page loads or leads to: scripts, pictures, sounds, frames and links, each with its place."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from fingerpost.source.links import masked
from fingerpost.source.mentions import Piece, Places
from fingerpost.source.syntax import Token

TAG = re.compile(
    r"<(?P<name>script|img|iframe|embed|object|video|audio|source|track|a)(?=[\s/>])(?P<rest>[^<>]*)>", re.IGNORECASE
)
TARGET = re.compile(r"(?<![\w-])(?:src|href|data)\s*=\s*(?:\"(?P<two>[^\"]*)\"|'(?P<one>[^']*)'|(?P<bare>[^\s\"'<>]+))")
TYPE = re.compile(r"(?<![\w-])type\s*=\s*[\"']?(?P<type>[^\s\"'<>]*)", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Tag:
    """A tag by its name in small letters, with its mark; target: what it loads or leads to, None for nothing.

    inert: a script of a type that no browser runs.
    """

    name: str
    mark: Token
    target: Token | None
    inert: bool = False


def tags_in(file: str, stretches: Iterable[Sequence[Piece]]) -> Iterator[Tag]:
    """The tags of a page's paragraphs and stretches of HTML, those in code and comments left out."""
    for pieces in stretches:
        text = "\n".join(piece.text for piece in pieces)
        if "<" in text:
            yield from _tags(text, Places(file, pieces))


def _tags(text: str, places: Places) -> Iterator[Tag]:
    for found in TAG.finditer(masked(text)):
        start, end = found.span("rest")
        target = TARGET.search(text, start, end)
        kind = TYPE.search(text, start, end)
        inert = kind is not None and "javascript" not in kind["type"].lower() and kind["type"].lower() != "module"
        mark = places.token(text, found.start(), found.end("name"))
        yield Tag(found["name"].lower(), mark, _value(text, target, places), inert)


def _value(text: str, found: re.Match[str] | None, places: Places) -> Token | None:
    if found is None or found.lastgroup is None or not found[found.lastgroup]:
        return None
    return places.token(text, *found.span(found.lastgroup))
