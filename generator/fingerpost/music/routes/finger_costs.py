"""What one finger's move costs, in thousandths of a point, looked up by the spots that it leaves and reaches."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from functools import cached_property
from operator import add

from fingerpost.music.difficulty import difficulty_of_finger
from fingerpost.music.finger_move import FingerMove, kind_of
from fingerpost.music.fretboard import Fretboard
from fingerpost.music.hand import ChangeCosts
from fingerpost.music.routes.spots import Spots
from fingerpost.music.shape import Finger

_NEVER = 1 << 40


def thousandths(points: float) -> int:
    """Points as `difficulty` rounds each part, in whole thousandths."""
    return round(round(points, 3) * 1000)


@dataclass(frozen=True, eq=False)
class FingerCosts:
    """The costs of a finger apart from how far the hand then reaches; each is reckoned when first asked for."""

    spots: Spots
    fretboard: Fretboard
    costs: ChangeCosts
    _rows: dict[int, list[int]] = field(default_factory=dict, repr=False)
    _closed: dict[int, list[int]] = field(default_factory=dict, repr=False)
    _twice: dict[tuple[int, int], int] = field(default_factory=dict, repr=False)

    @cached_property
    def weak(self) -> tuple[int, ...]:
        """What each finger adds, index 0 the thumb."""
        return tuple(map(thousandths, (self.costs.thumb, *self.costs.weak)))

    @cached_property
    def exchange(self) -> int:
        """What an exchange costs."""
        return thousandths(self.costs.exchange)

    @cached_property
    def strum(self) -> int:
        """What it costs that other strings are struck."""
        return thousandths(self.costs.strum)

    def row(self, spot: int) -> Sequence[int]:
        """The cost of going from a spot to each other one, whichever finger it is; to itself it is out of reach."""
        if (known := self._rows.get(spot)) is None:
            known = self._rows[spot] = [self._cost(spot, to) for to in range(len(self.spots.placed))]
        return known

    def _cost(self, spot: int, to: int) -> int:
        if spot == to:
            return _NEVER
        before, after = (None if s == 0 else self.spots.press(s, Finger.INDEX) for s in (spot, to))
        move = FingerMove(Finger.INDEX, kind_of(before, after), before, after)
        return sum(thousandths(points) for _, points in difficulty_of_finger(move, self.fretboard, self.costs))

    def least(self, finger: int, spot: int, to: int) -> int:
        """What a finger's way from spot to spot costs at the least, in however many moves."""
        return self._least_to(to)[spot] + (self.weak[finger] if to else 0)

    def least_of_two(self, finger: int, spot: int, to: int) -> int:
        """The same where it moves at least twice."""
        if (known := self._twice.get((spot, to))) is None:
            known = self._twice[spot, to] = min(map(add, self._shared[spot], self._least_to(to)))
        return known + self.weak[finger]

    def _least_to(self, to: int) -> list[int]:
        """By spot: the least cost of the way to `to`, the finger left out."""
        if (known := self._closed.get(to)) is None:
            before: list[int] = []
            known = [0 if spot == to else row[to] for spot, row in enumerate(self._shared)]
            while known != before:
                before = known
                known = [
                    min(least, min(map(add, row, before))) for row, least in zip(self._shared, before, strict=True)
                ]
            self._closed[to] = known
        return known

    @cached_property
    def _shared(self) -> list[list[int]]:
        """The rows, but a lift and a placing together never dearer than the exchange that may stand for both."""
        spots = range(len(self.spots.placed))
        place = [min(points, self.exchange) for points in self.row(0)]
        lift = [max(0, min(self.row(spot)[0], self.exchange - place[spot])) for spot in spots]
        return [[_NEVER, *place[1:]], *([lift[spot], *self.row(spot)[1:]] for spot in spots[1:])]
