"""Rules about the whole course, a file each; the table shows what they look at and in which order they run."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from fingerpost.course.rules.cues_out_of_order import cues_out_of_order
from fingerpost.course.rules.duplicate_id import duplicate_ids
from fingerpost.course.rules.harder_step import harder_steps
from fingerpost.course.rules.no_rest import no_rest
from fingerpost.course.rules.no_warm_up import no_warm_up
from fingerpost.course.rules.shape_repeated import shape_repeated
from fingerpost.course.rules.taught_but_not_used import taught_but_not_used
from fingerpost.course.rules.tie_decided_otherwise import ties_decided_otherwise
from fingerpost.course.rules.used_before_taught import used_before_taught
from fingerpost.course.settings import Settings
from fingerpost.course.teaching import Told
from fingerpost.diagnostics import Diagnostic

OF_A_TEXT = (cues_out_of_order,)
"""Rules over one block as it is written."""

OF_A_BLOCK = (shape_repeated,)
"""Rules over one block as it is understood."""

OF_ALL_TEXTS = (duplicate_ids,)
"""Rules over all blocks as they are written."""

OF_ALL_BLOCKS = (used_before_taught, taught_but_not_used)
"""Rules over all blocks as they are understood, in the order of the course."""

BY_SETTINGS = (harder_steps, no_warm_up, no_rest)
"""Rules over all blocks that ask for what the author's options say."""


def course_findings(told: Sequence[Told], settings: Settings) -> Iterator[Diagnostic]:
    """What all rules find; told: every block of the course, in its order."""
    for block in told:
        yield from block.once(_of_one)
    texts = [block.syntax for block in told]
    for of_texts in OF_ALL_TEXTS:
        yield from of_texts(texts)
    tied = list(ties_decided_otherwise(told, settings.ties))
    yield from tied
    for of_blocks in OF_ALL_BLOCKS:
        yield from _besides(tied, of_blocks(told))
    for by_settings in BY_SETTINGS:
        yield from by_settings(told, settings)


def _besides(tied: Sequence[Diagnostic], found: Iterable[Diagnostic]) -> Iterator[Diagnostic]:
    """What was found elsewhere than at a name that is to be another: of that one nothing else can be known."""
    places = {finding.span for finding in tied}
    return (finding for finding in found if finding.span not in places)


def _of_one(block: Told) -> Iterator[Diagnostic]:
    for of_text in OF_A_TEXT:
        yield from of_text(block.syntax)
    for of_block in OF_A_BLOCK:
        yield from of_block(block)
