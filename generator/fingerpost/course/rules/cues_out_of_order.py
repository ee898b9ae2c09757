"""Cues that go back in time.

A cue is where a step stands in the recording. Within a block the steps are played in their order, so their cues can't
go back; where one does, a digit was swapped or a line was moved without its cue.

    - 3 off = Am7 @0:41
    - 3 to G2 = Am @0:14

Write the time at which the step comes in the recording, here perhaps `@0:44`.
"""

from __future__ import annotations

from collections.abc import Iterator

from fingerpost.course.slip import warning
from fingerpost.course.words import quoted
from fingerpost.diagnostics import Code, Diagnostic
from fingerpost.source.syntax import BlockSyntax, Token


def seconds(text: str) -> float:
    """The time of a cue, `[h:]m:ss[.fff]`, in seconds."""
    total = 0.0
    for part in text.split(":"):
        total = 60 * total + float(part)
    return total


def cues_out_of_order(block: BlockSyntax) -> Iterator[Diagnostic]:
    """A warning for each cue that is earlier than the one before it in the block."""
    before: Token | None = None
    for step in block.steps:
        cue = None if step.line is None else step.line.cue
        if cue is None:
            continue
        if before is not None and seconds(cue.text) < seconds(before.text):
            message = f"The cue {quoted(cue.text)} comes before {quoted(before.text)}, the one above it"
            yield warning(cue.span, Code.CUES_OUT_OF_ORDER, message, f"a time of {before.text} or later")
            continue
        before = cue
