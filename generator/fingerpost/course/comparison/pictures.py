"""How many pictures of steps are to be made again: of other shapes, on another capo, written or drawn otherwise."""

from __future__ import annotations

from collections.abc import Iterable

from fingerpost.course.comparison.block_difference import BlockChange
from fingerpost.course.comparison.step_difference import StepChange
from fingerpost.course.model import Step
from fingerpost.course.settings import Settings
from fingerpost.music.chord_symbol import write

_DRAWN = ("handed", "view")
"""Options that turn every picture."""


def pictures(changes: Iterable[BlockChange], settings: tuple[Settings, Settings]) -> int:
    """How many there are, of the steps that a page shows now."""
    old, new = settings
    everywhere = any(getattr(old, name) != getattr(new, name) for name in _DRAWN)
    return sum(_of_block(change, settings, everywhere) for change in changes)


def _of_block(change: BlockChange, settings: tuple[Settings, Settings], everywhere: bool) -> int:
    if change.after is None or not change.after.sound:
        return 0
    steps = change.after.block.steps
    if everywhere or change.before is None or not change.before.sound or _other_capo(change):
        return len(steps)
    drawn = {step.after.ordinal for step in change.steps if step.after is not None and _drawn_otherwise(step)}
    return sum(step.ordinal in drawn or _written_otherwise(step, settings) for step in steps)


def _other_capo(change: BlockChange) -> bool:
    return change.retuned is not None and change.retuned.higher != 0


def _written_otherwise(step: Step, settings: tuple[Settings, Settings]) -> bool:
    """Whether the picture's name is written in another style."""
    shown = step.naming.shown
    old, new = (options.symbol_style for options in settings)
    return old != new and shown is not None and write(shown, old) != write(shown, new)


def _drawn_otherwise(step: StepChange) -> bool:
    before, after = step.before, step.after
    if before is None or after is None:
        return True
    return (before.shape, before.transition, before.rest, before.naming.shown) != (
        after.shape,
        after.transition,
        after.rest,
        after.naming.shown,
    )
