"""One page: its blocks and mentions in order, with everything that is wrong with its text."""

from __future__ import annotations

import re
from dataclasses import dataclass

from fingerpost.diagnostics import Diagnostic
from fingerpost.source.block import read_block
from fingerpost.source.fences import lines_of, scan
from fingerpost.source.front_matter import front_matter
from fingerpost.source.syntax import Fence, PageSyntax

MARK = "\ufeff"
HEADING = re.compile(r"[ ]{0,3}#[ \t]+(.*?)(?:[ \t]+#+)?[ \t]*$", re.MULTILINE)


@dataclass(frozen=True, slots=True)
class PageRead:
    """A page taken apart. fences and syntax.blocks go together, one by one; findings are sorted by place."""

    syntax: PageSyntax
    fences: tuple[Fence, ...]
    findings: tuple[Diagnostic, ...]


def read_page(file: str, text: str) -> PageRead:
    """Reads the text of a whole file, front matter and byte-order mark included. Never raises."""
    text = "\n".join(lines_of(text.removeprefix(MARK)))
    data = front_matter(file, text)
    body = text.split("\n", data.lines)[data.lines] if data.lines else text
    read = read_body(file, body, data.lines + 1)
    syntax = PageSyntax(file, data.title or read.syntax.title, read.syntax.parts)
    return PageRead(syntax, read.fences, tuple(sorted((*data.findings, *read.findings))))


def read_body(file: str, body: str, first_line: int = 1) -> PageRead:
    """Reads a text without front matter that begins on line `first_line` of the file, such as MkDocs hands over."""
    found = scan(file, body, first_line)
    blocks = tuple(read_block(file, fence) for fence in found.fences)
    parts = sorted((*(block.value for block in blocks if block.value), *found.mentions), key=lambda part: part.span)
    findings = (*found.findings, *(finding for block in blocks for finding in block.findings))
    heading = HEADING.search(body)
    syntax = PageSyntax(file, heading.group(1) if heading else None, tuple(parts))
    return PageRead(syntax, found.fences, tuple(sorted(findings)))
