"""The edits that are tried where the lines of a thread deny each other, the likeliest kinds first."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from fingerpost.course.meant.edits import OfStart, PutToo, Redundant, Struck, Surplus, Swapped, Turned, Word
from fingerpost.course.meant.likely_move import moves_near
from fingerpost.course.meant.search import (
    AFTER_STRUM,
    FINGER_LEFT_OUT,
    LINE_AWAY,
    LINES_BACK,
    OTHER_KIND,
    START,
    STRING_LESS,
    STRUM_LEFT_OUT,
    SURPLUS,
    SWAP,
    TURNED,
    TWICE,
    WORD,
    WORDS_TOO_MANY,
    Candidate,
    Search,
    moved_by,
    strums,
    touched,
)
from fingerpost.course.meant.starts_near import can_begin, fingers_of, places, starts_near
from fingerpost.course.meant.steps_missing import helpful, missing
from fingerpost.course.meant.thread import Joint, strum_of_start
from fingerpost.course.meant.trial import Trial
from fingerpost.music.move import Move, Place
from fingerpost.music.shape import Finger, Shape
from fingerpost.source.syntax import (
    ExchangeFinger,
    FingersStart,
    Hold,
    LiftFinger,
    MuteString,
    PlaceFinger,
    ShapeStart,
    StrumStrings,
)


def candidates(search: Search) -> Iterator[Candidate]:
    """The edits to be tried."""
    for at in search.near:
        yield from _words(search, at)
    if search.denied <= LINES_BACK:
        yield from _starts(search)
    for at in search.near:
        yield from _words_too_many(search, at)
    for at in search.near:
        yield from _swapped(search, at)
    for at in search.near:
        yield from _surplus(search, at)
    steps = helpful(search)
    for at in search.near:
        yield from missing(search, at, steps)


def _words(search: Search, at: int) -> Iterator[Candidate]:
    trial, before = search.trial, search.befores[at]
    for index, action in enumerate(trial.rows[at].actions):
        for move in _other_moves(action, before.shape, trial):
            if search.undone(touched(action) | moved_by(move), at + 1):
                continue
            after = trial.after(before, at, {index: move})
            if after is not None:
                kind = OTHER_KIND * (isinstance(action, LiftFinger) == isinstance(move, Place))
                yield Candidate(WORD + kind + search.away(at), Word(at, index, move), after, at + 1, before)


def _other_moves(action: object, shape: Shape, trial: Trial) -> Iterator[Move]:
    """Moves that differ in a word."""
    if isinstance(action, PlaceFinger | LiftFinger | ExchangeFinger):
        yield from dict.fromkeys(moves_near(action, shape, trial.ground))
    if isinstance(action, StrumStrings):
        yield from strums(trial.ground)
    if isinstance(action, LiftFinger | MuteString) and action.finger and action.finger.text in "1234":
        down = places(Finger.from_mark(action.finger.text), trial.ground)
        yield from (Place(finger, press.fret, press.low, press.high) for press in down if (finger := press.finger))


def _starts(search: Search) -> Iterator[Candidate]:
    trial, start = search.trial, search.thread.start
    written = search.thread.strands[0].syntax.start
    said, away = None if written is None else written.name, LINE_AWAY * search.denied / 2
    for edit in _other_starts(search):
        if not search.undone(fingers_of(edit), 0) and can_begin(edit.shape, said, trial.ground):
            yield Candidate(_likely(edit, search) + away, edit, replace(start, shape=edit.shape), 0, start)


def _other_starts(search: Search) -> Iterator[OfStart]:
    shape, ground, written = search.thread.start.shape, search.trial.ground, search.thread.strands[0].syntax.start
    form = None if written is None else written.form
    if isinstance(form, FingersStart | ShapeStart):
        yield from starts_near(shape.presses, shape, ground)
    if not isinstance(form, ShapeStart):
        struck = dict.fromkeys(strum.strings for strum in strums(ground))
        yield from (Struck(shape.with_struck(strings)) for strings in struck if strings != shape.struck)


def _likely(edit: OfStart, search: Search) -> float:
    """What it costs, by its kind."""
    if isinstance(edit, PutToo | Turned):
        return FINGER_LEFT_OUT if isinstance(edit, PutToo) else TURNED
    if isinstance(edit, Struck) and strum_of_start(search.thread.strands[0].syntax) is None:
        return STRUM_LEFT_OUT + STRING_LESS * (len(edit.shape.unstruck) - 1)
    return START


def _words_too_many(search: Search, at: int) -> Iterator[Candidate]:
    before, rows = search.befores[at], search.trial.rows
    actions = rows[at].actions
    # Where a step above says what is struck, its words may be the wrong ones, and these be right.
    said = any(isinstance(action, StrumStrings) for row in rows[:at] for action in row.actions)
    cost = WORDS_TOO_MANY + AFTER_STRUM * said + search.away(at)
    for index in range(len(actions)) if len(actions) > 1 else ():
        after = search.trial.without(before, at, index)
        if after is not None:
            yield Candidate(cost, Redundant(at, index), after, at + 1, before)


def _swapped(search: Search, at: int) -> Iterator[Candidate]:
    trial, before, rows = search.trial, search.befores[at], search.trial.rows
    pair = rows[at : at + 2]
    if len(pair) < 2 or any(isinstance(row, Joint) for row in pair):
        return
    between = trial.after(before, at + 1)
    after = None if between is None else trial.after(between, at)
    if after is not None:
        yield Candidate(SWAP + search.away(at), Swapped(at), after, at + 2, before)


def _surplus(search: Search, at: int) -> Iterator[Candidate]:
    before, row = search.befores[at], search.trial.rows[at]
    above = search.trial.rows[at - 1] if at else None
    if isinstance(row, Joint) or before.resting or any(isinstance(action, Hold) for action in row.actions):
        return
    if search.undone(frozenset().union(*(touched(action) for action in row.actions)), at + 1):
        return
    twice = above is not None and not isinstance(above, Joint) and row.text.text == above.text.text
    yield Candidate((TWICE if twice else SURPLUS) + search.away(at), Surplus(at), before, at + 1, before)
