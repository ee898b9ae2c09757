"""Where the lines of a block deny each other: the one small edit that makes all of them hold, if there is one.

A wrong finger is often denied only lines later, where another is to lift it. So the edit is looked for from the first
line that is denied backwards: a word of a line or of the start, a step that is missing, two that stand in the wrong
order, one too many.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from fingerpost.course.ground import Ground
from fingerpost.course.likely_move import moves_near
from fingerpost.course.perform import Held
from fingerpost.course.trial import Trial, agrees
from fingerpost.music.move import Move, Place, Strum
from fingerpost.music.neighbours import steps as moves_of
from fingerpost.music.shape import Finger, Press, Shape
from fingerpost.source.syntax import (
    Back,
    ExchangeFinger,
    Hold,
    LiftFinger,
    MoveLine,
    NameSaid,
    PlaceFinger,
    Rest,
    StrumStrings,
)

LINES_BACK = 8
"""How many lines above the one that is denied may hold the slip. By our own choice."""

FRETS_TRIED = 5
FEWEST = 3
"""At least so many strings are struck where a wrong strum is looked for."""
FINGERS = (Finger.INDEX, Finger.MIDDLE, Finger.RING, Finger.LITTLE)

WORD, START, SWAP, TWICE, MISSING, SURPLUS = 1.0, 1.1, 1.3, 1.3, 1.5, 2.5
"""How unlikely each kind of slip is. By our own choice, as are the weights below."""
OTHER_KIND = 0.3
LINE_AWAY = 0.05
PLACE_MORE = 0.2
NO_FURTHER = 9


@dataclass(frozen=True)
class Word:
    """Another move in place of an action of a line."""

    at: int
    action: int
    move: Move


@dataclass(frozen=True)
class Began:
    """Another start; old and new are the press that differs."""

    old: Press
    new: Press
    shape: Shape


@dataclass(frozen=True)
class Missing:
    """A step that stands before the line at `at`."""

    at: int
    move: Move


@dataclass(frozen=True)
class Swapped:
    """The line at `at` belongs below the next."""

    at: int


@dataclass(frozen=True)
class Surplus:
    """The line at `at` is one too many."""

    at: int


OneEdit = Word | Began | Missing | Swapped | Surplus


@dataclass(frozen=True)
class Found:
    """The edit, the index of the first line that is denied without it (-1: the start's name), and the hand there.

    only_name: what is held after that line where nothing is denied but its name, so that the name may be the slip.
    """

    edit: OneEdit
    denied: int
    only_name: Shape | None


@dataclass(frozen=True)
class _Candidate:
    cost: float
    edit: OneEdit
    held: Held
    first: int
    before: Held


def one_slip(
    start: Held, said: NameSaid | None, changeable: bool, lines: Sequence[MoveLine], ground: Ground
) -> Found | None:
    """The likeliest edit that makes all lines hold; None where all hold as they are, or no one edit does it.

    said: the name that the start claims. changeable: whether the start writes its fingers itself.
    """
    trial = Trial(lines, ground)
    begins = agrees(start.shape, said, ground) is not False
    befores = trial.until_denied(start) if begins else [start]
    denied = len(befores) - 1 if begins else -1
    if denied == len(lines):
        return None
    only_name = _only_name(trial, befores[-1], denied)
    found = list[_Candidate]()
    for candidate in _candidates(trial, start, said, changeable, befores, denied):
        if trial.spent or len(found) >= NO_FURTHER:
            break
        if only_name is not None and isinstance(candidate.edit, Missing | Surplus):
            break
        if _is_told(candidate, lines, denied) and trial.holds(candidate.held, candidate.first):
            found.append(candidate)
    if not found:
        return None
    trial = Trial(lines, ground)
    best = min(found, key=lambda candidate: candidate.cost + PLACE_MORE * _places(trial, candidate, befores))
    return Found(best.edit, denied, only_name)


def _is_told(candidate: _Candidate, lines: Sequence[MoveLine], denied: int) -> bool:
    """Whether a name from the line that is denied on tells that the edit is right; a line left out tells nothing."""
    edit = candidate.edit
    left_out = edit.at if isinstance(edit, Surplus) else None
    ahead = (line.name for at, line in enumerate(lines) if at >= denied and at != left_out)
    return any(name is not None and name.strict for name in ahead)


def _places(trial: Trial, candidate: _Candidate, befores: Sequence[Held]) -> int:
    """How many different places of fingers there are with this edit: the fewer, the more of a piece the block is."""
    upto = candidate.edit.at if not isinstance(candidate.edit, Began) else -1
    earlier = {press for held in befores[: upto + 1] for press in held.shape.presses}
    return len(earlier | trial.presses(candidate.held, candidate.first))


def _only_name(trial: Trial, before: Held, denied: int) -> Shape | None:
    after = before if denied < 0 else trial.performed(before, trial.lines[denied])
    return after.shape if after is not None and trial.holds(after, denied + 1) else None


def _candidates(
    trial: Trial, start: Held, said: NameSaid | None, changeable: bool, befores: Sequence[Held], denied: int
) -> Iterator[_Candidate]:
    first = max(0, denied - LINES_BACK)
    near = range(denied, first - 1, -1)
    for at in near:
        yield from _words(trial, befores[at], at, denied)
    if changeable and first == 0:
        yield from _starts(trial, start, said)
    for at in near:
        yield from _swapped(trial, befores, at, denied)
    for at in near:
        yield from _surplus(trial, befores[at], at, denied)
    for at in near:
        yield from _missing(trial, befores[at], at, denied)


def _words(trial: Trial, before: Held, at: int, denied: int) -> Iterator[_Candidate]:
    line = trial.lines[at]
    for index, action in enumerate(line.actions):
        for move in _other_moves(action, before.shape, trial.ground, line.name is not None and line.name.strict):
            after = trial.after(before, line, {index: move})
            if after is not None:
                kind = OTHER_KIND * (isinstance(action, LiftFinger) == isinstance(move, Place))
                yield _Candidate(WORD + kind + LINE_AWAY * (denied - at), Word(at, index, move), after, at + 1, before)


def _other_moves(action: object, shape: Shape, ground: Ground, named: bool) -> Iterator[Move]:
    """Moves that differ in a word. A lift that should be a placement is told only by a name of its own."""
    if isinstance(action, PlaceFinger | LiftFinger | ExchangeFinger):
        yield from dict.fromkeys(moves_near(action, shape, ground))
    if isinstance(action, StrumStrings) and named:
        yield from (Strum(frozenset(range(1, last + 1))) for last in range(ground.fretboard.strings, FEWEST - 1, -1))
    if isinstance(action, LiftFinger) and action.finger.text in "1234" and named:
        board = ground.fretboard
        for fret in range(1, min(FRETS_TRIED, board.highest_fret) + 1):
            yield from (Place(Finger.from_mark(action.finger.text), fret, s, s) for s in range(1, board.strings + 1))


def _starts(trial: Trial, start: Held, said: NameSaid | None) -> Iterator[_Candidate]:
    for old in start.shape.presses:
        others = tuple(press for press in start.shape.presses if press != old)
        for new in _near(old, trial.ground):
            if any(new.clashes(press) or new.finger == press.finger for press in others):
                continue
            shape = start.shape.with_presses((*others, new))
            if agrees(shape, said, trial.ground) is not False and not trial.ground.hand.faults(
                shape, trial.ground.fretboard
            ):
                yield _Candidate(START, Began(old, new, shape), replace(start, shape=shape), 0, start)


def _near(press: Press, ground: Ground) -> Iterator[Press]:
    """Places that differ in one word: the finger, the fret, the string."""
    board = ground.fretboard
    yield from (replace(press, finger=finger) for finger in FINGERS if finger != press.finger)
    yield from (replace(press, fret=fret) for fret in range(1, FRETS_TRIED + 1) if fret != press.fret)
    if not press.is_bar:
        yield from (replace(press, low=s, high=s) for s in range(1, board.strings + 1) if s != press.low)


def _swapped(trial: Trial, befores: Sequence[Held], at: int, denied: int) -> Iterator[_Candidate]:
    before, lines = befores[at], trial.lines
    if at + 1 >= len(lines) or any(isinstance(a, Rest | Back) for line in lines[at : at + 2] for a in line.actions):
        return
    between = trial.after(before, lines[at + 1])
    after = None if between is None else trial.after(between, lines[at])
    if after is not None:
        yield _Candidate(SWAP + LINE_AWAY * (denied - at), Swapped(at), after, at + 2, before)


def _surplus(trial: Trial, before: Held, at: int, denied: int) -> Iterator[_Candidate]:
    lines = trial.lines
    if not before.resting and not any(isinstance(action, Hold) for action in lines[at].actions):
        kind = TWICE if at and _same(lines[at], lines[at - 1]) else SURPLUS
        yield _Candidate(kind + LINE_AWAY * (denied - at), Surplus(at), before, at + 1, before)


def _same(one: MoveLine, other: MoveLine) -> bool:
    return one.text.text == other.text.text


def _missing(trial: Trial, before: Held, at: int, denied: int) -> Iterator[_Candidate]:
    if before.resting or not before.shape.has_fingers:
        return
    ground, struck = trial.ground, before.shape.unstruck
    for step in moves_of(before.shape, ground.fretboard, ground.hand, FRETS_TRIED, unseen=True):
        if step.strum is None:
            shape = replace(step.shape, unstruck=struck)
            cost = MISSING + LINE_AWAY * (denied - at)
            yield _Candidate(cost, Missing(at, step.move), replace(before, shape=shape), at, before)
