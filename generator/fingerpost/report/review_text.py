"""A review as text for a terminal."""

from __future__ import annotations

from collections.abc import Iterator

from fingerpost.course.comparison.block_difference import BlockChange
from fingerpost.course.comparison.step_difference import How
from fingerpost.report.quoted import clipped, spelled_out
from fingerpost.report.review import Review, counted, shortened
from fingerpost.report.review_blocks import block_became, of_block
from fingerpost.report.review_lists import affected, first_lists, last_lists, own_changes
from fingerpost.report.review_summary import summary, unchanged
from fingerpost.report.review_words import PLAIN, Speech
from fingerpost.report.text import one_line


def write(review: Review) -> Iterator[str]:
    """The review, line by line. No line holds a character that could steer a terminal."""
    parting, head = shortened(review.parting), shortened(review.head)
    yield f"{parting}..{head}: {summary(review)}"
    for name, items in first_lists(review, PLAIN):
        yield from _listed(name, iter(items))
    for change in own_changes(review):
        yield from _block(change, review)
    for name, items in last_lists(review, PLAIN):
        yield from _listed(name, iter(items))
    for name, items in affected(review, PLAIN):
        yield from _listed(name, iter(items))
    for name, findings in (("New findings", review.findings_new), ("Findings put right", review.findings_gone)):
        yield from _listed(f"{name} ({len(findings)})", (spelled_out(one_line(finding)) for finding in findings))
    yield ""
    yield unchanged(review)


def _listed(name: str, items: Iterator[str]) -> Iterator[str]:
    """A heading and its items; nothing at all where there are none."""
    lines = list(items)
    if lines:
        yield ""
        yield f"{name}:"
        yield from (f"  {line}" for line in lines)


def _block(change: BlockChange, review: Review) -> Iterator[str]:
    here = change.here
    title = f" ({clipped(here.block.title, 120)})" if here.block.title else ""
    became = block_became(change)
    yield ""
    count = f" {became}, {counted(len(here.block.steps), 'step')}" if became else ""
    yield f"{spelled_out(review.path(here.file))}: {spelled_out(here.block.id)}{title}{count}"
    if not change.musical:
        yield "  No musical change."
    yield from (f"  {line}" for line in of_block(PLAIN, change))
    for step in change.steps:
        if step.how is not How.FOLLOWS:
            yield f"  {PLAIN.step(step)}"
            told = PLAIN.consequences(step)
            if told and not became:
                yield f"    {told}"
    yield from (f"  Words: {QUOTED.words(words)}" for words in change.words)


def _quoted(text: str) -> str:
    return f'"{clipped(text)}"'


QUOTED = Speech(quote=_quoted)
