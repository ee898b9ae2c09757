"""One page: its blocks and mentions in order, with everything that is wrong with its text."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace

from fingerpost.diagnostics import Diagnostic
from fingerpost.source.acceptances import Acceptance, in_block
from fingerpost.source.block import read_block
from fingerpost.source.fences import lines_of, scan
from fingerpost.source.front_matter import front_matter
from fingerpost.source.grammar import Reading
from fingerpost.source.headings import Heading, ids_in_html
from fingerpost.source.links import Link
from fingerpost.source.syntax import BlockSyntax, Fence, Mention, PageSyntax
from fingerpost.source.tags import Tag

BYTE_ORDER_MARK = "\ufeff"


@dataclass(frozen=True, slots=True)
class PageRead:
    """A page taken apart. fences and syntax.blocks go together, one by one; findings and acceptances by place.

    tags: those of the HTML that load something or lead somewhere. ids: those in the page's HTML.
    """

    syntax: PageSyntax
    fences: tuple[Fence, ...]
    findings: tuple[Diagnostic, ...]
    acceptances: tuple[Acceptance, ...] = ()
    links: tuple[Link, ...] = ()
    headings: tuple[Heading, ...] = ()
    ids: frozenset[str] = frozenset()
    tags: tuple[Tag, ...] = ()


BlockReader = Callable[[str, Fence], Reading[BlockSyntax]]


def read_page(file: str, text: str, block: BlockReader = read_block) -> PageRead:
    """Reads the text of a whole file, front matter and byte-order mark included. Never raises.

    block: how a block is read, for one who keeps those that have not changed.
    """
    text = "\n".join(lines_of(text.removeprefix(BYTE_ORDER_MARK)))
    data = front_matter(file, text)
    body = "\n".join(text.split("\n")[data.lines :]) if data.lines else text
    read = read_body(file, body, data.lines + 1, block)
    syntax = replace(read.syntax, title=data.title or read.syntax.title)
    return replace(read, syntax=syntax, findings=tuple(sorted((*data.findings, *read.findings))))


def read_body(file: str, body: str, first_line: int = 1, block: BlockReader = read_block) -> PageRead:
    """Reads a text without front matter that begins on line `first_line` of the file, such as MkDocs hands over."""
    found = scan(file, body, first_line)
    blocks = tuple(block(file, fence) for fence in found.fences)
    parts: list[BlockSyntax | Mention] = [read.value for read in blocks if read.value]
    parts.extend(found.mentions)
    findings = (*found.findings, *(finding for read in blocks for finding in read.findings))
    syntax = PageSyntax(file, found.title, tuple(sorted(parts, key=lambda part: part.span)))
    accepted = (*found.acceptances, *(accepted for fence in found.fences for accepted in in_block(fence)))
    by_place = tuple(sorted(accepted, key=lambda one: one.span))
    return PageRead(
        syntax,
        found.fences,
        tuple(sorted(findings)),
        by_place,
        found.links,
        found.headings,
        frozenset(ids_in_html(body)),
        found.tags,
    )
