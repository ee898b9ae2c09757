"""A lesson that begins with what is hard.

Not warming up goes along with injury (Santos & Minghelli 2024); that the first steps of a lesson should be light is
common practice, and no standard says how many. So nothing is asked unless the option `warm_up_steps` does: then the
first so many steps of each lesson hold no bar, and none is twice as hard as the middle one of the course's
changes, which is by our own choice.

    warm_up_steps: 4            and a lesson that begins with        start: 133211/134211 = F

Begin the lesson with a few changes that are known and light, and come to the hard one then.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from statistics import median

from fingerpost.course.model import Step
from fingerpost.course.rules.changes import changes, move_span
from fingerpost.course.rules.explanation import Explanation
from fingerpost.course.settings import Settings
from fingerpost.course.slip import note
from fingerpost.course.teaching import Told
from fingerpost.diagnostics import Code, Diagnostic, Span

HEAVY = 2.0
"""So many times as hard as the middle one of the course's changes is heavy to begin with. By our own choice."""


def no_warm_up(told: Sequence[Told], settings: Settings) -> Iterator[Diagnostic]:
    """A note for each lesson with a heavy step among its first ones, at the first of them."""
    if not settings.warm_up_steps:
        return
    points = {id(change.step): change.points for change in changes(told)}
    heavy = HEAVY * median(points.values()) if points else 0.0
    for file in dict.fromkeys(block.file for block in told):
        opening = list(_steps(block for block in told if block.file == file))[: settings.warm_up_steps]
        for span, step in opening:
            if (why := _heavy(step, points.get(id(step), 0.0), heavy)) is not None:
                yield _finding(span, why, settings.warm_up_steps)
                break


def _steps(told: Iterable[Told]) -> Iterator[tuple[Span, Step]]:
    for block in told:
        for step in block.block.steps if block.block is not None and block.sound else ():
            yield move_span(block, step), step


def _heavy(step: Step, points: float, heavy: float) -> str | None:
    if any(press.is_bar for press in step.shape.presses):
        return "holds a bar"
    return "is among the hardest of the course" if points and points >= heavy else None


def _finding(span: Span, why: str, asked: int) -> Diagnostic:
    message = f"The hand is not warm yet, and this step {why}"
    expected = f"{asked} light step{'s' if asked > 1 else ''} first, by `warm_up_steps` (common practice)"
    return note(span, Code.NO_WARM_UP, message, expected, "begin the lesson with known, light changes")


REASONS = {
    Code.NO_WARM_UP: Explanation(
        "A lesson that begins with what is hard",
        "Not warming up goes along with injury. Asked for by the option `warm_up_steps`; how many is common practice.",
        "warm_up_steps: 4\n\nstart: 133211/134211 = F",
        "warm_up_steps: 4\n\nstart: x02210/--231- = Am     (and the bar after four steps)",
    ),
}
