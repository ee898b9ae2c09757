"""The edits that are tried where the lines of a thread deny each other, the likeliest kinds first."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from contextlib import suppress
from dataclasses import dataclass, replace
from functools import cached_property

from fingerpost.course.edits import Began, Missing, OneEdit, Struck, Surplus, Swapped, Word
from fingerpost.course.ground import Ground
from fingerpost.course.likely_move import moves_near
from fingerpost.course.moves import move_of, strum_of
from fingerpost.course.perform import Held
from fingerpost.course.slip import Slip
from fingerpost.course.thread import Joint, Thread, strum_of_start
from fingerpost.course.trial import Trial, agrees
from fingerpost.music.move import Exchange, ImpossibleMove, Lift, Move, Mute, Place, Strum, apply_all
from fingerpost.music.neighbours import steps as moves_of
from fingerpost.music.shape import Finger, Press, Shape
from fingerpost.source.syntax import (
    Action,
    ExchangeFinger,
    FingersStart,
    Hold,
    LiftFinger,
    MuteString,
    NameSaid,
    PlaceFinger,
    ShapeStart,
    StrumStrings,
)

LINES_BACK = 12
"""How many lines above the one that is denied may hold the slip. By our own choice."""

FRETS_TRIED = 5
FEWEST = 3
"""At least so many strings are struck where a wrong strum is looked for."""
FINGERS = (Finger.INDEX, Finger.MIDDLE, Finger.RING, Finger.LITTLE)

WORD, START, SWAP, TWICE, MISSING, SURPLUS = 1.0, 1.1, 1.3, 1.0, 1.5, 2.5
"""How unlikely each kind of slip is. By our own choice, as are the weights below."""
OTHER_KIND = 0.3
AND_STRUM = 0.2
LINE_AWAY = 0.05


@dataclass(frozen=True)
class Candidate:
    """An edit: the hand after it, the first line to hold from there, the hand before it; cost: how unlikely."""

    cost: float
    edit: OneEdit
    held: Held
    first: int
    before: Held


@dataclass(frozen=True)
class Search:
    """Where edits are looked for: the hand before each line up to the one that is denied (-1: the start's name)."""

    thread: Thread
    trial: Trial
    befores: Sequence[Held]
    denied: int

    @cached_property
    def moved(self) -> tuple[frozenset[str], ...]:
        """For each line up to the denied one, the fingers (and `strum`) that it or one below it moves, above that."""
        out = [frozenset[str]()]
        for row in reversed(self.trial.rows[: max(0, self.denied)]):
            strum = {"strum"} if isinstance(row, Joint) and row.strum is not None else set()
            out.append(out[-1].union(strum, *(touched(action) for action in row.actions)))
        return tuple(reversed(out))

    def undone(self, fingers: frozenset[str], at: int) -> bool:
        """Whether what an edit does to these is undone by the lines from `at` on before it could be told."""
        return fingers <= self.moved[min(at, len(self.moved) - 1)]

    def touches(self, moves: Sequence[Move], at: int) -> bool:
        """Whether a line from the one at `at` on moves one of these fingers too, above the one that is denied."""
        return not frozenset().union(*map(_moves, moves)).isdisjoint(self.moved[min(at, len(self.moved) - 1)])

    @cached_property
    def helpful(self) -> tuple[tuple[Move, ...], ...]:
        """The steps with which, right above the line that is denied, all would hold; perhaps with another strum.

        An edit further above comes to the same there, unless a line between moves the same finger.
        """
        steps = list(_steps(self))
        found = list(_helpful(self, steps, None))
        alone = {moves[0] for moves in found}
        steps = [step for step in steps if step[0] in alone] or steps
        for struck in _struck_otherwise(self):
            found += _helpful(self, [*steps, *_on_unstruck(self)], struck)
        if len(found) > MOST_HELPFUL:
            written = _written(self.trial)
            found.sort(key=lambda moves: moves[0] not in written)
        return tuple(found[:MOST_HELPFUL])

    @property
    def near(self) -> range:
        """The lines that may hold the slip, from the one that is denied upwards."""
        return range(self.denied, max(0, self.denied - LINES_BACK) - 1, -1)

    def away(self, at: int) -> float:
        """What it costs that a line stands so far above."""
        return LINE_AWAY * (self.denied - at)


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
    for at in search.near:
        yield from _missing(search, at)


def touched(action: Action) -> frozenset[str]:
    """The marks of the fingers that an action moves; `strum` where it changes what is struck."""
    match action:
        case PlaceFinger(finger) | LiftFinger(finger):
            return frozenset({finger.text.upper()})
        case ExchangeFinger(finger, replaced):
            return frozenset({finger.text, replaced.text})
        case MuteString(_, finger):
            return frozenset({"strum"} if finger is None else ())
        case StrumStrings():
            return frozenset({"strum"})
    return frozenset()


def _moves(move: Move) -> frozenset[str]:
    match move:
        case Place(finger) | Lift(finger):
            return frozenset({finger.mark})
        case Exchange(finger, replaced):
            return frozenset({finger.mark, replaced.mark})
    return frozenset({"strum"})


def _words(search: Search, at: int) -> Iterator[Candidate]:
    trial, before = search.trial, search.befores[at]
    for index, action in enumerate(trial.rows[at].actions):
        for move in _other_moves(action, before.shape, trial):
            if search.undone(touched(action) | _moves(move), at + 1):
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


def strums(ground: Ground) -> Iterator[Strum]:
    """Strums that leave out the lowest strings, none to all but three."""
    for last in range(ground.fretboard.strings, FEWEST - 1, -1):
        yield Strum(frozenset(range(1, last + 1)))


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
        struck = frozenset(range(1, start.shape.strings + 1)) - strum.strings
        shape = replace(start.shape, unstruck=struck)
        if struck != start.shape.unstruck and can_begin(shape, said, trial):
            yield Candidate(START + away, Struck(shape), replace(start, shape=shape), 0, start)


def can_begin(shape: Shape, said: NameSaid | None, trial: Trial) -> bool:
    """Whether a hand can hold a start, and the name that it claims agrees."""
    ground = trial.ground
    return agrees(shape, said, ground) is not False and not ground.hand.faults(shape, ground.fretboard)


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


def _missing(search: Search, at: int) -> Iterator[Candidate]:
    """The steps that may be missing before a line: of those that would let all hold, what can be done there."""
    if not _may_miss(search, at):
        return
    before = search.befores[at]
    for moves in search.helpful:
        shape = _moved(before.shape, moves, search.trial.ground)
        if shape is not None and not search.touches(moves, at):
            cost = MISSING + AND_STRUM * (len(moves) > 1) + search.away(at)
            yield Candidate(cost, Missing(at, moves), replace(before, shape=shape), at, before)


def _moved(shape: Shape, moves: Sequence[Move], ground: Ground) -> Shape | None:
    """The shape after moves that the hand can make; None where it can't."""
    try:
        shape = apply_all(shape, moves)
    except ImpossibleMove:
        return None
    return None if ground.hand.faults(shape, ground.fretboard) else shape


def _may_miss(search: Search, at: int) -> bool:
    """Whether a step can stand before this row: on the neck, and not where only the start of a block leads on."""
    before, place = search.befores[at], search.thread.places
    if before.resting or not before.shape.has_fingers:
        return False
    ends = at < len(place) and place[at].line < 0
    return not ends or search.thread.strands[place[at].strand - 1].upto is None


def _written(trial: Trial) -> set[Move]:
    """The placements that the thread writes anyway."""
    out = set[Move]()
    for row in trial.rows[:MOST_ROWS_ASKED]:
        for action in row.actions:
            if isinstance(action, PlaceFinger):
                with suppress(Slip):
                    out.add(move_of(action, trial.ground.fretboard))  # type: ignore[arg-type]
    return out


def _helpful(
    search: Search, steps: Sequence[tuple[Move, Shape]], unstruck: frozenset[int] | None
) -> Iterator[tuple[Move, ...]]:
    before, trial = search.befores[-1], search.trial
    shape = before.before_rest or before.shape
    strum = () if unstruck is None else (Strum(frozenset(range(1, shape.strings + 1)) - unstruck),)
    for move, after in steps:
        after = replace(after, unstruck=shape.unstruck if unstruck is None else unstruck)
        if isinstance(move, Place) and unstruck is not None and unstruck.issuperset(move.press.strings):
            continue
        held = replace(before, before_rest=after) if before.resting else replace(before, shape=after)
        if trial.holds(held, search.denied):
            yield (move, *strum)


def _steps(search: Search) -> Iterator[tuple[Move, Shape]]:
    """Every move of one finger at the line that is denied, with the shape after it; in a rest, of the one before."""
    before, ground = search.befores[-1], search.trial.ground
    shape = before.before_rest or before.shape
    if search.denied < 0 or not shape.has_fingers:
        return
    for step in moves_of(shape, ground.fretboard, ground.hand, FRETS_TRIED, unseen=True):
        if step.strum is None:
            yield step.move, step.shape
    yield from _wider(shape, ground)


def _on_unstruck(search: Search) -> Iterator[tuple[Move, Shape]]:
    """The same for placements on strings that are not struck there."""
    before, ground = search.befores[-1], search.trial.ground
    shape = before.before_rest or before.shape
    for step in moves_of(shape, ground.fretboard, ground.hand, FRETS_TRIED) if search.denied >= 0 else ():
        if step.strum is not None:
            yield step.move, step.shape


def _wider(shape: Shape, ground: Ground) -> Iterator[tuple[Move, Shape]]:
    """The index finger laid over strings that other fingers press in front of it, from where it is."""
    press = shape.press_of(Finger.INDEX)
    if press is None:
        return
    for low in range(press.low, shape.strings + 1):
        for high in range(press.high, 0, -1):
            move = Place(Finger.INDEX, press.fret, low, high)
            after = None if (low, high) == (press.low, press.high) else _moved(shape, [move], ground)
            if after is not None:
                yield move, after


def _struck_otherwise(search: Search) -> list[frozenset[int]]:
    """What may be left unstruck from the step that is missing on: as elsewhere in the thread, or as is usual."""
    strings, board = frozenset(range(1, search.thread.start.shape.strings + 1)), search.trial.ground.fretboard
    out = dict.fromkeys([search.thread.start.shape.unstruck])
    for row in search.trial.rows[:MOST_ROWS_ASKED]:
        for action in row.actions:
            if isinstance(action, StrumStrings):
                with suppress(Slip):
                    out.setdefault(strings - strum_of(action, board).strings)
    if len(out) == 1:
        return []
    out.update(dict.fromkeys(strings - strum.strings for strum in strums(search.trial.ground)))
    return [struck for struck in out if struck != search.befores[-1].shape.unstruck][:MOST_STRUMS]


MOST_ROWS_ASKED, MOST_STRUMS, MOST_HELPFUL = 200, 4, 32


def damping(search: Search, at: int) -> Iterator[Candidate]:
    """Every string that a finger that is down could damp before a line."""
    before, ground = search.befores[at], search.trial.ground
    for finger in before.shape.fingers if _may_miss(search, at) else ():
        for string in range(1, before.shape.strings + 1):
            press = before.shape.press_of(finger)
            if press is None or press.covers(string) or before.shape.fret(string) is None:
                continue
            shape = replace(before.shape, damped=(*before.shape.damped, (string, finger)))
            if not ground.hand.faults(shape, ground.fretboard):
                held = replace(before, shape=shape)
                yield Candidate(MISSING + search.away(at), Missing(at, (Mute(string, finger),)), held, at, before)
