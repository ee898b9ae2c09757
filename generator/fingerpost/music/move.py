"""Moves: what one line of a lesson does to the hand, and the shape that it leaves."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from fingerpost.music.fretboard import MOST_FRETS
from fingerpost.music.impossible_move import ImpossibleMove, Reason
from fingerpost.music.move_form import Exchange, Lift, Move, Mute, Place, Shift, Strum
from fingerpost.music.move_text import write_move
from fingerpost.music.shape import Finger, Press, Shape

__all__ = [
    "Exchange",
    "ImpossibleMove",
    "Lift",
    "Move",
    "Mute",
    "Place",
    "Reason",
    "Shift",
    "Strum",
    "apply",
    "apply_all",
    "lapsed",
    "write_move",
]


def apply(shape: Shape, move: Move, highest_fret: int = MOST_FRETS) -> Shape:
    """The shape after a move. Raises ImpossibleMove; highest_fret is counted from the capo.

    Any move of a finger ends its damping of other strings (`lapsed` tells), except an exchange, which hands it over,
    and a shift, in which it slides along.
    """
    match move:
        case Place():
            return _place(shape, move.press, highest_fret)
        case Lift():
            _press_of(shape, move.finger)
            return shape.without(move.finger)
        case Exchange():
            return _exchange(shape, move)
        case Shift():
            return _shift(shape, move.by, highest_fret)
        case Mute():
            return _mute(shape, move)
        case Strum():
            return _strum(shape, move.strings)


def apply_all(shape: Shape, moves: Iterable[Move], highest_fret: int = MOST_FRETS) -> Shape:
    """The shape after several moves, one after the other. Raises ImpossibleMove."""
    for move in moves:
        shape = apply(shape, move, highest_fret)
    return shape


def lapsed(before: Shape, after: Shape) -> tuple[tuple[int, Finger], ...]:
    """Dampings of the shape before, as (string, finger), that have ended because the finger left."""
    taken_over = {string for string, _ in after.damped}
    return tuple((string, finger) for string, finger in before.damped if string not in taken_over)


def _press_of(shape: Shape, finger: Finger) -> Press:
    press = shape.press_of(finger)
    if press is None:
        raise ImpossibleMove(Reason.FINGER_UP, f"{finger.called} is not down", finger=finger)
    return press


def _check_string(shape: Shape, string: int, finger: Finger | None = None) -> None:
    if not 1 <= string <= shape.strings:
        raise ImpossibleMove(
            Reason.NO_SUCH_STRING,
            f"there is no string {string}; expected 1 to {shape.strings}",
            finger=finger,
            string=string,
        )


def _place(shape: Shape, press: Press, highest_fret: int) -> Shape:
    assert press.finger is not None
    finger = press.finger
    if press.low < press.high:
        press = replace(press, low=press.high, high=press.low)
    for string in (press.low, press.high):
        _check_string(shape, string, finger)
    if not 1 <= press.fret <= highest_fret:
        message = f"there is no fret {press.fret} to press; expected 1 to {highest_fret}"
        raise ImpossibleMove(Reason.NO_SUCH_FRET, message, finger=finger, fret=press.fret)
    if shape.press_of(finger) == press and finger not in {damper for _, damper in shape.damped}:
        message = f"{finger.called} is there already"
        raise ImpossibleMove(Reason.ALREADY_SO, message, finger=finger, string=press.low, fret=press.fret)
    freed = shape.without(finger)
    _check_spot(freed, press)
    return freed.with_presses((*freed.presses, press))


def _check_spot(shape: Shape, press: Press) -> None:
    for other in shape.presses:
        if press.clashes(other):
            string = min(press.low, other.low)
            by = "another finger" if other.finger is None else other.finger.called
            raise ImpossibleMove(
                Reason.SAME_SPOT,
                f"{by} is on string {string} at fret {press.fret} already; two fingers cannot share it",
                finger=press.finger,
                other=other.finger,
                string=string,
                fret=press.fret,
            )


def _exchange(shape: Shape, move: Exchange) -> Shape:
    if shape.press_of(move.replaced) is None:
        message = f"{move.replaced.called} is not down, so {move.finger.called} cannot take its place"
        raise ImpossibleMove(Reason.FINGER_UP, message, finger=move.replaced, other=move.finger)
    if shape.press_of(move.finger) is not None:
        message = f"{move.finger.called} is down elsewhere; to take a place without a sound it must be free"
        raise ImpossibleMove(Reason.FINGER_DOWN, message, finger=move.finger, other=move.replaced)
    return replace(
        shape,
        presses=tuple(replace(p, finger=move.finger) if p.finger == move.replaced else p for p in shape.presses),
        damped=tuple((s, move.finger if f == move.replaced else f) for s, f in shape.damped),
    )


def _shift(shape: Shape, by: int, highest_fret: int) -> Shape:
    if not shape.presses:
        raise ImpossibleMove(Reason.NOTHING_DOWN, "no finger is down, so there is nothing to shift")
    if by == 0:
        raise ImpossibleMove(Reason.ALREADY_SO, "a shift by 0 frets changes nothing")
    for press in shape.presses:
        if not 1 <= press.fret + by <= highest_fret:
            went = f"a shift by {by:+d} would put fret {press.fret} at {press.fret + by}"
            message = f"{went}; expected 1 to {highest_fret}"
            raise ImpossibleMove(Reason.OFF_THE_NECK, message, finger=press.finger, fret=press.fret + by)
    return shape.with_presses(replace(press, fret=press.fret + by) for press in shape.presses)


def _mute(shape: Shape, move: Mute) -> Shape:
    _check_string(shape, move.string, move.finger)
    if move.finger is None:
        if move.string in shape.unstruck:
            message = f"string {move.string} is not struck as it is"
            raise ImpossibleMove(Reason.ALREADY_SO, message, string=move.string)
        return shape.with_unstruck(shape.unstruck | {move.string})
    if _press_of(shape, move.finger).covers(move.string):
        message = f"{move.finger.called} presses string {move.string}, so it cannot damp it"
        raise ImpossibleMove(Reason.PRESSES_IT, message, finger=move.finger, string=move.string)
    if (move.string, move.finger) in shape.damped:
        message = f"{move.finger.called} damps string {move.string} already"
        raise ImpossibleMove(Reason.ALREADY_SO, message, finger=move.finger, string=move.string)
    others = tuple(pair for pair in shape.damped if pair[0] != move.string)
    return replace(shape, damped=(*others, (move.string, move.finger)))


def _strum(shape: Shape, strings: frozenset[int]) -> Shape:
    for string in strings:
        _check_string(shape, string)
    if not strings:
        raise ImpossibleMove(Reason.NOTHING_STRUCK, "no string would be struck; expected at least one")
    after = shape.with_struck(strings)
    if after is shape:
        raise ImpossibleMove(Reason.ALREADY_SO, "these strings are struck as it is")
    return after
