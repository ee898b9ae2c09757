"""Steps that are what they were at another place: in their block, or in another one."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from fingerpost.course.comparison.alignment import align
from fingerpost.course.comparison.block_difference import BlockChange
from fingerpost.course.comparison.step_difference import How, StepChange
from fingerpost.course.model import Step

StepPair = tuple[Step | None, Step | None]


def with_moves(pairs: Sequence[StepPair]) -> tuple[tuple[StepPair, ...], frozenset[str]]:
    """The pairs with every step at its own id again, wherever it stands now, and the ids of those that have moved.

    Steps are laid side by side in order, so that two which change places lie beside each other's lines.
    """
    old = {step.id: step for step, other in pairs if step and (other is None or other.id != step.id)}
    new = {step.id: step for other, step in pairs if step and (other is None or other.id != step.id)}
    apart = old.keys() & new.keys()
    if not apart:
        return tuple(pairs), frozenset()
    return tuple(_joined(pairs, old, apart)), frozenset(apart) - _in_place(pairs, apart)


def _joined(pairs: Sequence[StepPair], old: dict[str, Step], apart: set[str]) -> Iterator[StepPair]:
    for before, after in pairs:
        if before is not None and before.id in apart:
            before = None
        if after is not None and after.id in apart:
            yield old[after.id], after
            after = None
        if before is not None or after is not None:
            yield before, after


def _in_place(pairs: Sequence[StepPair], apart: set[str]) -> frozenset[str]:
    """Of the ids that are apart as many as can be said to stay in place, while the rest moved past them."""
    once = [step.id for step, _ in pairs if step and step.id in apart]
    now = [step.id for _, step in pairs if step and step.id in apart]
    both = align(once, now, lambda one, other: 0.0 if one == other else 3.0)
    return frozenset(once[i] for i, j in both if i is not None and j is not None)


def between_blocks(changes: Sequence[BlockChange]) -> Iterator[BlockChange]:
    """The changes, in which a step that is gone from one block and new in another says where it is or was."""
    went: dict[tuple[object, ...], list[tuple[BlockChange, Step]]] = {}
    for change in changes:
        for step in change.steps:
            if step.how is How.GONE and step.before is not None and step.before.ordinal:
                went.setdefault(_move(change, step.before), []).append((change, step.before))
    came: dict[int | str, tuple[str, int]] = {}
    for change in changes:
        for step in change.steps:
            if step.how is How.ADDED and step.after is not None and (places := went.get(_move(change, step.after))):
                there, before = places.pop(0)
                came[id(step)] = (there.here.block.id, before.ordinal)
                came[before.id] = (change.here.block.id, step.after.ordinal)
    for change in changes:
        yield replace(change, steps=tuple(_placed(step, came) for step in change.steps)) if came else change


def _placed(step: StepChange, came: dict[int | str, tuple[str, int]]) -> StepChange:
    key = step.before.id if step.how is How.GONE and step.before is not None else id(step)
    return replace(step, elsewhere=came[key]) if key in came else step


def _move(change: BlockChange, step: Step) -> tuple[object, ...]:
    """What makes a step the same in whatever block: the change from shape to shape, on a neck that sounds the same."""
    board = change.here.block.fretboard
    return step.id.removeprefix(change.here.block.id), board.tuning, board.capo
