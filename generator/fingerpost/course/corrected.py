"""A block read as it was likely meant: its lines with the one slip put right, and the finding that says so."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from fingerpost.course.ground import Ground
from fingerpost.course.one_slip import Began, Found, Missing, OneEdit, Surplus, Swapped, Word
from fingerpost.course.slip import error
from fingerpost.course.words import quoted
from fingerpost.diagnostics import Code, Diagnostic, Span
from fingerpost.music.move import Move, Place, write_move
from fingerpost.music.shape import Press
from fingerpost.music.shape_text import write_shape
from fingerpost.source.grammar import read_move
from fingerpost.source.syntax import (
    Action,
    FingersStart,
    LiftFinger,
    MoveLine,
    PlaceFinger,
    ShapeStart,
    Start,
    StepSyntax,
    Token,
)

OF_NAMES = (Code.NAME_IS_WRONG, Code.NAME_IS_LOOSE)


@dataclass(frozen=True)
class Corrected:
    """steps: the lines as they were meant. written: for each of them the line that stands in the text."""

    steps: tuple[StepSyntax, ...]
    written: tuple[StepSyntax, ...]


def corrected(steps: Sequence[StepSyntax], edit: OneEdit, ground: Ground) -> Corrected:
    """The steps with an edit made."""
    old = tuple(steps)
    if isinstance(edit, Began):
        return Corrected(old, old)
    at = edit.at
    match edit:
        case Word(at, index, move):
            return Corrected((*old[:at], _with_move(old[at], index, move, ground), *old[at + 1 :]), old)
        case Missing(at, move):
            return Corrected((*old[:at], _added(old[at], move, ground), *old[at:]), (*old[:at], old[at], *old[at:]))
        case Swapped():
            turned = (*old[:at], old[at + 1], old[at], *old[at + 2 :])
            return Corrected(turned, turned)
        case Surplus():
            left = (*old[:at], *old[at + 1 :])
            return Corrected(left, left)


def _action(move: Move, span: Span, ground: Ground) -> Action:
    line = read_move(Token(write_move(move, ground.fretboard.tuning), span)).value
    assert line is not None
    return line.actions[0]


def _with_move(step: StepSyntax, index: int, move: Move, ground: Ground) -> StepSyntax:
    assert step.line is not None
    actions = list(step.line.actions)
    actions[index] = _action(move, actions[index].span, ground)
    return replace(step, line=replace(step.line, actions=tuple(actions)))


def _added(before: StepSyntax, move: Move, ground: Ground) -> StepSyntax:
    assert before.line is not None
    token = before.line.text
    return StepSyntax(before.span, MoveLine(token, (_action(move, token.span, ground),)))


def finding(
    found: Found, steps: Sequence[StepSyntax], start: Start | None, first: Diagnostic, ground: Ground
) -> Diagnostic:
    """The finding at the slip itself. first: what is said where the lines first deny each other."""
    edit = found.edit
    if isinstance(edit, Began):
        assert start is not None
        span, fix = _began(edit, start, ground)
        expected = f"`{fix}`, with which all that follows holds"
        message = first.message if first.span.line == span.line else f"With this start {_cant(first)}"
        return error(span, first.code, message, expected, fix)
    line = steps[edit.at].line
    assert line is not None
    match edit:
        case Word(_, index, move):
            return _other_word(line, index, move, first, ground)
        case Missing(_, move):
            return _missing(line, move, first, ground)
        case Swapped(_):
            message = f"This step and the next seem to stand in the wrong order: {_said(first, line.text.span)}"
            expected, fix = "the next step before this one", "Put the next step above this one."
            return error(line.text.span, first.code, message, expected, fix)
        case Surplus(_):
            message = f"This step seems to be one too many: {_said(first, line.text.span)}"
            expected, fix = "the steps without it, which all hold", "Leave this step out."
            return error(line.text.span, first.code, message, expected, fix)


def _other_word(line: MoveLine, index: int, move: Move, first: Diagnostic, ground: Ground) -> Diagnostic:
    action, fix = line.actions[index], write_move(move, ground.fretboard.tuning)
    span = _word(action, move, ground)
    if not _is_here(first, line):
        message = f"With this {_what(action, span)} {_cant(first)}"
        return error(span, first.code, message, f"`{fix}`, with which all that follows holds", fix)
    if line.name is not None and first.code in OF_NAMES:
        name = f", or the name {first.fix}" if first.span == line.name.symbol.span else ""
        message = f"This move does not make {quoted(line.name.symbol.text)}"
        return error(span, first.code, message, f"`{fix}`{name}", fix)
    return error(span, first.code, first.message, first.expected, fix)


def _is_here(first: Diagnostic, line: MoveLine) -> bool:
    """Whether what is denied first is this very step."""
    name = None if line.name is None else line.name.symbol.span.line
    return first.span.line in (line.text.span.line, name)


def _missing(line: MoveLine, move: Move, first: Diagnostic, ground: Ground) -> Diagnostic:
    span, fix = line.actions[0].span, f"- {write_move(move, ground.fretboard.tuning)}"
    message = f"A step seems to be missing above this line: {_said(first, span)}"
    expected = f"`{fix}` above it, with which all that follows holds"
    return error(span, first.code, message, expected, f"Write `{fix}` above this line.")


def _said(first: Diagnostic, span: Span) -> str:
    there = f"on line {first.span.line} " if first.span.line != span.line else ""
    return there + _lowered(first)


def _cant(first: Diagnostic) -> str:
    return f"line {first.span.line} can't hold: {_lowered(first)}"


def _lowered(first: Diagnostic) -> str:
    return first.message[0].lower() + first.message[1:]


def _what(action: Action, span: Span) -> str:
    if isinstance(action, PlaceFinger | LiftFinger) and span == action.finger.span:
        return "finger"
    if isinstance(action, PlaceFinger) and span == action.place.fret.span:
        return "fret"
    if isinstance(action, PlaceFinger) and span == action.place.low.span:
        return "string"
    return "move"


def _word(action: Action, move: Move, ground: Ground) -> Span:
    """The word that differs, or the whole move."""
    new = _action(move, action.span, ground)
    if isinstance(action, LiftFinger) and isinstance(new, LiftFinger):
        return action.finger.span
    if not isinstance(action, PlaceFinger) or not isinstance(new, PlaceFinger):
        return action.span
    old, place = action.place, new.place
    changed = [
        token.span
        for token, other in (
            (action.finger, new.finger),
            (old.low, place.low),
            (old.fret, place.fret),
            (old.high, place.high),
        )
        if token.text.upper() != other.text.upper()
    ]
    same_string = isinstance(move, Place) and old.low.text == old.high.text == place.low.text == place.high.text
    if len(changed) == 1 or (same_string and changed):
        return changed[0]
    return old.low.span if changed and old.low == old.high and old.fret.text == place.fret.text else action.span


def _began(edit: Began, start: Start, ground: Ground) -> tuple[Span, str]:
    """The word of the start that differs, and what to write for it."""
    if isinstance(start.form, ShapeStart):
        return start.form.shape.span, write_shape(edit.shape)
    assert isinstance(start.form, FingersStart)
    fix = _put(edit.new, ground)
    for action in start.form.actions:
        if isinstance(action, PlaceFinger) and action.finger.text.upper() == edit.old.finger.mark:  # type: ignore[union-attr]
            move = Place(edit.new.finger, edit.new.fret, edit.new.low, edit.new.high)  # type: ignore[arg-type]
            return _word(action, move, ground), fix
    return start.text.span, fix


def _put(press: Press, ground: Ground) -> str:
    """`2 E3`: a finger and its place as a start writes them."""
    assert press.finger is not None
    move = Place(press.finger, press.fret, press.low, press.high)
    return write_move(move, ground.fretboard.tuning).replace(" to ", " ", 1)
