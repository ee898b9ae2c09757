"""Too many steps without a rest.

Hands tire before ears do. To rest now and then is common practice, and no standard says how often; so nothing is asked
unless the option `rest_after_steps` says after how many steps a `rest` is due. The end of a block counts as a rest
where its practice ends with one (`rest_minutes`), and so does the end of a lesson.

    rest_after_steps: 12        and a block of twenty steps without `rest`

Write a `rest` where a take can pause, and `back` after it; or cut the block in two.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from fingerpost.course.rules.changes import move_span
from fingerpost.course.rules.explanation import Explanation
from fingerpost.course.settings import Settings
from fingerpost.course.slip import note
from fingerpost.course.teaching import Told
from fingerpost.diagnostics import Code, Diagnostic, Span


def no_rest(told: Sequence[Told], settings: Settings) -> Iterator[Diagnostic]:
    """A note at each step that is the first one too many; the count then begins anew."""
    most = settings.rest_after_steps
    if not most:
        return
    file, count = "", 0
    for block in told:
        count = count if block.file == file and not settings.rest_minutes else 0
        file = block.file
        for step in block.block.steps[1:] if block.block is not None and block.sound else ():
            count = 0 if step.rest else count + 1
            if count > most:
                yield _finding(move_span(block, step), most)
                count = 1


def _finding(span: Span, most: int) -> Diagnostic:
    message = f"This is the step after {most} steps without a rest"
    expected = f"a rest after at most {most} step{'s' if most > 1 else ''}, by `rest_after_steps` (common practice)"
    return note(span, Code.NO_REST, message, expected, "`rest` before it, and `back`")


REASONS = {
    Code.NO_REST: Explanation(
        "Too many steps without a rest",
        "Hands tire before ears do. Asked for by the option `rest_after_steps`; how many is common practice.",
        "rest_after_steps: 2\n\n- 3 off\n- 3 to G2\n- 3 off",
        "rest_after_steps: 2\n\n- 3 off\n- 3 to G2\n- rest\n- back\n- 3 off",
    ),
}
