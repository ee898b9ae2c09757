"""The words at which a slip stands, and what to write for them."""

from __future__ import annotations

from dataclasses import dataclass

from fingerpost.course.ground import Ground
from fingerpost.course.meant.corrected import action_of
from fingerpost.course.meant.edits import Began, OfStart, PutToo, Struck, Turned
from fingerpost.course.meant.thread import strum_of_start
from fingerpost.course.moves import move_of
from fingerpost.course.slip import Slip
from fingerpost.diagnostics import Span
from fingerpost.music.move import Move, Place, Strum, write_move
from fingerpost.music.shape import Press
from fingerpost.music.shape_text import write_shape
from fingerpost.source.syntax import Action, BlockSyntax, FingersStart, LiftFinger, PlaceFinger, ShapeStart, Start


def what(action: Action, span: Span) -> str:
    """What the words are of an action."""
    if isinstance(action, PlaceFinger | LiftFinger) and span == action.finger.span:
        return "finger"
    if isinstance(action, PlaceFinger) and span == action.place.fret.span:
        return "fret"
    if isinstance(action, PlaceFinger) and span == action.place.low.span:
        return "string"
    if isinstance(action, PlaceFinger) and span.end_column == action.place.fret.span.end_column:
        return "place"
    return "move"


def word(action: Action, move: Move, ground: Ground) -> Span:
    """The word that differs, or the whole move."""
    new = action_of(move, action.span, ground)
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
    if old.low == old.high and {old.low.span, old.fret.span} == set(changed):
        return old.low.span.to(old.fret.span)
    if len(changed) == 1 or (same_string and changed):
        return changed[0]
    return old.low.span if changed and old.low == old.high and old.fret.text == place.fret.text else action.span


@dataclass(frozen=True)
class InStart:
    """Where a slip of a start stands, what to do about it, the words that were meant, and what it seems to be ("": a
    wrong word)."""

    span: Span
    fix: str
    words: str
    seems: str = ""


def in_start(edit: OfStart, syntax: BlockSyntax, ground: Ground) -> InStart:
    """The words of the start that differ, and what to write for them."""
    start = syntax.start
    if isinstance(edit, Struck):
        return _struck(edit, syntax, ground)
    assert start is not None
    if isinstance(start.form, ShapeStart):
        text = write_shape(edit.shape)
        return InStart(start.form.shape.span, text, text, _seems(edit))
    assert isinstance(start.form, FingersStart)
    return _of_fingers(edit, start, start.form, ground)


def _seems(edit: OfStart) -> str:
    if isinstance(edit, Turned):
        return "Two fingers of this start seem to stand each in the place of the other"
    return "A finger seems to be missing in this start" if isinstance(edit, PutToo) else ""


def _of_fingers(edit: Began | Turned | PutToo, start: Start, form: FingersStart, ground: Ground) -> InStart:
    put = {_place_of(action, ground): action for action in form.actions if isinstance(action, PlaceFinger)}
    match edit:
        case Began(old, new):
            action, text = put[_place(old)], _put(new, ground)
            return InStart(word(action, _place(new), ground), text, text)
        case Turned(one, other):
            first, last = sorted((put[_place(one)], put[_place(other)]), key=lambda action: action.span)
            span = first.span.to(last.span)
            text = _exchanged(_text(start, span), first, last)
            return InStart(span, text, text, _seems(edit))
        case PutToo(press):
            action = list(put.values())[-1]
            text = f"{_text(start, action.span)}, {_put(press, ground)}"
            return InStart(action.span, text, text, _seems(edit))


def _text(start: Start, span: Span) -> str:
    first = span.column - start.text.span.column
    return start.text.text[first : first + span.end_column - span.column]


def _exchanged(text: str, first: PlaceFinger, last: PlaceFinger) -> str:
    """The words from one finger's place to the other's with their fingers exchanged."""
    at = last.finger.span.column - first.finger.span.column
    one, other = first.finger.text, last.finger.text
    return other + text[len(one) : at] + one + text[at + len(other) :]


def _struck(edit: Struck, syntax: BlockSyntax, ground: Ground) -> InStart:
    strum, text = strum_of_start(syntax), write_move(Strum(edit.shape.struck), ground.fretboard.tuning)
    if strum is not None:
        text = text if syntax.strum is None else text.removeprefix("strum ")
        return InStart(strum.span, text, text)
    line = "strum: " + text.removeprefix("strum ")
    span, where = start_line(syntax)
    seems = f"What is struck seems to be missing {where} this line"
    return InStart(span, f"Write `{line}` {where} this line.", line, seems)


def start_line(syntax: BlockSyntax) -> tuple[Span, str]:
    """The line of a block at which a key is missing, and on which side of it."""
    if syntax.start is not None:
        return syntax.start.text.span, "above"
    return (syntax.id.span, "below") if syntax.id is not None else (syntax.steps[0].span, "above")


def _place_of(action: PlaceFinger, ground: Ground) -> Move | None:
    try:
        return move_of(action, ground.fretboard)
    except Slip:
        return None


def _place(press: Press) -> Place:
    assert press.finger is not None
    return Place(press.finger, press.fret, press.low, press.high)


def _put(press: Press, ground: Ground) -> str:
    """`2 E3`: a finger and its place as a start writes them."""
    return write_move(_place(press), ground.fretboard.tuning).replace(" to ", " ", 1)
