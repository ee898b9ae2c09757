"""A step that is much harder than every step before it.

A route through the chords grows harder bit by bit. A step that is several times as hard as the hardest one so far is
where students stop; it may be meant, and then it deserves a word, an easier shape or a lesson that leads up to it. How
hard a step is, the change costs of the hand say. That twice as hard is much, and that the first ten changes of a course
are no measure yet, is by our own choice; the option `harder_step` says otherwise, and 0 asks for nothing.

    - 3 off = Am7            the hardest step so far has 1.6 points
    - 1 to E1-e1 = ...       this one has 4.2

Put steps between the two that lead up to it, or give it an `or:` with an easier shape.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from fingerpost.course.rules.changes import Change, changes
from fingerpost.course.rules.explanation import Explanation
from fingerpost.course.settings import Settings
from fingerpost.course.slip import note
from fingerpost.course.teaching import Told
from fingerpost.diagnostics import Code, Diagnostic

FIRST_CHANGES = 10
"""So many changes must have come before one is held against them. By our own choice."""


def harder_steps(told: Sequence[Told], settings: Settings) -> Iterator[Diagnostic]:
    """A note for each step at least `harder_step` times as hard as all before it; one with an easier shape is fine."""
    if not settings.harder_step:
        return
    hardest: Change | None = None
    for count, change in enumerate(changes(told)):
        if hardest is None or change.points > hardest.points:
            leaps = hardest is not None and change.points >= settings.harder_step * hardest.points
            if hardest is not None and leaps and count >= FIRST_CHANGES and change.step.easier is None:
                yield _finding(change, hardest, settings.harder_step)
            hardest = change


def _finding(change: Change, hardest: Change, most: float) -> Diagnostic:
    times = f"{change.points / hardest.points:.1f}" if hardest.points else "many"
    parts = ", ".join(f"{name} {points:g}" for name, points in change.difficulty.parts[:3])
    where = f"line {hardest.span.line} of {hardest.span.file}"
    message = f"This step is {times} times as hard as the hardest before it, on {where} ({parts})"
    bound = f"a step of less than {most * hardest.points:.3g} points, by `harder_step`"
    expected = f"{bound}; the hardest so far has {hardest.points:.3g}"
    fix = "steps that lead up to it, or `or:` with an easier shape"
    return note(change.span, Code.HARDER_STEP, message, expected, fix)


REASONS = {
    Code.HARDER_STEP: Explanation(
        "A step much harder than those before it",
        "Here students stop. The measure is the hardest change so far; the option `harder_step` says how much is much.",
        "- 1 to E1-e1     (after lifts and single fingers only)",
        "- move: 1 to E1-e1\n  or: xx3211/--3211",
    ),
}
