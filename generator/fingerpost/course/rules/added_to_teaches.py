"""The edit that adds a word to the `teaches` of a block, however that is written."""

from __future__ import annotations

import re

from fingerpost.diagnostics import Edit, Span
from fingerpost.source.syntax import BlockSyntax

EMPTY = re.compile(r"teaches:\s*\[\s*(?=\])")


def adding(word: str, block: BlockSyntax) -> Edit | None:
    """The edit, or None where it can't be done safely."""
    lines = block.source.split("\n")
    if block.teaches:
        last = block.teaches[-1].span
        index = last.line - block.span.line - 1
        text = lines[index] if 0 <= index < len(lines) else "-"
        end = Span(last.file, last.end_line, last.end_column, last.end_line, last.end_column)
        if not text.lstrip().startswith("-"):
            return Edit(end, f", {word}")
        column = last.column - len(text) + len(text.lstrip()) if text.rstrip().endswith(block.teaches[-1].text) else 0
        return (
            Edit(end, f"\n{text[: len(text) - len(text.lstrip())]}- {word}")
            if block.span.column == 1 and column
            else None
        )
    if block.id is None or block.span.column != 1:
        return None
    written = next((at for at, text in enumerate(lines) if text.startswith("teaches")), None)
    if written is not None:
        empty = EMPTY.match(lines[written])
        line, column = block.span.line + 1 + written, 1 + (0 if empty is None else empty.end())
        return None if empty is None else Edit(Span(block.span.file, line, column, line, column), word)
    start = Span(block.id.span.file, block.id.span.line, 1, block.id.span.line, 1)
    return Edit(start, f"teaches: [{word}]\n")
