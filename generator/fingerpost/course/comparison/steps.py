"""The steps of a block before and after: which is which, and what moved, in music."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import zip_longest

from fingerpost.course.comparison.alignment import align
from fingerpost.course.comparison.step_difference import Fact, How, StepChange, StringChange, WordChange
from fingerpost.course.model import Step, StringRow
from fingerpost.music.chord_symbol import write
from fingerpost.music.difficulty import difficulty
from fingerpost.music.fretboard import Fretboard
from fingerpost.music.hand import Hand
from fingerpost.music.shape_text import write_shape

# Less than twice what leaving a step alone costs, so that a step rewritten in its place stays one step.
_UNLIKE = 1.6
_LIKENESS = (("id", 0.0), ("shape", 0.2), ("written", 0.5), ("name", 0.9))


def pair_steps(before: Sequence[Step], after: Sequence[Step]) -> tuple[tuple[Step | None, Step | None], ...]:
    """Each step with what it became, None where it came or went."""
    pairs = align(before, after, _cost)
    return tuple(
        (None if i is None else before[i], None if j is None else after[j]) for i, j in pairs
    )  # fmt: skip


def _cost(before: Step, after: Step) -> float:
    """How unlike two steps are, 0 for the same id; a start is no other step, and no other step is a start."""
    if (before.ordinal == 0) != (after.ordinal == 0):
        return 3.0
    alike = {
        "id": before.id == after.id,
        "shape": before.shape == after.shape and before.rest == after.rest,
        "written": _written(before) == _written(after),
        "name": before.naming.shown == after.naming.shown,
    }
    return next((cost for what, cost in _LIKENESS if alike[what]), _UNLIKE)


def step_change(before: Step, after: Step, boards: tuple[Fretboard, Fretboard], hands: tuple[Hand, Hand]) -> StepChange:
    """What became of a step; it may come out as no change at all, which `differs` tells."""
    how = How.FOLLOWS if _follows(before, after, boards) else How.CHANGED
    return StepChange(
        how,
        before,
        after,
        tuple(_strings(before, after, boards)),
        tuple(fact for fact in _facts(before, after) if fact.before != fact.after),
        _difficulty(before, boards[0], hands[0]),
        _difficulty(after, boards[1], hands[1]),
    )


def step_alone(step: Step, board: Fretboard, hand: Hand, how: How) -> StepChange:
    """A step that came or went."""
    points = _difficulty(step, board, hand)
    if how is How.ADDED:
        return StepChange(how, None, step, difficulty_after=points)
    return StepChange(how, step, None, difficulty_before=points)


def differs(change: StepChange) -> bool:
    """Whether a step is for the player what it was not before."""
    before, after = change.before, change.after
    if before is None or after is None:
        return True
    return bool(
        change.strings
        or change.facts
        or before.shape != after.shape
        or _names(before) != _names(after)
        or _way(before) != _way(after)
    )


def word_changes(before: Step, after: Step) -> Iterator[WordChange]:
    """The author's words on a step that differ."""
    for what in ("say", "cue", "image", "image_text"):
        old, new = getattr(before, what), getattr(after, what)
        if old != new:
            yield WordChange(what.replace("_", " "), after, old, new)


def _difficulty(step: Step, board: Fretboard, hand: Hand) -> float | None:
    return None if step.transition is None else difficulty(step.transition, board, hand).total


def _names(step: Step) -> tuple[object, ...]:
    naming = step.naming
    return (naming.shown, naming.strict, naming.taught_as, naming.lacks, naming.adds, naming.omitted)


def _way(step: Step) -> tuple[object, ...]:
    """The hand that the step comes from."""
    return () if step.transition is None else (step.transition.before,)


def _written(step: Step) -> str:
    return " ".join(step.move_text.split())


def _moves(step: Step) -> tuple[object, ...]:
    moves = step.transition.moves if step.transition is not None else ()
    return tuple((move.finger, move.after) for move in moves)


def _follows(before: Step, after: Step, boards: tuple[Fretboard, Fretboard]) -> bool:
    """Whether the step says what it said, so that what differs comes from elsewhere."""
    if _flags(before) != _flags(after) or any(fact.before != fact.after for fact in _facts(before, after)):
        return False
    if before.shape == after.shape and boards[0] == boards[1] and _names(before) != _names(after):
        return False
    return _written(before) == _written(after) or (bool(_moves(after)) and _moves(before) == _moves(after))


def _strings(before: Step, after: Step, boards: tuple[Fretboard, Fretboard]) -> Iterator[StringChange]:
    for old, new in _rows(before, after):
        if _held(old, boards[0]) != _held(new, boards[1]):
            row = old or new
            assert row is not None
            yield StringChange(
                string=row.string,
                fret_before=old.fret if old else None,
                fret_after=new.fret if new else None,
                finger_before=old.finger if old else None,
                finger_after=new.finger if new else None,
                note_before=old.note if old else None,
                note_after=new.note if new else None,
            )


def _rows(before: Step, after: Step) -> Iterator[tuple[StringRow | None, StringRow | None]]:
    """The rows of both tables, string by string; a hand off the neck has none."""
    old = [] if before.rest else before.table[::-1]
    new = [] if after.rest else after.table[::-1]
    if old and new:
        yield from reversed(list(zip_longest(old, new)))


def _held(row: StringRow | None, board: Fretboard) -> tuple[object, ...]:
    """What a string holds and sounds, its note by number, so that a note spelled otherwise is the same."""
    if row is None or row.fret is None:
        return (None, row is not None and row.finger)
    return (row.fret, row.finger, board.shape_midi(row.string, row.fret))


def _flags(step: Step) -> tuple[bool, ...]:
    return (step.hold, step.rest, step.back, step.passing, step.silent)


def _facts(before: Step, after: Step) -> Iterator[Fact]:
    """What is said of a step besides the hand and the name."""
    for what, read in _FACTS.items():
        yield Fact(what, read(before), read(after))


def _kind(step: Step) -> str:
    marks = {"rest": step.rest, "back": step.back, "hold": step.hold}
    return next((name for name, holds in marks.items() if holds), "move")


def _easier(step: Step) -> str | None:
    return None if step.easier is None else write_shape(step.easier)


def _taught(step: Step) -> str | None:
    shown = step.naming.shown
    return f"taught as {write(shown)}" if step.naming.taught_as and shown is not None else None


_FACTS = {
    "kind": _kind,
    "passing": lambda step: "passing" if step.passing else None,
    "silent": lambda step: "silent" if step.silent else None,
    "name": _taught,
    "beats": lambda step: step.beats,
    "strokes": lambda step: step.pattern,
    "easier shape": _easier,
}
