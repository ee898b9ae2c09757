"""Writes a picture as SVG. The only place that knows the SVG library, and how a mark becomes an element."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Iterator, Mapping
from functools import lru_cache
from typing import Any

from svgwrite.path import Path
from svgwrite.shapes import Circle as SvgCircle
from svgwrite.shapes import Line, Rect
from svgwrite.shapes import Polygon as SvgPolygon
from svgwrite.text import Text

from fingerpost.render.palette import ATTRIBUTES, FACE, PAPER
from fingerpost.render.picture import Box, Circle, Curve, Diagram, Label, Lines, Linked, Mark, Picture, Polygon, Role
from fingerpost.render.plain import escaped, html_id, without_controls

BASELINE = 0.36
_SPECIAL = re.compile(r"[&<>\"\t\n\r]")
HEADING_ROOM = 52.0
HEADING_SIZE = 38.0
UNITS_PER_EM = 18.0
"""Units of a diagram to an em of the words around it, which the course's own theme writes at 18 px."""


def number(value: float) -> str:
    """A coordinate to a tenth of a unit, without a needless `.0`."""
    return f"{round(value, 1) + 0.0:g}"


def _dress(element: Any, mark: Mark) -> Any:
    element["class"] = mark.role.value
    for name, value in ATTRIBUTES[mark.role].items():
        element[name] = value
    return element


def _lines(mark: Lines) -> Any:
    n = number
    if len(mark.strokes) == 1:
        x1, y1, x2, y2 = mark.strokes[0]
        element = Line((n(x1), n(y1)), (n(x2), n(y2)), debug=False)
    else:
        element = Path("".join(f"M{n(a)} {n(b)}L{n(c)} {n(d)}" for a, b, c, d in mark.strokes), debug=False)
    _dress(element, mark)
    if mark.width is not None:
        element["stroke-width"] = f"{mark.width:g}"
    return element


def _circle(mark: Circle) -> Any:
    return _dress(SvgCircle((number(mark.x), number(mark.y)), number(mark.r), debug=False), mark)


def _box(mark: Box) -> Any:
    place, size = (number(mark.x), number(mark.y)), (number(mark.width), number(mark.height))
    return _dress(Rect(place, size, rx=number(mark.radius), debug=False), mark)


def _curve(mark: Curve) -> Any:
    start, c1, c2, end = (f"{number(x)} {number(y)}" for x, y in (mark.start, mark.c1, mark.c2, mark.end))
    return _dress(Path(f"M{start}C{c1} {c2} {end}", debug=False), mark)


def _polygon(mark: Polygon) -> Any:
    return _dress(SvgPolygon([(number(x), number(y)) for x, y in mark.points], debug=False), mark)


def _label(mark: Label) -> Any:
    place = (number(mark.x), number(mark.y + BASELINE * mark.size))
    element = _dress(Text(without_controls(mark.text), insert=place, debug=False), mark)
    element["font-size"] = f"{mark.size:g}"
    if mark.upwards:
        element["transform"] = f"rotate(-90 {number(mark.x)} {number(mark.y)})"
    for name, value in _said_of(mark):
        element[name] = value
    return element


def _said_of(mark: Label) -> Iterator[tuple[str, str]]:
    """What only some labels have: another anchor; the name that a page can write otherwise, and how it is read."""
    if mark.anchor != "middle":
        yield "text-anchor", mark.anchor
    if mark.name is not None:
        yield "data-name", mark.name
    if mark.aloud is not None and mark.aloud != mark.text:
        yield "role", "img"
        yield "aria-label", mark.aloud


_ELEMENTS: dict[type[Mark], Callable[[Any], Any]] = {
    Lines: _lines,
    Circle: _circle,
    Box: _box,
    Curve: _curve,
    Polygon: _polygon,
    Label: _label,
}


@lru_cache(maxsize=8192)
def element(mark: Mark) -> str:
    """One mark as an SVG element. Marks repeat from picture to picture, so each is written once."""
    return _written(_ELEMENTS[type(mark)](mark))


def _written(drawn: Any) -> str:
    """An element without children as the library writes it, where nothing in it must be escaped; that is quicker."""
    node = drawn.get_xml()
    if len(node) or _SPECIAL.search("".join((*node.attrib.values(), node.text or ""))):
        return str(drawn.tostring())
    attributes = "".join([f' {name}="{value}"' for name, value in node.attrib.items()])
    return f"<{node.tag}{attributes}>{node.text}</{node.tag}>" if node.text else f"<{node.tag}{attributes} />"


@lru_cache(maxsize=512)
def _together(marks: tuple[Mark, ...]) -> str:
    return "".join(map(element, marks))


def svg(
    picture: Picture, ident: str, classes: Iterable[str] = ("fp-frame",), turnable: bool = True, scale: float = 1
) -> str:
    """The picture as an `<svg>` element to stand in a page. `ident` must be unique in it; no other id is made.

    turnable: the picture says how it stands (data-view, data-hand) and its view box after a quarter turn
    (data-turned), so that a page may mirror and turn it by the group `fp-neck`, which holds all that is drawn.
    scale: the size where no style sheet sets one.
    """
    box = {
        "class": " ".join(classes),
        "viewBox": f"0 0 {number(picture.width)} {number(picture.height)}",
        "width": f"{round(picture.width * scale)}",
    }
    return _svg(picture, ident, {**box, **(_stance(picture) if turnable else {})}, _drawn(picture))


def diagram_svg(diagram: Diagram, ident: str, classes: str) -> str:
    """A diagram as an `<svg>` element to stand in a page, as wide as its text needs; it grows with the reader's."""
    ident = html_id(ident)
    n = number
    size = f'viewBox="0 0 {n(diagram.width)} {n(diagram.height)}" width="{diagram.width / UNITS_PER_EM:.2f}em"'
    role = "group" if diagram.linked else "img"
    said = f'role="{role}" aria-labelledby="{ident}-t" aria-describedby="{ident}-d"'
    title = f'<title id="{ident}-t">{escaped(diagram.name)}</title><desc id="{ident}-d">{escaped(diagram.words)}</desc>'
    drawn = "".join(map(_link, diagram.linked)) + _together(diagram.marks)
    opening = f'<svg xmlns="http://www.w3.org/2000/svg" class="{escaped(classes)}" {size} {said}>'
    return f"{opening}{title}<g {_TEXT}>{drawn}</g></svg>"


def _link(linked: Linked) -> str:
    return f'<a href="{escaped(linked.address)}">{"".join(map(element, linked.marks))}</a>'


def svg_file(picture: Picture, heading: str = "", paper: bool = True) -> str:
    """The picture as a file of its own, with its size and colours in it; a heading above, paper behind if asked."""
    room = HEADING_ROOM if heading else 0
    width, height = number(picture.width), number(picture.height + room)
    drawn = f'<g transform="translate(0 {number(room)})">{_drawn(picture)}</g>' if heading else _drawn(picture)
    if heading:
        size = min(HEADING_SIZE, 1.6 * picture.width / max(1, len(heading)))
        label = element(Label(Role.HEADING, picture.width / 2, room / 2 + 4, heading, size))
        drawn = f"<g {_TEXT}>{label}</g>{drawn}"
    if paper:
        drawn = f'<rect width="100%" height="100%" fill="{PAPER}"/>{drawn}'
    box = {"viewBox": f"0 0 {width} {height}", "width": width, "height": height}
    return f'<?xml version="1.0" encoding="UTF-8"?>\n{_svg(picture, "picture", box, drawn)}\n'


def _svg(picture: Picture, ident: str, box: Mapping[str, str], drawn: str) -> str:
    ident = html_id(ident)
    role = {"role": "img", "aria-labelledby": f"{ident}-t {ident}-d"}
    opening = {"xmlns": "http://www.w3.org/2000/svg", **box, **role}
    attributes = " ".join(f'{name}="{escaped(value)}"' for name, value in opening.items())
    title = f'<title id="{ident}-t">{escaped(picture.name)}</title>'
    return f'<svg {attributes}>{title}<desc id="{ident}-d">{escaped(picture.words)}</desc>{drawn}</svg>'


def _drawn(picture: Picture) -> str:
    return f'<g class="fp-neck" {_TEXT}>{_together(picture.neck)}{_together(picture.marks)}</g>'


_TEXT = f'font-family="{FACE}" text-anchor="middle"'


def _stance(picture: Picture) -> dict[str, str]:
    """How the picture stands, and its view box after the quarter turn to the other view."""
    width, height = number(picture.width), number(picture.height)
    against = picture.player_view == picture.left_handed
    return {
        "data-view": "player" if picture.player_view else "upright",
        "data-hand": "left" if picture.left_handed else "right",
        "data-turned": f"0 -{width} {height} {width}" if against else f"-{height} 0 {height} {width}",
    }
