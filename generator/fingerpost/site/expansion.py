"""Putting marks where blocks and mentions stand in the lines of a page; the markup itself goes in later."""

from __future__ import annotations

import re
from collections.abc import Callable

from fingerpost.course.model import MentionMeaning
from fingerpost.site.located import Located, Shown
from fingerpost.source.syntax import Fence, Mention

_HEADING = re.compile(r"[\s>]*(?:(?:[-*+]|\d+[.)])\s+)*#{1,6}(?:\s|$)")
_UNDERLINE = re.compile(r"[\s>]*(?:=+|-+)\s*$")
_NOT_QUOTE = re.compile(r"[^>\s]")

BlockMark = Callable[[Shown], str]
MentionMark = Callable[[Mention, MentionMeaning, bool], str]


def expand(lines: list[str], located: Located, block_mark: BlockMark, mention_mark: MentionMark) -> list[str]:
    """The lines with a mark for each block and mention that the course knows.

    A block becomes one line with the prefix of its fence, so that it stays in its list or quote. mention_mark is also
    told whether only plain words will do, as in a heading or in the text of an image or a link.
    """
    out = list(lines)
    # From the end to the beginning, so that what is replaced moves nothing that is still to come.
    for mention, meaning in reversed(located.mentions):
        if meaning is not None:
            _replace_mention(out, mention, mention_mark(mention, meaning, _plain_only(out, mention)))
    removed = _joined_lines(located)
    for fence, shown in reversed(located.fences):
        if shown is not None and not fence.miswritten:
            before = sum(count for line, count in removed if line < fence.first_line)
            _replace_fence(out, fence, fence.first_line - 1 - before, block_mark(shown))
    return out


def _joined_lines(located: Located) -> list[tuple[int, int]]:
    """Where mentions that ran over several lines have joined them: the line and how many went."""
    spans = (mention.span for mention, meaning in located.mentions if meaning is not None)
    return [(span.line, span.end_line - span.line) for span in spans if span.end_line > span.line]


def _replace_mention(lines: list[str], mention: Mention, mark: str) -> None:
    span = mention.span
    before, after = lines[span.line - 1][: span.column - 1], lines[span.end_line - 1][span.end_column - 1 :]
    lines[span.line - 1 : span.end_line] = [before + mark + after]


def _replace_fence(lines: list[str], fence: Fence, first: int, mark: str) -> None:
    """One line in place of the fence, with empty lines about it, since markup can't go on with a paragraph."""
    end = first + fence.last_line - fence.first_line + 1
    begins_item = _NOT_QUOTE.search(fence.prefix) is not None
    above = _gap(fence, lines[first - 1 : first] if first and not begins_item else [])
    below = _gap(fence, lines[end : end + 1])
    lines[first:end] = [*above, fence.prefix + mark, *below]


def _gap(fence: Fence, neighbour: list[str]) -> list[str]:
    """An empty line between the mark and a neighbouring line of text, in the quote where that line is in it, too."""
    if not neighbour or not neighbour[0].strip("> "):
        return []
    return [fence.prefix.rstrip() if ">" in neighbour[0] and ">" in fence.prefix else ""]


def _plain_only(lines: list[str], mention: Mention) -> bool:
    line = lines[mention.span.line - 1]
    below = lines[mention.span.line] if mention.span.line < len(lines) else ""
    before = line[: mention.span.column - 1]
    return bool(
        _HEADING.match(line) or (_UNDERLINE.match(below) and below.strip()) or before.count("[") > before.count("]")
    )
