"""What one finger's move costs, in thousandths of a point, looked up by the spots that it leaves and reaches."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace
from functools import cached_property
from operator import add

from fingerpost.music.difficulty import difficulty_of_finger
from fingerpost.music.finger_move import FingerMove, MoveKind, kind_of
from fingerpost.music.fretboard import Fretboard
from fingerpost.music.hand import ChangeCosts
from fingerpost.music.routes.spots import Spots
from fingerpost.music.shape import Finger, Press

_NEVER = 1 << 40
Placed = tuple[int, int, int]
Across = tuple[tuple[int, int], tuple[int, int], bool]


def thousandths(points: float) -> int:
    """Points as `difficulty` rounds each part, in whole thousandths."""
    return round(round(points, 3) * 1000)


@dataclass(frozen=True, eq=False)
class FingerCosts:
    """The costs of a finger apart from how far the hand then reaches; each is reckoned when first asked for."""

    spots: Spots
    fretboard: Fretboard
    costs: ChangeCosts
    _fixed: dict[Across, tuple[MoveKind, int]] = field(default_factory=dict, repr=False)
    _travel: dict[tuple[MoveKind, int, int], int] = field(default_factory=dict, repr=False)
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
            known = [self._cost(self.spots.placed[spot], to) for to in self.spots.placed]
            known[spot] = _NEVER
            self._rows[spot] = known
        return known

    def _cost(self, spot: Placed, to: Placed) -> int:
        kind, fixed = self._across(spot[1:], to[1:], spot[0] == to[0])
        return fixed + self._along(kind, spot[0], to[0])

    def _across(self, run: tuple[int, int], to: tuple[int, int], same_fret: bool) -> tuple[MoveKind, int]:
        """The kind of move between two runs of strings, and its parts but for travel, which frets alone decide."""
        key = (run, to, same_fret)
        if (known := self._fixed.get(key)) is None:
            fret = self.spots.low
            move = _move((fret, *run), (fret if same_fret else fret + 1, *to))
            fixed = (thousandths(points) for name, points in self._parts(move) if name != "travel")
            known = self._fixed[key] = move.kind, sum(fixed)
        return known

    def _along(self, kind: MoveKind, fret: int, to: int) -> int:
        if not (fret and to):
            return 0
        key = (kind, fret, to)
        if (known := self._travel.get(key)) is None:
            move = replace(_move((fret, 1, 1), (to, 1, 1)), kind=kind)
            travel = (thousandths(points) for name, points in self._parts(move) if name == "travel")
            known = self._travel[key] = sum(travel)
        return known

    def _parts(self, move: FingerMove) -> Iterator[tuple[str, float]]:
        return difficulty_of_finger(move, self.fretboard, self.costs)

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


def _move(spot: Placed, to: Placed) -> FingerMove:
    """A finger's move between two spots, no string standing for the air; the index stands for any finger."""
    before, after = (Press(Finger.INDEX, *placed) if placed[1] else None for placed in (spot, to))
    kind = kind_of(before, after) if before != after else MoveKind.SLIDE
    return FingerMove(Finger.INDEX, kind, before, after)
