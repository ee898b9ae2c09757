"""A block read as it was likely meant: its lines with the one slip put right, and the finding that says so."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from fingerpost.course.ground import Ground
from fingerpost.course.meant.edits import Began, Missing, OneEdit, Struck, Surplus, Swapped, Word
from fingerpost.course.meant.one_slip import Found
from fingerpost.course.meant.thread import Thread, strum_of_start
from fingerpost.course.moves import move_of
from fingerpost.course.slip import error
from fingerpost.course.words import quoted
from fingerpost.diagnostics import Code, Diagnostic, Span
from fingerpost.music import chord_symbol
from fingerpost.music.chord import Chord
from fingerpost.music.move import Move, Place, Strum, write_move
from fingerpost.music.shape import Press
from fingerpost.music.shape_text import write_shape
from fingerpost.source.grammar import read_move
from fingerpost.source.syntax import (
    Action,
    BlockSyntax,
    FingersStart,
    LiftFinger,
    MoveLine,
    PlaceFinger,
    ShapeStart,
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
        if isinstance(edit, Began | Struck):
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
        case Began() | Struck():
            return Corrected(old, old)


def _action(move: Move, span: Span, ground: Ground) -> Action:
    line = read_move(Token(write_move(move, ground.fretboard.tuning), span)).value
    assert line is not None
    return line.actions[0]


def _with_move(step: StepSyntax, index: int, move: Move, ground: Ground) -> StepSyntax:
    assert step.line is not None
    actions = list(step.line.actions)
    actions[index] = _action(move, actions[index].span, ground)
    return replace(step, line=replace(step.line, actions=tuple(actions)))


def _added(before: StepSyntax, slipped: Slipped, moves: Sequence[Move], ground: Ground) -> StepSyntax:
    assert before.line is not None
    token = before.line.text
    actions = tuple(_action(move, token.span, ground) for move in moves)
    return StepSyntax(before.span, MoveLine(token, actions, silent=token if slipped.unheard else None))


def finding(slipped: Slipped, syntax: BlockSyntax, first: Diagnostic, ground: Ground) -> Diagnostic:
    """The finding at the slip itself. syntax: its block. first: what is said where the lines first deny each other."""
    edit, at = slipped.edit, slipped.line
    if isinstance(edit, Began | Struck):
        span, fix = began(edit, syntax, ground)
        message = first.message if _is_on(first, span) else f"With this start {_cant(first, span)}"
        return error(span, first.code, message, f"`{fix}`, with which all that follows holds", fix)
    lines = [step.line for step in syntax.steps if step.line is not None]
    if isinstance(edit, Missing):
        name = "" if slipped.shows is None else f" = {chord_symbol.write(slipped.shows, ground.style)}"
        return _missing(lines, at, step_text(edit.moves, slipped.unheard, ground) + name, first)
    line = lines[at]
    span = line.text.span
    match edit:
        case Word(_, index, move):
            return _other_word(line, index, move, first, ground)
        case Swapped(_):
            message = f"This step and the next seem to stand in the wrong order: {_said(first, span)}"
            expected, fix = "the next step before this one", "Put the next step above this one."
            return error(span, first.code, message, expected, fix)
        case Surplus(_):
            message = f"This step seems to be one too many: {_said(first, span)}"
            return error(span, first.code, message, "the steps without it, which all hold", "Leave this step out.")


def _other_word(line: MoveLine, index: int, move: Move, first: Diagnostic, ground: Ground) -> Diagnostic:
    action, fix = line.actions[index], write_move(move, ground.fretboard.tuning)
    span = _word(action, move, ground)
    if not _is_here(first, line):
        message = f"With this {_what(action, span)} {_cant(first, span)}"
        return error(span, first.code, message, f"`{fix}`, with which all that follows holds", fix)
    if line.name is not None and first.code in OF_NAMES:
        name = f", or the name {first.fix}" if first.span == line.name.symbol.span else ""
        message = f"This move does not make {quoted(line.name.symbol.text)}"
        return error(span, first.code, message, f"`{fix}`{name}", fix)
    return error(span, first.code, first.message, first.expected, fix)


def _is_here(first: Diagnostic, line: MoveLine) -> bool:
    """Whether what is denied first is this very step."""
    name = None if line.name is None else line.name.symbol.span
    return _is_on(first, line.text.span) or (name is not None and _is_on(first, name))


def _is_on(first: Diagnostic, span: Span) -> bool:
    return (first.span.file, first.span.line) == (span.file, span.line)


def _missing(lines: Sequence[MoveLine], at: int, step: str, first: Diagnostic) -> Diagnostic:
    """The finding at the line above which a step is missing, or at the last line, below which it is."""
    where = "above" if at < len(lines) else "below"
    span = lines[min(at, len(lines) - 1)].actions[0].span
    message = f"A step seems to be missing {where} this line: {_said(first, span)}"
    expected = f"`{step}` {where} it, with which all that follows holds"
    return error(span, first.code, message, expected, f"Write `{step}` {where} this line.")


def step_text(moves: Sequence[Move], unheard: bool, ground: Ground) -> str:
    """The line of a step that is missing."""
    text = "- " + ", ".join(write_move(move, ground.fretboard.tuning) for move in moves)
    return f"{text} silent" if unheard else text


def _said(first: Diagnostic, span: Span) -> str:
    return ("" if _is_on(first, span) else f"on {_line(first, span)} ") + _lowered(first)


def _cant(first: Diagnostic, span: Span) -> str:
    return f"{_line(first, span)} can't hold: {_lowered(first)}"


def _line(first: Diagnostic, span: Span) -> str:
    return f"line {first.span.line}" + ("" if first.span.file == span.file else f" of {first.span.file}")


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


def began(edit: Began | Struck, syntax: BlockSyntax, ground: Ground) -> tuple[Span, str]:
    """The word of the start that differs, and what to write for it."""
    start = syntax.start
    form = None if start is None else start.form
    if isinstance(edit, Struck):
        strum, fix = strum_of_start(syntax), write_move(Strum(edit.shape.struck), ground.fretboard.tuning)
        assert strum is not None
        return strum.span, fix if syntax.strum is None else fix.removeprefix("strum ")
    if isinstance(form, ShapeStart):
        return form.shape.span, write_shape(edit.shape)
    assert start is not None
    assert isinstance(form, FingersStart)
    fix = _put(edit.new, ground)
    for action in form.actions:
        if isinstance(action, PlaceFinger) and move_of(action, ground.fretboard) == _place(edit.old):
            return _word(action, _place(edit.new), ground), fix
    return start.text.span, fix


def _place(press: Press) -> Place:
    assert press.finger is not None
    return Place(press.finger, press.fret, press.low, press.high)


def _put(press: Press, ground: Ground) -> str:
    """`2 E3`: a finger and its place as a start writes them."""
    return write_move(_place(press), ground.fretboard.tuning).replace(" to ", " ", 1)
