"""A picture as data: shapes in user units with the role they play. It knows nothing of SVG, ink or screens."""

from __future__ import annotations

import enum
from dataclasses import dataclass

Point = tuple[float, float]


class Role(enum.StrEnum):
    """What a mark means; the value is its class on the page, and the palette says how it looks without styles."""

    FRET = "fp-fret"
    NUT = "fp-nut"
    STRING = "fp-string"
    BREAK = "fp-break"
    FRET_NUMBER = "fp-fretno"
    CAPO = "fp-capo-bar"
    CAPO_NAME = "fp-capo-name"
    OPEN = "fp-open"
    SILENT = "fp-silent"
    DAMPED = "fp-damped"
    NEW = "fp-mark-new"
    STAYS = "fp-stays"
    NUMERAL = "fp-num"
    ARRIVES_EDGE = "fp-edge"
    ARRIVES = "fp-arrives"
    ARRIVES_NUMERAL = "fp-num-new"
    BEHIND = "fp-behind"
    BEHIND_NUMERAL = "fp-num-behind"
    WAS = "fp-was"
    FREED = "fp-freed"
    TRAVEL = "fp-travel"
    TIP = "fp-tip"
    ROW = "fp-row"
    ROW_NEW = "fp-row-new"
    ROW_LINE = "fp-row-line"
    ROW_NAME = "fp-row-name"
    HEADING = "fp-heading"
    MAP_TARGET = "fp-map-target"
    MAP_NAME = "fp-map-name"
    MAP_NOTE = "fp-map-note"
    MAP_STOP = "fp-map-stop"
    MAP_MET = "fp-map-met"
    MAP_LINE = "fp-map-line"
    MAP_MANY = "fp-map-many"
    MAP_COUNT = "fp-map-count"
    MAP_NUMBER = "fp-map-number"
    MAP_NEAR = "fp-map-near"
    CURVE_AXIS = "fp-curve-axis"
    CURVE_GRID = "fp-curve-grid"
    CURVE_LINE = "fp-curve-line"
    CURVE_MEAN = "fp-curve-mean"
    CURVE_DOT = "fp-curve-dot"
    CURVE_RING = "fp-curve-ring"
    CURVE_JUMP = "fp-curve-jump"
    CURVE_LABEL = "fp-curve-label"


@dataclass(frozen=True, slots=True)
class Lines:
    """Straight strokes, each (x1, y1, x2, y2), drawn in one go; width overrides that of the role."""

    role: Role
    strokes: tuple[tuple[float, float, float, float], ...]
    width: float | None = None


@dataclass(frozen=True, slots=True)
class Circle:
    """A circle about (x, y)."""

    role: Role
    x: float
    y: float
    r: float


@dataclass(frozen=True, slots=True)
class Box:
    """A rectangle with rounded corners; (x, y) is its upper left corner."""

    role: Role
    x: float
    y: float
    width: float
    height: float
    radius: float


@dataclass(frozen=True, slots=True)
class Curve:
    """A cubic curve from start to end with its two control points."""

    role: Role
    start: Point
    c1: Point
    c2: Point
    end: Point


@dataclass(frozen=True, slots=True)
class Polygon:
    """A filled outline through the points."""

    role: Role
    points: tuple[Point, ...]


@dataclass(frozen=True, slots=True)
class Label:
    """A word or number whose middle is (x, y). size is in user units; upwards: written from bottom to top.

    anchor: `middle`, or `start` or `end`, where x is then. name: the plain form of a chord's name, by which a page
    finds its other styles; aloud: how it is read.
    """

    role: Role
    x: float
    y: float
    text: str
    size: float
    upwards: bool = False
    anchor: str = "middle"
    name: str | None = None
    aloud: str | None = None


Mark = Lines | Circle | Box | Curve | Polygon | Label


@dataclass(frozen=True, slots=True)
class Picture:
    """Everything to be drawn, back to front: the neck (the same for many pictures), then the marks upon it.

    name and words are its text alternative: the words alone let a person form the same shape.
    """

    width: float
    height: float
    neck: tuple[Mark, ...]
    marks: tuple[Mark, ...]
    name: str = ""
    words: str = ""
    player_view: bool = False
    left_handed: bool = False
    strings: int = 6


@dataclass(frozen=True, slots=True)
class Linked:
    """Marks that lead to a place when pressed."""

    address: str
    marks: tuple[Mark, ...]


@dataclass(frozen=True, slots=True)
class Diagram:
    """A drawing that is no picture of the neck, so no switch of the reader's turns it; sizes as in Picture.

    linked lies below the other marks, and is all of it that can be pressed.
    """

    width: float
    height: float
    marks: tuple[Mark, ...]
    linked: tuple[Linked, ...] = ()
    name: str = ""
    words: str = ""
