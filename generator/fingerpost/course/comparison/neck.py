"""The neck before and after: what another capo, another tuning or another length does to shapes that are kept."""

from __future__ import annotations

from fingerpost.course.comparison.block_difference import Retuned
from fingerpost.course.model import Block, Naming, Step
from fingerpost.music.chord_symbol import write
from fingerpost.music.difficulty import difficulty
from fingerpost.music.fretboard import Fretboard
from fingerpost.music.hand import Hand


def same_sound(before: Fretboard, after: Fretboard) -> bool:
    """Whether a shape sounds the same on both, whatever the length of the neck and the number of its frets."""
    return (before.tuning, before.capo) == (after.tuning, after.capo)


def retuned(before: Block, after: Block) -> Retuned | None:
    """What the player hears of another neck; None where it sounds the same."""
    old, new = before.fretboard, after.fretboard
    if same_sound(old, new):
        return None
    return Retuned(new.capo - old.capo, _strings(old, new), _example(before, after))


def _strings(before: Fretboard, after: Fretboard) -> tuple[tuple[int, str, str, int], ...]:
    if before.strings != after.strings:
        return ()
    both = enumerate(zip(before.tuning.midi, after.tuning.midi, strict=True), 1)
    return tuple(
        (string, _pitch(before, string), _pitch(after, string), new - old) for string, (old, new) in both if old != new
    )


def _pitch(board: Fretboard, string: int) -> str:
    return str(board.tuning.pitches[board.strings - string])


def _example(before: Block, after: Block) -> tuple[str, str, str] | None:
    """The first chord that is there on both sides in the same shape, as it is shown and as it sounded and sounds."""
    old = {step.shape: step.naming for step in before.steps if not step.rest}
    for step in after.steps:
        was = old.get(step.shape)
        if was is not None and was.shown is not None and was.shown == step.naming.shown and not step.rest:
            return write(was.shown), _heard(was), _heard(step.naming)
    return None


def _heard(naming: Naming) -> str:
    heard = naming.sounding or naming.shown
    return write(heard) if heard is not None else ""


def reckoned_otherwise(
    before: Step, after: Step, boards: tuple[Fretboard, Fretboard], hands: tuple[Hand, Hand]
) -> bool:
    """Whether a step that is as it was counts as harder or easier than before, to the tenth that is shown."""
    if boards[0] == boards[1] and hands[0] == hands[1]:
        return False
    return points(before, boards[0], hands[0]) != points(after, boards[1], hands[1])


def points(step: Step, board: Fretboard, hand: Hand) -> float | None:
    """The difficulty of the change that leads to a step, as it is shown; None for a start."""
    return None if step.transition is None else round(difficulty(step.transition, board, hand).total, 1)
