"""Arrows that show a finger's path: leaving sideways in a bow, so that even neighbours have room."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass

from fingerpost.render.picture import Curve, Mark, Point, Polygon, Role

TIP_LENGTH = 13.0
TIP_HALF = 8.0
NEAR, FAR = 50.0, 200.0
STEEP, FLAT = 88.0, 30.0


@dataclass(frozen=True, slots=True)
class Path:
    """From one point to another, keeping `leave` and `reach` clear about them; side is +1 or -1: which way it bows."""

    start: Point
    end: Point
    leave: float
    reach: float
    side: int


def _towards(point: Point, angle: float, distance: float) -> Point:
    return point[0] + math.cos(angle) * distance, point[1] + math.sin(angle) * distance


def curve(path: Path) -> Curve:
    """The bowed line, up to the base of its tip: steep between neighbours, flat over a distance."""
    dx, dy = path.end[0] - path.start[0], path.end[1] - path.start[1]
    distance, ahead = math.hypot(dx, dy), math.atan2(dy, dx)
    share = min(1.0, max(0.0, (distance - NEAR) / (FAR - NEAR)))
    turn = math.radians(STEEP + (FLAT - STEEP) * share) * path.side
    out, home = ahead + turn, ahead + math.pi - turn
    reach = max(16.0, distance * 0.38)
    start, tip = _towards(path.start, out, path.leave), _towards(path.end, home, path.reach)
    base = _towards(tip, home, TIP_LENGTH - 2)
    return Curve(Role.TRAVEL, start, _towards(start, out, reach), _towards(base, home, reach * 0.7), base)


def tip(path: Path, line: Curve) -> Polygon:
    """The point of the arrow, in line with the end of its curve."""
    angle = math.atan2(line.end[1] - line.c2[1], line.end[0] - line.c2[0])
    back = _towards(line.end, angle, -2)
    left, right = _towards(back, angle + math.pi / 2, TIP_HALF), _towards(back, angle - math.pi / 2, TIP_HALF)
    return Polygon(Role.TIP, (_towards(back, angle, TIP_LENGTH), left, right))


def _along(line: Curve, share: float) -> Point:
    a, b, c, d = (1 - share) ** 3, 3 * (1 - share) ** 2 * share, 3 * (1 - share) * share**2, share**3
    points = (line.start, line.c1, line.c2, line.end)
    return sum(w * p[0] for w, p in zip((a, b, c, d), points, strict=True)), sum(
        w * p[1] for w, p in zip((a, b, c, d), points, strict=True)
    )


def crowding(path: Path, others: Iterable[Point], size: tuple[float, float], room: float = 30.0) -> float:
    """How much a path is in the way of other marks and of the picture's edge; less is better."""
    line = curve(path)
    spots = [_along(line, share / 8) for share in range(1, 8)]
    over = sum(max(0.0, room - math.dist(spot, other)) for other in others for spot in spots)
    out = sum(max(0.0, 8 - min(spot[0], spot[1], size[0] - spot[0], size[1] - spot[1])) for spot in spots)
    return over + 4 * out


def arrow(
    start: Point, end: Point, leave: float, reach: float, others: tuple[Point, ...], size: tuple[float, float]
) -> tuple[Mark, ...]:
    """The arrow from start to end that bows to the less crowded side."""
    paths = [Path(start, end, leave, reach, side) for side in (1, -1)]
    best = min(paths, key=lambda path: crowding(path, others, size))
    line = curve(best)
    return line, tip(best, line)
