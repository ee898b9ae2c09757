"""Links and images in the prose of a page, as Python-Markdown reads them, each with the exact place of its target.

    [words](target "title")   ![words](target)     in a line
    [words][name]  [name][]   [name]: target       by a name that is defined elsewhere on the page

Code spans and comments hold none. Where a name is used in its full form and never defined, that is told too, since the
brackets are then shown as they are.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from fingerpost.source.mentions import Piece, Places, code_spans
from fingerpost.source.syntax import Token

DEFINITION = re.compile(
    r"^[ ]{0,3}\[(?P<name>[^\[\]^][^\[\]]*)\]:[ ]*(?:\n[ ]*)?(?P<target>[^\s]+)[ ]*"
    r"(?:\n[ ]*)?(?:([\"'])(?:.*)\3[ ]*|\((?:.*)\)[ ]*)?$",
    re.MULTILINE,
)
"""Python-Markdown 3.11, `ReferenceProcessor`; a name that begins with `^` is a footnote's."""

ESCAPE = re.compile(r"\\.", re.DOTALL)
HIDDEN = re.compile(r"\\.|<!--.*?-->", re.DOTALL)
TITLE = re.compile(r"\s+(?:\"[^\"]*\"|'[^']*')\s*$", re.DOTALL)
NAMED = re.compile(r"\s?\[(?P<name>[^\[\]]*)\]")
BRACKETS, ROUND = ("[", "]"), ("(", ")")
LONGEST = 2000
"""A longer target is not looked at: no address is so long. By our own choice."""


@dataclass(frozen=True, slots=True)
class Link:
    """A link or an image. target: what it leads to, as written; defined: False for a name that the page never defines,
    which is then the target."""

    target: Token
    image: bool = False
    defined: bool = True


def links_in(file: str, paragraphs: Iterable[Sequence[Piece]]) -> tuple[Link, ...]:
    """All links of a page in the order of their targets."""
    texts = [(_text(pieces), Places(file, pieces)) for pieces in paragraphs if any("[" in p.text for p in pieces)]
    all_masked = [(masked(text), text, places) for text, places in texts]
    names, links = set[str](), list[Link]()
    for mask, text, places in all_masked:
        for found in DEFINITION.finditer(mask):
            names.add(_name(text[found.start("name") : found.end("name")]))
            links.append(Link(places.token(text, *_without_angles(mask, *found.span("target")))))
    for mask, text, places in all_masked:
        links.extend(_inline(mask, text, places, names))
    return tuple(sorted(links, key=lambda link: link.target.span))


def _text(pieces: Sequence[Piece]) -> str:
    return "\n".join(piece.text for piece in pieces)


def _name(text: str) -> str:
    return " ".join(text.split()).lower()


def masked(text: str) -> str:
    """The text with code, escapes and comments blotted out, every character at its place."""
    kept, at = [], 0
    for start, end, _, _ in code_spans(text) if "`" in text else ():
        kept += [text[at:start], _blot(text[start:end])]
        at = end
    text = "".join((*kept, text[at:]))
    comments = text.rfind("-->") + len("-->") if "-->" in text else 0
    hidden, rest = HIDDEN.sub(_blotted, text[:comments]), ESCAPE.sub(_blotted, text[comments:])
    return hidden + rest


def _blotted(found: re.Match[str]) -> str:
    return _blot(found.group())


def _blot(text: str) -> str:
    return re.sub(r"[^\n]", "\0", text)


def _inline(mask: str, text: str, places: Places, names: set[str]) -> Iterator[Link]:
    closing, round_closing = _pairs(mask, BRACKETS), _pairs(mask, ROUND)
    names_end = -1
    for start, end in closing.items():
        if start < names_end:
            continue
        image = start > 0 and mask[start - 1] == "!"
        if mask[end + 1 : end + 2] == "(":
            last = round_closing.get(end + 1)
            if last is not None and last - end < LONGEST:
                yield Link(places.token(text, *_target(mask, end + 2, last)), image)
        elif (named := NAMED.match(mask, end + 1)) and named["name"] and "\0" not in named["name"]:
            names_end = named.end()
            written = text[named.start("name") : named.end("name")]
            if _name(written) not in names and not written.startswith("^") and not mask.startswith(":", named.end()):
                yield Link(places.token(text, named.start("name"), named.end("name")), image, False)


def _pairs(text: str, marks: tuple[str, str]) -> dict[int, int]:
    """Which mark closes which, in one pass, by the places of those that open."""
    opened: list[int] = []
    pairs: dict[int, int] = {}
    for at in (found.start() for found in re.finditer("|".join(map(re.escape, marks)), text)):
        if text[at] == marks[0]:
            opened.append(at)
        elif opened:
            pairs[opened.pop()] = at
    return dict(sorted(pairs.items()))


def _target(mask: str, start: int, end: int) -> tuple[int, int]:
    """Where the target stands between its round brackets, without title, blanks and angle brackets."""
    title = TITLE.search(mask, start, end)
    end = title.start() if title else end
    inner = mask[start:end]
    start += len(inner) - len(inner.lstrip())
    end -= len(inner) - len(inner.rstrip())
    return _without_angles(mask, start, max(start, end))


def _without_angles(mask: str, start: int, end: int) -> tuple[int, int]:
    angles = end - start > 1 and mask[start] == "<" and mask[end - 1] == ">"
    return (start + 1, end - 1) if angles else (start, end)
