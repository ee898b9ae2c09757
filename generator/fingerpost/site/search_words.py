"""What the search index and the table of contents are given: a page's words without pictures, each step a place."""

from __future__ import annotations

import re
from collections.abc import Container, Iterable, Iterator, Mapping

from mkdocs.structure.toc import AnchorLink, TableOfContents

_SILENT = re.compile(
    r'<svg\b.*?</svg>|<table class="fp-strings".*?</table>|<div class="fp-for-practice".*?</div>'
    r'|<section class="fp-map".*?</section>',
    re.DOTALL,
)
_BLOCK = re.compile(
    r'<section class="fp-(block|index-entry)[^"]*" id="([^"]*)"[^>]*>(?:<h\d class="fp-(?:title|arm)">(.*?)</h\d>)?',
    re.DOTALL,
)
_STEP = re.compile(r'<li class="fp-step" id="([^"]*)"[^>]*><h\d class="fp-arm">(.*?)</h\d>', re.DOTALL)
_NAME = re.compile(r'<span class="fp-chord[^"]*"[^>]*>(.*?)</span>', re.DOTALL)
_BARE_HEADING = re.compile(r"<(h[1-6])(?: class=\"fp-[^\"]*\")?>(.*?)</\1>", re.DOTALL)
_PLACE = re.compile(r'<h([1-6])(?: data-fp="([^"]*)")?[^>]* id="([^"]*)"[^>]*>(.*?)</h\1>', re.DOTALL)
_OUR_ID = re.compile(r'<(?:section|li) class="fp-[^"]*" id="([^"]*)"')
_TAG = re.compile(r"<[^>]*>")
_NAME_IN_TEXT = re.compile(r'<span data-name="[^"]*">([^<]*)</span>')
BLOCKS, STEPS = ("block",), ("block", "index-entry", "step")


def our_ids(content: str) -> set[str]:
    """The ids of blocks, steps and entries, which links may lead to."""
    return set(_OUR_ID.findall(content))


def without_pictures(content: str) -> str:
    """A page's markup without pictures, tables and what is out of sight.

    Blocks and steps begin with headings that carry their ids.
    """
    if 'class="fp-' not in content:
        return content
    text = _SILENT.sub("", content)
    text = _BLOCK.sub(lambda found: _heading(2, found[1], found[2], found[3] or ""), text)
    text = _STEP.sub(lambda found: _heading(3, "step", found[1], found[2]), text)
    # A heading without an id would swallow the words after it: the index has no place to put them.
    text = _BARE_HEADING.sub(lambda found: f"<p>{found[2]}</p>", text)
    # The index parts words where elements end, and would so part a note from the comma after it.
    return _NAME_IN_TEXT.sub(r"\1", text)


def _heading(level: int, kind: str, ident: str, inner: str) -> str:
    name = _NAME.search(inner)
    return f'<h{level} data-fp="{kind}" id="{ident}">{name[1] if name else inner}</h{level}>'


def contents(words: str, known: TableOfContents, kinds: Container[str]) -> TableOfContents:
    """The table of contents `known` with our own places of these kinds put in where they stand in the page's words."""
    titles = {link.id: link.title for link in _flat(known)}
    found = (place for place in _PLACE.finditer(words) if place[3] in titles or place[2] in kinds)
    return TableOfContents(list(_nested([link for link in (_link(place, titles) for place in found) if link.title])))


def _link(found: re.Match[str], titles: Mapping[str, str]) -> AnchorLink:
    return AnchorLink(titles.get(found[3]) or _TAG.sub("", found[4]).strip(), found[3], int(found[1]))


def _flat(links: Iterable[AnchorLink]) -> Iterator[AnchorLink]:
    for link in links:
        yield link
        yield from _flat(link.children)


def _nested(links: list[AnchorLink]) -> Iterator[AnchorLink]:
    open_links: list[AnchorLink] = []
    for link in links:
        while open_links and open_links[-1].level >= link.level:
            open_links.pop()
        if open_links:
            open_links[-1].children.append(link)
        else:
            yield link
        open_links.append(link)
