"""An id that is given twice.

Links, `after`, mentions, takes and a student's progress go by id, so each id of a block or a step must be the only one
of its name in the whole course, on whatever page it stands.

    id: slack-water     (and the same on another page)

Give one of them another id: the newer one, since nothing points to it yet.

Nor may an id be the anchor of a heading below the title on its page: a link to it leads to whichever stands first. Of
the title the page itself makes no anchor then, so that links mean the block.

    ## Slack water      and below it a block with   id: slack-water
"""

from __future__ import annotations

from collections.abc import Container, Iterable, Iterator

from fingerpost.course.rules.explanation import Explanation
from fingerpost.course.slip import error
from fingerpost.course.words import quoted
from fingerpost.diagnostics import Code, Diagnostic, Span
from fingerpost.source.page import PageRead
from fingerpost.source.syntax import BlockSyntax, Token


def duplicate_ids(blocks: Iterable[BlockSyntax]) -> Iterator[Diagnostic]:
    """An error at the second and each further use of an id, which says where the first one is."""
    first: dict[str, Span] = {}
    for token in (token for block in blocks for token in _ids(block)):
        there = first.setdefault(token.text, token.span)
        if there is not token.span:
            message = f"The id {quoted(token.text)} is given already, on line {there.line} of {there.file}"
            yield error(token.span, Code.DUPLICATE_ID, message, "an id of its own", _free(token.text, first))


def ids_of_headings(page: PageRead) -> Iterator[Diagnostic]:
    """An error at each id of a block or step that is the anchor of a heading of its page too."""
    lines = {heading.anchors[0]: heading.words.span.line for heading in page.headings if heading.level > 1}
    for token in (token for block in page.syntax.blocks for token in _ids(block)):
        if token.text in lines:
            message = f"The id {quoted(token.text)} is also the anchor of the heading on line {lines[token.text]}"
            expected = "an id of its own, or other words in the heading"
            yield error(token.span, Code.DUPLICATE_ID, message, expected, _free(token.text, lines))


def _ids(block: BlockSyntax) -> Iterator[Token]:
    yield from (token for token in (block.id, *(step.id for step in block.steps)) if token is not None)


def _free(text: str, taken: Container[str]) -> str:
    number = 2
    while f"{text}-{number}" in taken:
        number += 1
    return f"{text}-{number}"


REASONS = {
    Code.DUPLICATE_ID: Explanation(
        "An id that is given twice",
        "Links, takes and a student's progress go by it, and could not tell the two apart.",
        "id: same     (and again on another page)",
        "id: same-evening",
    ),
}
