"""A start that no hand can hold, read again: the one word of it with which it holds, and all that follows."""

from __future__ import annotations

from collections.abc import Iterator

from fingerpost.course.ground import Ground
from fingerpost.course.meant.corrected import Slipped
from fingerpost.course.meant.edits import OfStart
from fingerpost.course.meant.search import START, Candidate, Search
from fingerpost.course.meant.second_reading import MOST_LINES, Begin, denials
from fingerpost.course.meant.slip_finding import finding
from fingerpost.course.meant.starts_near import can_begin, starts_near
from fingerpost.course.meant.thread import Thread, strum_of_start
from fingerpost.course.meant.trial import Trial
from fingerpost.course.meant.weighing import Weighing
from fingerpost.course.moves import move_of, strum_of
from fingerpost.course.perform import Held
from fingerpost.course.slip import Slip
from fingerpost.course.start import shape_of
from fingerpost.course.steps import Walk
from fingerpost.diagnostics import Diagnostic
from fingerpost.music.move import Place
from fingerpost.music.shape import Press, Shape, open_shape
from fingerpost.source.syntax import BlockSyntax, FingersStart, PlaceFinger, ShapeStart, StrumStrings


def start_again(first: Diagnostic, thread: Thread, ground: Ground, begin: Begin) -> Walk | None:
    """The walk from the start as it was likely meant, with one finding at its word; None where nothing tells.

    first: what is said of the start as it is written.
    """
    own = thread.alone.strands[-1]
    if len(own.lines) > MOST_LINES or not own.whole:
        return None
    for tried in dict.fromkeys([Thread(thread.strands[thread.own :]), Thread((own,))]):
        best = _likeliest(tried, ground)
        again = None if best is None else begin(Held(best.shape))
        if best is None or again is None:
            continue
        again.go(own.syntax.steps, {})
        if not denials(again.findings):
            again.findings.append(finding(Slipped(best, 0, -1), own.syntax, first, ground))
            return again
    return None


def _likeliest(thread: Thread, ground: Ground) -> OfStart | None:
    syntax = thread.strands[0].syntax
    said = None if syntax.start is None else syntax.start.name
    if not any(name is not None and name.strict for name in (said, *(row.name for row in thread.rows))):
        return None
    trial = Trial(thread.rows, ground)
    weighing = Weighing(Search(thread, trial, [thread.start], -1))
    found = list[Candidate]()
    for edit in _others(syntax, ground):
        held = Held(edit.shape)
        if can_begin(edit.shape, said, ground) and trial.holds(held, 0):
            found.append(Candidate(START, edit, held, 0, held))
    best = min(found, key=weighing.of, default=None)
    return best.edit if best is not None and isinstance(best.edit, OfStart) else None


def _others(syntax: BlockSyntax, ground: Ground) -> Iterator[OfStart]:
    """The start with every one of its slips put right that it may have."""
    written = _written(syntax, ground)
    if written is not None:
        yield from starts_near(*written, ground)


def _written(syntax: BlockSyntax, ground: Ground) -> tuple[tuple[Press, ...], Shape] | None:
    """What the words of the start press, possible or not, and an open hand with what they have struck."""
    form = None if syntax.start is None else syntax.start.form
    if isinstance(form, ShapeStart):
        return _of_shape(form, ground)
    if not isinstance(form, FingersStart) or not all(isinstance(a, PlaceFinger | StrumStrings) for a in form.actions):
        return None
    try:
        moves = [move_of(action, ground.fretboard) for action in form.actions]
        strum = strum_of_start(syntax)
        open_hand = open_shape(ground.fretboard.strings)
        struck = open_hand if strum is None else open_hand.with_struck(strum_of(strum, ground.fretboard).strings)
    except Slip:
        return None
    return tuple(move.press for move in moves if isinstance(move, Place)), struck


def _of_shape(form: ShapeStart, ground: Ground) -> tuple[tuple[Press, ...], Shape] | None:
    try:
        shape = shape_of(form.shape, ground)
    except Slip:
        return None
    return shape.presses, shape.with_presses(())
