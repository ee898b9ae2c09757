"""Where the stops of a way and the brackets between them lie, so that none lies on another: numbers, no ink."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import accumulate

from fingerpost.course.way_map import Leg, WayMap

ROW = 44.0
"""A row is as high as a finger needs to press it (WCAG 2.2, 2.5.5: 44 px)."""
PORT = 9.0
"""Between two brackets that end at the same stop."""
STOP = 14.0
"""A stop where at most one bracket ends: as high as wide."""


@dataclass(frozen=True, slots=True)
class Bracket:
    """A leg between stops that are no neighbours: its lane, counted from 0 beside the stops, and where it ends.

    top and bottom: heights at which it leaves its two stops.
    """

    leg: Leg
    lane: int
    top: float
    bottom: float


@dataclass(frozen=True, slots=True)
class Row:
    """A stop's row: its upper and lower edge, its middle, and how high the stop is drawn."""

    top: float
    bottom: float
    stop: float

    @property
    def middle(self) -> float:
        """The height of the stop's centre."""
        return (self.top + self.bottom) / 2


@dataclass(frozen=True, slots=True)
class Layout:
    """Rows by the number of their stop; brackets; and the legs between neighbours, which lie on the trunk."""

    rows: tuple[Row, ...]
    brackets: tuple[Bracket, ...]
    trunk: tuple[Leg, ...]

    @property
    def lanes(self) -> int:
        """How many lanes the brackets take."""
        return max((bracket.lane + 1 for bracket in self.brackets), default=0)

    @property
    def height(self) -> float:
        """Down to the lower edge of the last row."""
        return self.rows[-1].bottom if self.rows else 0.0


def layout(way: WayMap, least: Sequence[float] = (), top: float = 0.0) -> Layout:
    """The layout of a way. least: the height that each row needs for what else stands in it; top: room above."""
    lanes = _lanes([leg for leg in way.legs if leg.other - leg.one > 1])
    ports = [_ports(stop, lanes) for stop in range(len(way.stops))]
    stops = [STOP + PORT * max(0, len(ends) - 1) for ends in ports]
    needed = [max(ROW, stop + 30, *least[number : number + 1]) for number, stop in enumerate(stops)]
    edges = list(accumulate(needed, initial=top))
    rows = [Row(edges[number], edges[number + 1], stop) for number, stop in enumerate(stops)]
    at = [
        {leg: row.middle + PORT * (number - (len(ends) - 1) / 2) for number, leg in enumerate(ends)}
        for row, ends in zip(rows, ports, strict=True)
    ]
    brackets = [Bracket(leg, lane, at[leg.one][leg], at[leg.other][leg]) for leg, lane in lanes.items()]
    return Layout(tuple(rows), tuple(brackets), tuple(leg for leg in way.legs if leg.other - leg.one == 1))


def _lanes(legs: Sequence[Leg]) -> dict[Leg, int]:
    """Short brackets first, each in the first lane in which none lies beside the same rows; ends may meet."""
    lanes: dict[Leg, int] = {}
    for leg in sorted(legs, key=lambda leg: (leg.other - leg.one, leg.one)):
        taken = {lane for other, lane in lanes.items() if leg.one < other.other and other.one < leg.other}
        lanes[leg] = next(lane for lane in range(len(legs)) if lane not in taken)
    return lanes


def _ports(stop: int, lanes: dict[Leg, int]) -> list[Leg]:
    """The brackets that end at a stop from top to bottom, so that none of them crosses another there.

    Those that come from above are above; of these, and of those that go down, the outer one is nearer to the middle.
    """
    up = sorted((leg for leg in lanes if leg.other == stop), key=lanes.__getitem__)
    down = sorted((leg for leg in lanes if leg.one == stop), key=lanes.__getitem__, reverse=True)
    return [*up, *down]
