"""A block read as it was likely meant: its lines with the one slip put right."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from fingerpost.course.ground import Ground
from fingerpost.course.meant.edits import (
    Began,
    Missing,
    OfStart,
    OneEdit,
    PutToo,
    Redundant,
    Struck,
    Surplus,
    Swapped,
    Turned,
    Word,
)
from fingerpost.course.meant.one_slip import Found
from fingerpost.course.meant.thread import Thread
from fingerpost.diagnostics import Code, Span
from fingerpost.music.chord import Chord
from fingerpost.music.move import Move, write_move
from fingerpost.source.grammar import read_move
from fingerpost.source.syntax import (
    Action,
    MoveLine,
    StepSyntax,
    Token,
)

OF_NAMES = (Code.NAME_IS_WRONG, Code.NAME_IS_LOOSE)


@dataclass(frozen=True)
class Slipped:
    """An edit and where it stands: in which block of a thread, and at which of its lines (-1: its start).

    A step that is missing below the last line stands at the number of lines; unheard: no sound changes with it;
    shows: the chord that it shows, where the block teaches one that no line of it shows.
    """

    edit: OneEdit
    strand: int
    line: int
    unheard: bool = False
    shows: Chord | None = None

    @classmethod
    def of(cls, found: Found, thread: Thread) -> Slipped:
        """Where the edit that was found stands."""
        edit = found.edit
        if isinstance(edit, OfStart):
            return cls(edit, 0, -1)
        strand, line = thread.places[edit.at].strand, thread.places[edit.at].line
        if line < 0:
            strand, line = strand - 1, len(thread.strands[strand - 1].lines)
        return cls(edit, strand, line, found.unheard, found.shows)


@dataclass(frozen=True)
class Corrected:
    """steps: the lines as they were meant. written: for each of them the line that stands in the text."""

    steps: tuple[StepSyntax, ...]
    written: tuple[StepSyntax, ...]


def corrected(steps: Sequence[StepSyntax], slipped: Slipped, ground: Ground) -> Corrected:
    """The steps of the block with an edit of a line made."""
    old, at = tuple(steps), slipped.line
    match slipped.edit:
        case Word(_, index, move):
            return Corrected((*old[:at], _with_move(old[at], index, move, ground), *old[at + 1 :]), old)
        case Missing(_, moves):
            return Corrected(
                (*old[:at], _added(old[at], slipped, moves, ground), *old[at:]), (*old[:at], old[at], *old[at:])
            )
        case Swapped():
            turned = (*old[:at], old[at + 1], old[at], *old[at + 2 :])
            return Corrected(turned, turned)
        case Surplus():
            left = (*old[:at], *old[at + 1 :])
            return Corrected(left, left)
        case Redundant(_, index):
            return Corrected((*old[:at], _without(old[at], index), *old[at + 1 :]), old)
        case Began() | Turned() | PutToo() | Struck():
            return Corrected(old, old)


def action_of(move: Move, span: Span, ground: Ground) -> Action:
    """A move as an action that stands at some words."""
    line = read_move(Token(write_move(move, ground.fretboard.tuning), span)).value
    assert line is not None
    return line.actions[0]


def _with_move(step: StepSyntax, index: int, move: Move, ground: Ground) -> StepSyntax:
    assert step.line is not None
    actions = list(step.line.actions)
    actions[index] = action_of(move, actions[index].span, ground)
    return replace(step, line=replace(step.line, actions=tuple(actions)))


def _without(step: StepSyntax, index: int) -> StepSyntax:
    assert step.line is not None
    actions = step.line.actions
    return replace(step, line=replace(step.line, actions=(*actions[:index], *actions[index + 1 :])))


def _added(before: StepSyntax, slipped: Slipped, moves: Sequence[Move], ground: Ground) -> StepSyntax:
    assert before.line is not None
    token = before.line.text
    actions = tuple(action_of(move, token.span, ground) for move in moves)
    return StepSyntax(before.span, MoveLine(token, actions, silent=token if slipped.unheard else None))
