"""The moves that lead from one shape to another, in an order in which a hand can make them."""

from __future__ import annotations

from fingerpost.music.move import Exchange, Lift, Move, Mute, Place, Shift, Strum, apply, apply_all
from fingerpost.music.shape import Press, Shape
from fingerpost.music.transition import check_comparable, exchanges, hand_shift


def moves_between(before: Shape, after: Shape) -> tuple[Move, ...]:
    """Moves that lead from one shape to the other, in an order in which each can be made; empty where they are equal.

    Each finger moves once, except where two stand in each other's way: then one lifts first. Raises ValueError like
    `transition`.
    """
    check_comparable(before, after)
    shift = hand_shift(before, after)
    out: list[Move] = [Shift(shift)] if shift else _given_up(before, after)
    out += _placements(apply_all(before, out), after)
    shape = apply_all(before, out)
    ending = [Mute(string, finger) for string, finger in after.damped if (string, finger) not in shape.damped]
    return (*out, *ending, *([Strum(after.struck)] if shape.unstruck != after.unstruck else []))


def _given_up(before: Shape, after: Shape) -> list[Move]:
    """Exchanges, and the fingers that lift for good."""
    taken_over = exchanges(before, after)
    out: list[Move] = [Exchange(finger, other) for finger, other in taken_over.items()]
    return out + [Lift(f) for f in before.fingers if f not in after.fingers and f not in taken_over.values()]


def _placements(shape: Shape, after: Shape) -> list[Move]:
    """Places, each when its spot is free; where all wait for each other, one finger lifts to break the ring."""
    out: list[Move] = []
    waiting = [press for press in after.presses if _unlike(shape, after, press)]
    while waiting:
        free = [press for press in waiting if not _blocked(shape, press)]
        move: Move
        if free:
            press = free[0]
            waiting.remove(press)
            assert press.finger is not None
            move = Place(press.finger, press.fret, press.low, press.high)
        else:
            move = Lift(next(p.finger for p in waiting if p.finger is not None and shape.press_of(p.finger)))
        out.append(move)
        shape = apply(shape, move)
    return out


def _unlike(shape: Shape, after: Shape, press: Press) -> bool:
    """Whether a finger has yet to move to this press; one that must stop damping is placed anew."""
    if press.finger is None or shape.press_of(press.finger) != press:
        return True
    kept = {string for string, finger in after.damped if finger == press.finger}
    return any(finger == press.finger and string not in kept for string, finger in shape.damped)


def _blocked(shape: Shape, press: Press) -> bool:
    return any(other.finger != press.finger and other.clashes(press) for other in shape.presses)
