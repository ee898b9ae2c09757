"""How hard a change is: points by the hand's change costs, told apart by what causes them."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from functools import lru_cache

from fingerpost.music.change_costs import ChangeCosts
from fingerpost.music.fretboard import Fretboard
from fingerpost.music.hand import Hand
from fingerpost.music.shape import Finger, Press
from fingerpost.music.transition import FingerMove, MoveKind, Transition

Part = tuple[str, float]


@dataclass(frozen=True, slots=True)
class Difficulty:
    """Points of a change: the total, and its parts by name, the largest first (none of them is 0)."""

    total: float
    parts: tuple[Part, ...]

    def part(self, name: str) -> float:
        """The points of one part, 0 where it plays no role."""
        return dict(self.parts).get(name, 0.0)


# As of a transition: asked for at every keystroke.
@lru_cache(maxsize=4096)
def difficulty(transition: Transition, fretboard: Fretboard, hand: Hand) -> Difficulty:
    """The points of a change on this neck for this hand; 0 for no change.

    Parts: place, lift, travel, crossing, bar, hinge, exchange, damping, weak finger, together, unguided,
    stretch, strum.
    """
    points: Counter[str] = Counter()
    for name, value in _parts(transition, fretboard, hand):
        points[name] += value  # type: ignore[assignment]
    parts = tuple(sorted(((n, round(v, 3)) for n, v in points.items() if v), key=lambda part: (-part[1], part[0])))
    return Difficulty(round(sum(value for _, value in parts), 3), parts)


def _parts(transition: Transition, fretboard: Fretboard, hand: Hand) -> Iterator[Part]:
    costs = hand.change_costs
    for move in transition.moves:
        yield from difficulty_of_finger(move, fretboard, costs)
        yield "weak finger", costs.thumb if move.finger is Finger.THUMB else costs.weak[move.finger - 1]
    moved = len(transition.moves)
    if moved > 1:
        yield "together", costs.together * (moved - 1)
        if not transition.stays and not transition.guides:
            yield "unguided", costs.unguided
    if moved:
        yield "stretch", costs.stretch * max(0.0, _reach(transition, fretboard, hand))
    if transition.strum_changed:
        yield "strum", costs.strum


def difficulty_of_finger(move: FingerMove, fretboard: Fretboard, costs: ChangeCosts) -> Iterator[Part]:
    """The parts of one finger's move by itself: neither which finger it is nor what the others do."""
    return PARTS[move.kind](move, fretboard, costs)


def _reach(transition: Transition, fretboard: Fretboard, hand: Hand) -> float:
    """By how many points the hand reaches further than before."""
    return hand.reach(transition.after, fretboard) - hand.reach(transition.before, fretboard)


def _place(move: FingerMove, fretboard: Fretboard, costs: ChangeCosts) -> Iterator[Part]:
    yield "place", costs.place


def _lift(move: FingerMove, fretboard: Fretboard, costs: ChangeCosts) -> Iterator[Part]:
    yield "lift", costs.lift


def _unbar(move: FingerMove, fretboard: Fretboard, costs: ChangeCosts) -> Iterator[Part]:
    yield "lift", costs.unbar


def _slide(move: FingerMove, fretboard: Fretboard, costs: ChangeCosts) -> Iterator[Part]:
    yield "travel", costs.contact * costs.travel_mm * _travel(move, fretboard)


def _cross(move: FingerMove, fretboard: Fretboard, costs: ChangeCosts) -> Iterator[Part]:
    yield "lift", costs.lift
    yield "place", costs.place
    yield "travel", costs.travel_mm * _travel(move, fretboard)
    yield "crossing", costs.crossing * _crossed(move.before, move.after)


def _bar(move: FingerMove, fretboard: Fretboard, costs: ChangeCosts) -> Iterator[Part]:
    assert move.after is not None
    yield "bar", costs.bar + costs.bar_string * max(0, len(move.after.strings) - 2)
    yield "travel", costs.travel_mm * _travel(move, fretboard)


def _hinge(move: FingerMove, fretboard: Fretboard, costs: ChangeCosts) -> Iterator[Part]:
    yield "hinge", costs.hinge


def _exchange(move: FingerMove, fretboard: Fretboard, costs: ChangeCosts) -> Iterator[Part]:
    yield "exchange", costs.exchange


def _damping(move: FingerMove, fretboard: Fretboard, costs: ChangeCosts) -> Iterator[Part]:
    yield "damping", costs.mute


def _travel(move: FingerMove, fretboard: Fretboard) -> float:
    """Millimetres along the neck, at the true frets."""
    if move.before is None or move.after is None:
        return 0.0
    frets = (move.before.fret, move.after.fret)
    return fretboard.span(min(frets), max(frets))


def _crossed(before: Press | None, after: Press | None) -> int:
    """How many strings lie between the nearest strings of two presses, that of arrival included."""
    if before is None or after is None:
        return 0
    return max(before.high - after.low, after.high - before.low, 0)


PARTS: Mapping[MoveKind, Callable[[FingerMove, Fretboard, ChangeCosts], Iterator[Part]]] = {
    MoveKind.PLACE: _place,
    MoveKind.LIFT: _lift,
    MoveKind.SLIDE: _slide,
    MoveKind.CROSS: _cross,
    MoveKind.BAR: _bar,
    MoveKind.UNBAR: _unbar,
    MoveKind.HINGE: _hinge,
    MoveKind.EXCHANGE: _exchange,
    MoveKind.SHIFT: _slide,
    MoveKind.MUTE: _damping,
    MoveKind.UNMUTE: _damping,
}
