"""The curve of difficulty: a dot a change, or a lesson, over an axis of points; jumps in a mark of their own."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from fingerpost.render.picture import Circle, Diagram, Label, Lines, Mark, Polygon, Role

TEXT = 15.0
LEFT, RIGHT, TOP, PLOT, BOTTOM = 34.0, 14.0, 34.0, 130.0, 48.0
PHONE = 312.0
"""The width that a phone's page leaves, in units."""
NEAREST, FARTHEST, APART = 14.0, 40.0, 32.0
"""How near and how far dots stand; how far apart numbers under the axis are at least."""
MOST_TICKS = 5


@dataclass(frozen=True, slots=True)
class Dot:
    """One place of the curve: its points, whether it is a jump, and a second figure such as a mean, None without."""

    points: float
    jump: bool = False
    mean: float | None = None


def curve(dots: Sequence[Dot], across: str, name: str, words: str, points: str) -> Diagram:
    """The curve. across and points: what the axes count; name and words: its text alternative."""
    apart = min(FARTHEST, max(NEAREST, (PHONE - LEFT - RIGHT) / max(1, len(dots))))
    width = max(LEFT + RIGHT + apart * len(dots), 220.0)
    step = _step(max([dot.points for dot in dots], default=0.0))
    top = step * max(1, math.ceil(max([dot.points for dot in dots], default=0.0) / step - 1e-9))
    floor = TOP + PLOT
    at = [(LEFT + apart * (number + 0.5), floor - PLOT * dot.points / top) for number, dot in enumerate(dots)]
    means = [(x, floor - PLOT * dot.mean / top) for (x, _), dot in zip(at, dots, strict=True) if dot.mean is not None]
    marks = [
        *_axis(step, top, width, points),
        *_numbers([x for x, _ in at], apart, width, across),
        *_line(Role.CURVE_MEAN, means),
        *_line(Role.CURVE_LINE, at),
        *(Circle(Role.CURVE_RING, x, y, 4) for x, y in means),
        *(_dot(x, y, dot.jump) for (x, y), dot in zip(at, dots, strict=True)),
    ]
    return Diagram(width, floor + BOTTOM, tuple(marks), (), name, words)


def _step(most: float) -> float:
    """A round number of points between two lines, so that there are few of them."""
    sizes = (size * 10**power for power in range(7) for size in (0.5, 1, 2, 5))
    return next((size for size in sizes if most / size <= MOST_TICKS), most)


def _axis(step: float, top: float, width: float, points: str) -> Iterator[Mark]:
    for number in range(round(top / step) + 1):
        y = TOP + PLOT - PLOT * number * step / top
        yield Lines(Role.CURVE_GRID if number else Role.CURVE_AXIS, ((LEFT, y, width - 4, y),))
        yield Label(Role.CURVE_LABEL, LEFT - 7, y, f"{number * step:g}", TEXT, anchor="end")
    yield Lines(Role.CURVE_AXIS, ((LEFT, TOP - 6, LEFT, TOP + PLOT),))
    yield Label(Role.CURVE_LABEL, 4, TEXT / 2 + 1, points, TEXT, anchor="start")


def _numbers(at: Sequence[float], apart: float, width: float, across: str) -> Iterator[Mark]:
    each = max(1, math.ceil(APART / apart))
    for number, x in enumerate(at, 1):
        if number % each == 0 or each == 1:
            yield Label(Role.CURVE_LABEL, x, TOP + PLOT + 13, str(number), TEXT)
    yield Label(Role.CURVE_LABEL, width - 4, TOP + PLOT + 34, across, TEXT, anchor="end")


def _line(role: Role, at: Sequence[tuple[float, float]]) -> Iterator[Mark]:
    strokes = tuple((*one, *other) for one, other in pairwise(at))
    if strokes:
        yield Lines(role, strokes)


def _dot(x: float, y: float, jump: bool) -> Mark:
    """A jump is a diamond and larger, so that no colour is needed to see it."""
    if jump:
        return Polygon(Role.CURVE_JUMP, ((x, y - 9), (x + 9, y), (x, y + 9), (x - 9, y)))
    return Circle(Role.CURVE_DOT, x, y, 4.5)
