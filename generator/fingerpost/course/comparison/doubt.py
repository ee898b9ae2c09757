"""From which line on the steps of a block with errors are in doubt: what is made of them there is a guess, not news."""

from __future__ import annotations

import math
from bisect import bisect_left, bisect_right
from collections.abc import Iterable, Iterator, Mapping, Sequence

from fingerpost.diagnostics import Code, Diagnostic, Severity, Span
from fingerpost.source.syntax import AfterStart, BlockSyntax, PageSyntax, PreviousStart, StepSyntax, Token

Doubts = Mapping[tuple[str, int], float]
"""By file and first line of a block with errors: the first line in doubt; 0 where the start is, infinity for none."""

_LEAVE_THE_HAND = frozenset(
    {
        Code.TOO_MANY_FINGERS,
        Code.TIE_DECIDED_OTHERWISE,
        Code.DUPLICATE_ID,
        Code.MISSING_IMAGE,
        Code.USED_BEFORE_TAUGHT,
        Code.TAUGHT_BUT_NOT_USED,
        Code.CUES_OUT_OF_ORDER,
    }
)
"""Errors with which a line is done as it is written all the same."""


def doubts(pages: Iterable[PageSyntax], findings: Iterable[Diagnostic]) -> Doubts:
    """What is in doubt in a course with these findings.

    A block that is no more than a notice though it has no error of its own is in doubt by another; it is not in here.
    """
    errors: dict[str, list[Diagnostic]] = {}
    for finding in sorted(findings):
        if finding.severity is Severity.ERROR:
            errors.setdefault(finding.span.file, []).append(finding)
    out: dict[tuple[str, int], float] = {}
    ends: dict[str, bool] = {}
    for page in pages:
        unsure = False
        for block in page.blocks:
            inside = _inside(block, errors.get(page.file, []))
            goes_on = _goes_on_in_doubt(block, unsure, ends)
            if inside:
                out[page.file, block.span.line] = 0 if goes_on else _first(block, inside)
            unsure = goes_on or out.get((page.file, block.span.line), math.inf) < math.inf
            ends[block.id.text if block.id is not None else ""] = unsure
    return out


def _inside(block: BlockSyntax, errors: Sequence[Diagnostic]) -> Sequence[Diagnostic]:
    """Of the errors of a page, in order, those of a block."""
    first = bisect_left(errors, block.span.line, key=_line)
    return errors[first : bisect_right(errors, block.span.end_line, key=_line)]


def _line(error: Diagnostic) -> int:
    return error.span.line


def _goes_on_in_doubt(block: BlockSyntax, before: bool, ends: Mapping[str, bool]) -> bool:
    """Whether a block goes on from one whose hand is in doubt."""
    form = block.start.form if block.start is not None else None
    if isinstance(form, AfterStart):
        return ends.get(form.id.text, False)
    return before and isinstance(form, PreviousStart)


def _first(block: BlockSyntax, errors: Sequence[Diagnostic]) -> float:
    words = [token.span for token in _words(block)]
    in_doubt = [error.span for error in errors if error.code not in _LEAVE_THE_HAND]
    lines = [span.line for span in in_doubt if not any(_within(span, word) for word in words)]
    in_steps = [line for line in lines if block.steps and line >= block.steps[0].span.line]
    return 0 if len(in_steps) < len(lines) else min(in_steps, default=math.inf)


def _within(span: Span, whole: Span) -> bool:
    return (whole.line, whole.column) <= (span.line, span.column) and (span.end_line, span.end_column) <= (
        whole.end_line,
        whole.end_column,
    )


def _words(block: BlockSyntax) -> Iterator[Token]:
    """What is said beside the moves: whatever is wrong there, the hand does what the lines say."""
    yield from (name.symbol for name in block.names)
    yield from (*block.teaches, *(token for token in (block.id, block.title, block.key) if token is not None))
    for step in block.steps:
        yield from _beside(step)


def _beside(step: StepSyntax) -> Iterator[Token]:
    of_line = (step.line.cue,) if step.line is not None else ()
    of_image = (step.image.file, step.image.text) if step.image is not None else ()
    for token in (step.say, step.id, step.beats, step.pattern, step.easier, *of_line, *of_image):
        if token is not None:
            yield token
