"""Neighbours: every shape that one move of one finger leads to, within the hand's limits."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from fingerpost.music.difficulty import difficulty
from fingerpost.music.fretboard import Fretboard
from fingerpost.music.hand import Hand
from fingerpost.music.move import Exchange, Lift, Place, Strum, apply, write_move
from fingerpost.music.shape import Finger, Press, Shape
from fingerpost.music.transition import MoveKind, transition

USUAL_FRETS = 12


@dataclass(frozen=True, slots=True)
class Neighbour:
    """A shape one finger away: the move as a course writes it, its kind, the shape with its fingers, and the points.

    cost is the difficulty of the change, not of holding the shape.
    """

    move_text: str
    kind: MoveKind
    shape: Shape
    cost: float


@dataclass(frozen=True, slots=True)
class Step:
    """One finger's move, the shape it leads to, and the strings struck from then on where that changes."""

    move: Place | Lift | Exchange
    shape: Shape
    strum: Strum | None = None


def neighbours(
    shape: Shape, fretboard: Fretboard, hand: Hand, highest_fret: int = USUAL_FRETS, unseen: bool = False
) -> tuple[Neighbour, ...]:
    """All neighbours, easiest first, then by the text of the move; see `steps` for what counts as one.

    Raises ValueError where the shape does not say which fingers it uses.
    """
    if not shape.has_fingers:
        raise ValueError("neighbours need a shape that says which finger presses what")
    found = (_neighbour(shape, step, fretboard, hand) for step in steps(shape, fretboard, hand, highest_fret, unseen))
    return tuple(sorted(found, key=lambda neighbour: (neighbour.cost, neighbour.move_text)))


def steps(
    shape: Shape, fretboard: Fretboard, hand: Hand, highest_fret: int = USUAL_FRETS, unseen: bool = False
) -> Iterator[Step]:
    """Every move of one finger that leads to a shape within the limits, lazily and without costs.

    A finger is lifted; placed, slid, crossed, laid as a bar or hinged; or takes another's place. Frets go up to
    highest_fret, or as far as the shape itself. A bar ends on strings that it sounds. A single finger that comes down
    on a string that was not struck has it struck. unseen: also moves of which nothing is heard and no mark of the
    shape's text changes, and fingers laid behind others.
    """
    highest = min(fretboard.highest_fret, max([highest_fret, *(press.fret for press in shape.presses)]))
    marks = _marks(shape)
    for step in _all_steps(shape, fretboard, hand, highest):
        if unseen or (_marks(step.shape) != marks and _is_heard(step)):
            yield step


def _all_steps(shape: Shape, fretboard: Fretboard, hand: Hand, highest: int) -> Iterator[Step]:
    for finger in shape.fingers:
        freed = shape.without(finger)
        if hand.holds(freed.presses, fretboard):
            yield Step(Lift(finger), freed)
    for finger in _usable(hand):
        freed, old = shape.without(finger), shape.press_of(finger)
        for press in _presses(freed, finger, fretboard, hand, highest):
            if press != old:
                yield _placed(freed, press, finger)
        if old is None:
            yield from _exchanges(shape, finger, fretboard, hand)


def _placed(freed: Shape, press: Press, finger: Finger) -> Step:
    move = Place(finger, press.fret, press.low, press.high)
    shape = freed.with_presses((*freed.presses, press))
    if not press.is_bar and press.low in freed.unstruck:
        struck = freed.struck | {press.low}
        return Step(move, shape.with_struck(struck), Strum(struck))
    return Step(move, shape)


def _exchanges(shape: Shape, finger: Finger, fretboard: Fretboard, hand: Hand) -> Iterator[Step]:
    for replaced in shape.fingers:
        move = Exchange(finger, replaced)
        after = apply(shape, move)
        if hand.holds(after.presses, fretboard):
            yield Step(move, after)


def _is_heard(step: Step) -> bool:
    """Whether a finger that was placed makes at least one of the notes."""
    move = step.move
    return not isinstance(move, Place) or (move.finger in {finger for _, finger in _marks(step.shape)})


def _marks(shape: Shape) -> tuple[tuple[int | None, Finger | None], ...]:
    """What each string sounds and which finger makes it: all that the text of a shape shows without its third part."""
    return tuple(
        [
            (fret, None if fret is None or press is None else press.finger)
            for fret, press in zip(shape.frets, shape.on_top, strict=True)
        ]
    )


def _neighbour(shape: Shape, step: Step, fretboard: Fretboard, hand: Hand) -> Neighbour:
    change = transition(shape, step.shape, fretboard)
    words = [write_move(move, fretboard.tuning) for move in (step.move, step.strum) if move is not None]
    return Neighbour(", ".join(words), change.moves[0].kind, step.shape, difficulty(change, fretboard, hand).total)


def _usable(hand: Hand) -> tuple[Finger, ...]:
    fingers = tuple(map(Finger, sorted(hand.limits.fingers)))
    return (Finger.THUMB, *fingers) if hand.limits.thumb_strings else fingers


def _presses(freed: Shape, finger: Finger, fretboard: Fretboard, hand: Hand, highest: int) -> Iterator[Press]:
    """Wherever a finger can go while the others stay: one string each, then bars.

    The span is the same all along a fret, so it is asked once a fret, and strings only for what is left.
    """
    strings, others = freed.strings, freed.presses
    first = strings - hand.limits.thumb_strings + 1 if finger is Finger.THUMB else 1
    widest = strings if finger is Finger.THUMB else hand.limits.bar_strings[finger - 1]
    for fret in _frets(freed, finger, fretboard, hand, highest):
        covered = {s: max((p.fret for p in others if p.covers(s)), default=0) for s in range(1, strings + 1)}
        taken = {s for press in others if press.fret == fret for s in press.strings}
        seen = {s for s, over in covered.items() if over < fret and s not in freed.unstruck}
        for low in range(strings, first - 1, -1):
            for high in range(low, max(first, low - widest + 1) - 1, -1):
                if high in taken:
                    break
                if low == high or (low in seen and high in seen):
                    yield Press(finger, fret, low, high)


def _frets(freed: Shape, finger: Finger, fretboard: Fretboard, hand: Hand, highest: int) -> Iterator[int]:
    """The frets that finger order and span leave to a finger."""
    limits, low, high = hand.limits, 1, highest
    others = [press.fret for press in freed.presses]
    if others:
        low, high = max(low, max(others) - limits.span_frets), min(high, min(others) + limits.span_frets)
    for press in freed.presses if limits.finger_order and finger else ():
        if press.finger and press.finger < finger:
            low = max(low, press.fret)
        elif press.finger:
            high = min(high, press.fret)
    for fret in range(low, high + 1):
        if not others or fretboard.span(min(fret, *others), max(fret, *others)) <= limits.span_mm:
            yield fret
