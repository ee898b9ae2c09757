"""A route as a course would write it: the first shape, then move by move the shapes that follow."""

from __future__ import annotations

from dataclasses import dataclass

from fingerpost.music.move import Exchange, Lift, Move, Place, Strum, write_move
from fingerpost.music.routes.neck import STRUCK, Grip, Neck
from fingerpost.music.routes.search import Chain
from fingerpost.music.routes.spots import bits
from fingerpost.music.routes.together import FINGERS
from fingerpost.music.shape import Finger, Shape


@dataclass(frozen=True, slots=True)
class RouteStep:
    """One step: what the hand does, as moves and as a lesson writes them; the shape it leads to; points of the change.

    moves: one finger's move, or the strings struck from then on, or both.
    """

    moves: tuple[Move, ...]
    text: str
    shape: Shape
    cost: float


@dataclass(frozen=True, slots=True)
class Route:
    """A chain of steps from a shape. cost: points in all."""

    start: Shape
    steps: tuple[RouteStep, ...]
    cost: float

    @property
    def length(self) -> int:
        """How many moves."""
        return len(self.steps)

    @property
    def end(self) -> Shape:
        """Where it leads."""
        return self.steps[-1].shape if self.steps else self.start

    @property
    def shapes(self) -> tuple[Shape, ...]:
        """All shapes, the first included."""
        return (self.start, *(step.shape for step in self.steps))


def route_of(neck: Neck, chain: Chain) -> Route:
    """The route that a chain of grips stands for."""
    pairs = zip(chain.grips, chain.grips[1:], strict=False)
    steps = tuple(_step(neck, before, after) for before, after in pairs)
    return Route(neck.shape(chain.grips[0]), steps, chain.cost / 1000)


def _step(neck: Neck, before: Grip, after: Grip) -> RouteStep:
    moves = moves_between(neck, before, after)
    text = ", ".join(write_move(move, neck.fretboard.tuning) for move in moves)
    return RouteStep(moves, text, neck.shape(after), (neck.step(before, after) or 0) / 1000)


def moves_between(neck: Neck, before: Grip, after: Grip) -> tuple[Move, ...]:
    """What a course would write from a grip to the next: a finger's move and, where they change, the strings struck."""
    changed = [Finger(finger) for finger in range(FINGERS) if before[finger] != after[finger]]
    come = [finger for finger in changed if after[finger]]
    moves: list[Move] = []
    if len(changed) == 2:
        moves.append(Exchange(come[0], next(finger for finger in changed if finger not in come)))
    elif come:
        moves.append(Place(come[0], *neck.spots.placed[after[come[0]]]))
    elif changed:
        moves.append(Lift(changed[0]))
    if before[STRUCK] != after[STRUCK]:
        silent = {bit + 1 for bit in bits(after[STRUCK])}
        moves.append(Strum(frozenset(range(1, neck.fretboard.strings + 1)) - silent))
    return tuple(moves)
