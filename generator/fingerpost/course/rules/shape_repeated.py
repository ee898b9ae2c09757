"""A step that holds the shape of the step before it, and says nothing with it.

A step is there for something to do. `hold` earns its place as the first step, where a student settles into the shape;
with words, a pattern, beats, a cue, an image or an easier shape; or with another name for the same notes. Elsewhere it
is a page to turn for nothing, and often the rest of a step that was cut.

    - 3 off = Am7
    - hold

Leave the step out, or say what to do with it. To lift a finger and put it back is two steps, and no repetition.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from fingerpost.course.model import Step
from fingerpost.course.rules.explanation import Explanation
from fingerpost.course.slip import note
from fingerpost.course.teaching import Told
from fingerpost.diagnostics import Code, Diagnostic
from fingerpost.source.syntax import StepSyntax


def shape_repeated(told: Told) -> Iterator[Diagnostic]:
    """A note for each `hold` that adds nothing to the step before it; a block with errors is left alone."""
    if told.block is None or not told.sound:
        return
    for before, step in pairwise(told.block.steps[1:]):
        written = told.written[step.ordinal]
        if written is not None and written.line is not None and _repeats(before, step) and not _adds(written):
            message = f"This step holds what step {before.ordinal} holds already, and says nothing with it"
            expected = "something to do: a move, or words (`say`), beats, a pattern or a cue with the `hold`"
            span = written.line.actions[0].span
            yield note(span, Code.SHAPE_REPEATED, message, expected, "leave the step out, or say what it is for")


def _repeats(before: Step, step: Step) -> bool:
    """Whether the hand stays, in the same part, under the same name."""
    same = before.shape == step.shape and before.naming.shown == step.naming.shown
    return step.hold and same and before.passing == step.passing


def _adds(written: StepSyntax) -> bool:
    """Whether the step says more than its move."""
    cue = None if written.line is None else written.line.cue
    return any((cue, written.say, written.beats, written.pattern, written.easier, written.image))


REASONS = {
    Code.SHAPE_REPEATED: Explanation(
        "A shape repeated without need",
        "A student turns the page and has nothing to do; often it is what is left of a step that was cut.",
        "- 3 off = Am7\n- hold",
        "- 3 off = Am7\n- move: hold\n  say: Four slow strums.",
    ),
}
