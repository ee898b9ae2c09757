"""Steps that may be missing in a thread whose lines deny each other."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from contextlib import suppress
from dataclasses import replace

from fingerpost.course.ground import Ground
from fingerpost.course.meant.edits import Missing
from fingerpost.course.meant.ready_line import is_held
from fingerpost.course.meant.search import AND_STRUM, FRETS_TRIED, MISSING, Candidate, Search, strums
from fingerpost.course.meant.trial import Trial
from fingerpost.course.moves import move_of, strum_of
from fingerpost.course.slip import Slip
from fingerpost.music.move import ImpossibleMove, Move, Mute, Place, Strum, apply_all
from fingerpost.music.neighbours import steps as moves_of
from fingerpost.music.shape import Finger, Shape
from fingerpost.source.syntax import PlaceFinger, StrumStrings

MOST_ROWS_ASKED, MOST_STRUMS, MOST_HELPFUL = 200, 4, 32


def helpful(search: Search) -> tuple[tuple[Move, ...], ...]:
    """The steps with which, right above the line that is denied, all would hold; perhaps with another strum.

    An edit further above comes to the same there, unless a line between moves the same finger.
    """
    steps = list(_steps(search))
    found = list(_helpful(search, steps, None))
    alone = {moves[0] for moves in found}
    steps = [step for step in steps if step[0] in alone] or steps
    strums_tried = _struck_otherwise(search)
    steps += _on_unstruck(search) if strums_tried else ()
    for struck in strums_tried:
        found += _helpful(search, steps, struck)
    if len(found) > MOST_HELPFUL:
        written = _written(search.trial)
        found.sort(key=lambda moves: moves[0] not in written)
    return tuple(found[:MOST_HELPFUL])


def missing(search: Search, at: int, steps: Sequence[tuple[Move, ...]]) -> Iterator[Candidate]:
    """The steps that may be missing before a line: of `helpful` ones, what can be done there."""
    if not _may_miss(search, at):
        return
    before = search.befores[at]
    for moves in steps:
        shape = None if search.touches(moves, at) else _moved(before.shape, moves, search.trial.ground)
        if shape is not None:
            cost = MISSING + AND_STRUM * (len(moves) > 1) + search.away(at)
            yield Candidate(cost, Missing(at, moves), replace(before, shape=shape), at, before)


def _may_miss(search: Search, at: int) -> bool:
    """Whether a step can stand before this row: on the neck, and not where only the start of a block leads on."""
    before, place = search.befores[at], search.thread.places
    if before.resting or not before.shape.has_fingers:
        return False
    ends = at < len(place) and place[at].line < 0
    return not ends or search.thread.strands[place[at].strand - 1].upto is None


def _moved(shape: Shape, moves: Sequence[Move], ground: Ground) -> Shape | None:
    """The shape after moves that the hand can make; None where it can't."""
    try:
        shape = apply_all(shape, moves)
    except ImpossibleMove:
        return None
    return shape if is_held(shape, ground) else None


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
    search: Search, steps: Sequence[tuple[Move, Shape]], struck: frozenset[int] | None
) -> Iterator[tuple[Move, ...]]:
    before, trial = search.befores[-1], search.trial
    shape = before.before_rest or before.shape
    strum = () if struck is None else (Strum(struck),)
    for move, after in steps:
        after = after.with_unstruck(shape.unstruck) if struck is None else after.with_struck(struck)
        if isinstance(move, Place) and struck is not None and struck.isdisjoint(move.press.strings):
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
        if step.strum is None and not _is_odd_bar(step.move):
            yield step.move, step.shape
    yield from _wider(shape, ground)


def _is_odd_bar(move: Move) -> bool:
    """Whether a step is a bar of another finger than the first: too rare to be what an author left out."""
    return isinstance(move, Place) and move.press.is_bar and move.finger is not Finger.INDEX


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
    """What may be struck from the step that is missing on: as elsewhere in the thread, or as is usual."""
    out = dict.fromkeys([search.thread.start.shape.struck])
    for row in search.trial.rows[:MOST_ROWS_ASKED]:
        for action in row.actions:
            if isinstance(action, StrumStrings):
                with suppress(Slip):
                    out.setdefault(strum_of(action, search.trial.ground.fretboard).strings)
    if len(out) == 1:
        return []
    out.update(dict.fromkeys(strum.strings for strum in strums(search.trial.ground)))
    return [struck for struck in out if struck != search.befores[-1].shape.struck][:MOST_STRUMS]


def damping(search: Search, at: int) -> Iterator[Candidate]:
    """Every string that a finger that is down could damp before a line."""
    before, ground = search.befores[at], search.trial.ground
    for finger in before.shape.fingers if _may_miss(search, at) else ():
        for string in range(1, before.shape.strings + 1):
            press = before.shape.press_of(finger)
            if press is None or press.covers(string) or before.shape.fret(string) is None:
                continue
            shape = replace(before.shape, damped=(*before.shape.damped, (string, finger)))
            if is_held(shape, ground):
                held = replace(before, shape=shape)
                yield Candidate(MISSING + search.away(at), Missing(at, (Mute(string, finger),)), held, at, before)
