"""The edits that are tried where the lines of a thread deny each other, the likeliest kinds first."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from fingerpost.course.agreement import agrees
from fingerpost.course.ground import Ground
from fingerpost.course.meant.edits import Began, Struck, Surplus, Swapped, Word
from fingerpost.course.meant.likely_move import moves_near
from fingerpost.course.meant.ready_line import is_held
from fingerpost.course.meant.search import (
    FRETS_TRIED,
    LINE_AWAY,
    LINES_BACK,
    OTHER_KIND,
    START,
    SURPLUS,
    SWAP,
    TWICE,
    WORD,
    Candidate,
    Search,
    moved_by,
    strums,
    touched,
)
from fingerpost.course.meant.steps_missing import helpful, missing
from fingerpost.course.meant.thread import Joint, strum_of_start
from fingerpost.course.meant.trial import Trial
from fingerpost.music.move import Move, Place
from fingerpost.music.shape import Finger, Press, Shape
from fingerpost.source.syntax import (
    ExchangeFinger,
    FingersStart,
    Hold,
    LiftFinger,
    NameSaid,
    PlaceFinger,
    ShapeStart,
    StrumStrings,
)

FINGERS = (Finger.INDEX, Finger.MIDDLE, Finger.RING, Finger.LITTLE)


def candidates(search: Search) -> Iterator[Candidate]:
    """The edits to be tried."""
    for at in search.near:
        yield from _words(search, at)
    if search.denied <= LINES_BACK:
        yield from _starts(search)
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
    if isinstance(action, LiftFinger) and action.finger.text in "1234":
        yield from _places(Finger.from_mark(action.finger.text), trial.ground)


def _places(finger: Finger, ground: Ground) -> Iterator[Move]:
    board, widest = ground.fretboard, ground.hand.limits.bar_strings[finger - 1]
    frets = range(1, min(FRETS_TRIED, board.highest_fret) + 1)
    for fret in frets:
        yield from (Place(finger, fret, s, s) for s in range(1, board.strings + 1))
    if finger is Finger.INDEX:
        for fret in frets:
            yield from (Place(finger, fret, s, 1) for s in range(2, min(widest, board.strings) + 1))


def _starts(search: Search) -> Iterator[Candidate]:
    trial, start = search.trial, search.thread.start
    syntax = search.thread.strands[0].syntax
    said = None if syntax.start is None else syntax.start.name
    away = LINE_AWAY * search.denied / 2
    if syntax.start is None or not isinstance(syntax.start.form, FingersStart | ShapeStart):
        return
    for old in start.shape.presses:
        others = tuple(press for press in start.shape.presses if press != old)
        for new in places_near(old, trial.ground):
            if any(new.clashes(press) or new.finger == press.finger for press in others):
                continue
            if search.undone(frozenset(p.finger.mark for p in (old, new) if p.finger is not None), 0):
                continue
            shape = start.shape.with_presses((*others, new))
            if can_begin(shape, said, trial):
                yield Candidate(START + away, Began(old, new, shape), replace(start, shape=shape), 0, start)
    restruck = strum_of_start(syntax) is not None and not search.undone(frozenset({"strum"}), 0)
    for strum in strums(trial.ground) if restruck else ():
        shape = start.shape.with_struck(strum.strings)
        if shape is not start.shape and can_begin(shape, said, trial):
            yield Candidate(START + away, Struck(shape), replace(start, shape=shape), 0, start)


def can_begin(shape: Shape, said: NameSaid | None, trial: Trial) -> bool:
    """Whether a hand can hold a start, and the name that it claims agrees."""
    ground = trial.ground
    return agrees(shape, said, ground) is not False and is_held(shape, ground)


def places_near(press: Press, ground: Ground) -> Iterator[Press]:
    """Places that differ in one word: the finger, the fret, the string."""
    board = ground.fretboard
    yield from (replace(press, finger=finger) for finger in FINGERS if finger != press.finger)
    yield from (replace(press, fret=fret) for fret in range(1, FRETS_TRIED + 1) if fret != press.fret)
    if not press.is_bar:
        yield from (replace(press, low=s, high=s) for s in range(1, board.strings + 1) if s != press.low)


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
