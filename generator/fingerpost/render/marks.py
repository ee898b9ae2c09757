"""The code of marks, told apart by shape: disc stays, edged square arrives, dashed ring was, small is behind."""

from __future__ import annotations

from fingerpost.music.shape import Press
from fingerpost.render.layout import COLUMN, Layout
from fingerpost.render.picture import Box, Circle, Label, Lines, Mark, Point, Role

DISC = 18.0
SQUARE = 19.0
GAP = 5.0
RING = 17.5
OUTER_RING = 25.0
SMALL = 14.0
SIGN = 8.0
NUMERAL_SIZE = 26.0
SMALL_NUMERAL_SIZE = 20.0
UNKNOWN = ""
UNDERLINE = 32.0


def numeral(press: Press) -> str:
    """What a press shows: the finger's number, `T` for the thumb, nothing where the finger is not known."""
    return UNKNOWN if press.finger is None else press.finger.mark


def middle(layout: Layout, press: Press) -> Point:
    """The point in the middle of a press, between strings if need be."""
    return layout.place((press.low + press.high) / 2, press.fret)


def slab(role: Role, layout: Layout, press: Press, half: float, radius: float) -> Box:
    """A box over all strings of a press, reaching `half` beyond the outer ones; for one string a square."""
    (x1, y1), (x2, y2) = layout.place(press.low, press.fret), layout.place(press.high, press.fret)
    left, top = min(x1, x2) - half, min(y1, y2) - half
    return Box(role, left, top, abs(x2 - x1) + 2 * half, abs(y2 - y1) + 2 * half, radius)


def _label(role: Role, layout: Layout, press: Press, size: float) -> tuple[Mark, ...]:
    x, y = middle(layout, press)
    return (Label(role, x, y, numeral(press), size),) if numeral(press) else ()


def stays(layout: Layout, press: Press) -> tuple[Mark, ...]:
    """A finger that keeps its place: a plain disc, or a long rounded one over the strings of a bar."""
    body: Mark = (
        slab(Role.STAYS, layout, press, DISC, DISC)
        if press.is_bar
        else Circle(Role.STAYS, *middle(layout, press), DISC)
    )
    return (body, *_label(Role.NUMERAL, layout, press, NUMERAL_SIZE))


def arrives(layout: Layout, press: Press) -> tuple[Mark, ...]:
    """A finger that has just come: a filled square in a thick edge, paper between the two."""
    edge = slab(Role.ARRIVES_EDGE, layout, press, SQUARE, 8)
    fill = slab(Role.ARRIVES, layout, press, SQUARE - GAP, 4)
    return (edge, fill, *_label(Role.ARRIVES_NUMERAL, layout, press, NUMERAL_SIZE - 1))


def was(layout: Layout, press: Press, occupied: bool) -> tuple[Mark, ...]:
    """Where a finger was: a dashed ring, drawn wider where another finger now stands in it."""
    half = OUTER_RING if occupied else RING
    if press.is_bar:
        return (slab(Role.FREED, layout, press, half, half),)
    return (Circle(Role.WAS, *middle(layout, press), half),)


def behind(layout: Layout, press: Press, new: bool) -> tuple[Mark, ...]:
    """A finger behind a higher one on its string, so without sound: small and hollow, square if it has just come."""
    edge = slab(Role.ARRIVES_EDGE, layout, press, SMALL, 4)
    body = edge if new else slab(Role.BEHIND, layout, press, SMALL, SMALL)
    return (body, *_label(Role.BEHIND_NUMERAL, layout, press, SMALL_NUMERAL_SIZE))


def _cross(point: Point, size: float) -> tuple[tuple[float, float, float, float], ...]:
    x, y = point
    return ((x - size, y - size, x + size, y + size), (x - size, y + size, x + size, y - size))


def open_string(layout: Layout, string: int) -> Mark:
    """A string that rings open: a ring before the nut."""
    return Circle(Role.OPEN, *layout.above(string), SIGN)


def unstruck(layout: Layout, string: int) -> Mark:
    """A string that is not struck: a cross before the nut."""
    return Lines(Role.SILENT, _cross(layout.above(string), SIGN - 1))


def damped(layout: Layout, string: int) -> tuple[Mark, ...]:
    """A string that a finger keeps from sounding: a cross in a box before the nut."""
    x, y = layout.above(string)
    side = SIGN + 2
    return (Box(Role.DAMPED, x - side, y - side, 2 * side, 2 * side, 2), Lines(Role.DAMPED, _cross((x, y), 5)))


def touch(layout: Layout, press: Press, string: int) -> tuple[Mark, ...]:
    """The side of a finger that touches the string it damps: a short bar from the mark to the string, crossed there."""
    beyond = DISC / COLUMN if string > press.low else -DISC / COLUMN
    nearest = press.low if string > press.low else press.high
    end = layout.place(string, press.fret)
    return (Lines(Role.DAMPED, ((*layout.place(nearest + beyond, press.fret), *end), *_cross(end, 7))),)


def newly(layout: Layout, string: int) -> Mark:
    """The underline of what has changed, here of an open or silent string."""
    across = layout.string(string)
    x1, y1 = layout.at(across - 10, UNDERLINE)
    x2, y2 = layout.at(across + 10, UNDERLINE)
    return Lines(Role.NEW, ((x1, y1, x2, y2),))
