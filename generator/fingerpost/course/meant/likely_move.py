"""The move that was likely meant, for one that can't be made or whose name is denied: the next names tell."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from fingerpost.course.agreement import agrees, rooted_first
from fingerpost.course.ground import Ground
from fingerpost.course.moves import move_of
from fingerpost.course.perform import Held, perform
from fingerpost.course.slip import Slip
from fingerpost.course.spots import finger_of, fret_of, number_of, string_of, strings_with_letter
from fingerpost.music.move import Exchange, Lift, Move, Place, write_move
from fingerpost.music.shape import Finger, Shape
from fingerpost.source.syntax import (
    Action,
    ExchangeFinger,
    LiftFinger,
    MoveLine,
    NameSaid,
    PlaceFinger,
    StepSyntax,
    Token,
)

LINES_AHEAD = 6
"""How many lines are looked at for names that tell which move was meant. By our own choice."""

FRETS_TRIED = 5
FINGERS = (Finger.INDEX, Finger.MIDDLE, Finger.RING, Finger.LITTLE)


@dataclass(frozen=True)
class Meant:
    """A move or a line that fits: what it is in the course's own words, and what the hand then holds."""

    text: str
    held: Held


def likely_move(held: Held, steps: Sequence[StepSyntax], index: int, ground: Ground) -> Meant | None:
    """The first move close to the one written at `index` of the first of `steps` that agrees with the names ahead.

    None where no name ahead can tell, or none of the moves tried agrees.
    """
    return rooted_first(_agreeing(held, steps, index, ground), ground)


def _agreeing(
    held: Held, steps: Sequence[StepSyntax], index: int, ground: Ground
) -> Iterator[tuple[Meant, Shape, NameSaid | None]]:
    line = steps[0].line
    for move in moves_near(line.actions[index], held.shape, ground) if line is not None else ():
        after = None if line is None else _performed(held, line, ground, index, move)
        if line is not None and after is not None and names_hold(after, line, steps[1:], ground):
            yield Meant(write_move(move, ground.fretboard.tuning), after), after.shape, line.name


def possible_move(held: Held, line: MoveLine, index: int, ground: Ground) -> str:
    """The first move close to the one written that the hand can make, in the course's own words; "" for none."""
    for move in moves_near(line.actions[index], held.shape, ground):
        if _performed(held, line, ground, index, move) is not None:
            return write_move(move, ground.fretboard.tuning)
    return ""


def names_hold(after: Held, line: MoveLine, ahead: Sequence[StepSyntax], ground: Ground) -> bool:
    """Whether the first name from this line on agrees with the hand that follows from it; False where none comes."""
    told = agrees(after.shape, line.name, ground)
    for step in ahead[:LINES_AHEAD]:
        if told is not None or step.line is None:
            break
        further = _performed(after, step.line, ground)
        if further is None:
            return False
        after, told = further, agrees(further.shape, step.line.name, ground)
    return bool(told)


def _performed(held: Held, line: MoveLine, ground: Ground, index: int = 0, move: Move | None = None) -> Held | None:
    try:
        after = perform(held, line, ground, {} if move is None else {index: move}).held
    except Slip:
        return None
    return after if after.faults <= held.faults else None


def moves_near(action: Action, shape: Shape, ground: Ground) -> Iterator[Move]:
    """Moves that differ from the one written in one word, the likeliest first."""
    match action:
        case LiftFinger():
            yield from (Lift(finger) for finger in shape.fingers)
        case ExchangeFinger(finger, replaced):
            mover, gone = _or_none(finger), _or_none(replaced)
            yield from (Exchange(mover, other) for other in shape.fingers if mover is not None)
            yield from (Exchange(other, gone) for other in FINGERS if gone is not None)
        case PlaceFinger():
            yield from _places_near(action, shape, ground)


def _or_none(token: Token) -> Finger | None:
    try:
        return finger_of(token)
    except Slip:
        return None


def _places_near(action: PlaceFinger, shape: Shape, ground: Ground) -> Iterator[Move]:
    board = ground.fretboard
    finger = _or_none(action.finger)
    if finger is None:
        return
    try:
        move = move_of(action, board)
    except Slip:
        move = None
    if isinstance(move, Place):
        yield from (Place(other, move.fret, move.low, move.high) for other in FINGERS if other != finger)
        if move.low == move.high:
            yield from (Place(finger, move.fret, s, s) for s in _outward(move.low, board.strings))
        yield from (Place(finger, fret, move.low, move.high) for fret in _one_digit_of(move.fret))
        yield from (
            Place(finger, fret, move.low, move.high) for fret in _outward(move.fret, board.highest_fret, FRETS_TRIED)
        )
        yield from (Lift(down) for down in shape.fingers)
    else:
        yield from _mended_places(action, finger, ground)
    yield from _turned_place(action, finger, ground)


def _turned_place(action: PlaceFinger, finger: Finger, ground: Ground) -> Iterator[Move]:
    """The place with its numbers in the other order: `5:3` for `3:5`."""
    place, board = action.place, ground.fretboard
    fret, string = number_of(place.low), number_of(place.fret)
    if place.low != place.high or fret is None or string is None or fret == string:
        return
    if 1 <= string <= board.strings and 1 <= fret <= board.highest_fret:
        yield Place(finger, fret, string, string)


def _one_digit_of(fret: int) -> Iterator[int]:
    """The frets that are left of a two-digit one without a digit: 2 of 22."""
    yield from dict.fromkeys(digit for digit in divmod(fret, 10) if fret >= 10 and digit)


def _mended_places(action: PlaceFinger, finger: Finger, ground: Ground) -> Iterator[Move]:
    """Placements with the string or the fret that could not be made out replaced by each that there is."""
    board, place = ground.fretboard, action.place
    try:
        fret = fret_of(place.fret, board)
    except Slip:
        string = string_of(place.low, board.tuning) if _is_string(place.low, ground) else None
        lowered = range(1, min(FRETS_TRIED, board.highest_fret) + 1)
        yield from (Place(finger, near, string, string) for near in lowered if string is not None)
        return
    alike = strings_with_letter(place.low.text, board.tuning)
    yield from (Place(finger, fret, string, string) for string in [*alike, *range(1, board.strings + 1)])


def _is_string(token: Token, ground: Ground) -> bool:
    try:
        string_of(token, ground.fretboard.tuning)
    except Slip:
        return False
    return True


def _outward(middle: int, last: int, reach: int = 8) -> Iterator[int]:
    """Numbers around `middle` from 1 to last, nearest first."""
    for away in range(1, reach + 1):
        yield from (number for number in (middle - away, middle + away) if 1 <= number <= last)
