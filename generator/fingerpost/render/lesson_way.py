"""What stands at the end of a lesson: the map of its shapes, and folded away how hard each change is."""

from __future__ import annotations

from collections.abc import Iterator

from fingerpost.course.curve import Change, LessonLoad
from fingerpost.course.model import Lesson, Step
from fingerpost.course.way_map import way_of
from fingerpost.music.fretboard import Fretboard
from fingerpost.render.curve import Dot, curve
from fingerpost.render.look import Look
from fingerpost.render.named import named
from fingerpost.render.parts import heading, items, tag
from fingerpost.render.picture import Diagram
from fingerpost.render.plain import escaped, html_id
from fingerpost.render.svg import diagram_svg
from fingerpost.render.way_map import of_many_fingers, way_diagram

IDENT = "fp-way"


def lesson_way(lesson: Lesson, load: LessonLoad | None, look: Look) -> str:
    """The section; "" for a page in which no shape changes."""
    way = way_of(lesson)
    if len(way.stops) < 2 or load is None:
        return ""
    said = look.words
    title = heading(look.heading, escaped(said.say("map.title")), "fp-title")
    lead = tag("p", escaped(said.say("map.lead")))
    drawn = shown(way_diagram(way, look, said.say("map.title")), f"{IDENT}-map", "fp-map-drawn")
    return tag(
        "section", title + lead + drawn + flags(of_many_fingers(way, look), look) + load_html(load, look), "fp-map"
    )


def shown(diagram: Diagram, ident: str, classes: str) -> str:
    """A diagram in a frame that scrolls where it is wider than the page."""
    return tag("div", diagram_svg(diagram, ident, classes), "fp-map-frame wide")


def flags(many: list[str], look: Look) -> str:
    """What the dashed lines say, in words; "" where every change takes one finger."""
    if not many:
        return ""
    return tag("p", escaped(look.words.say("map.key_many"))) + tag("ul", items(map(escaped, many)), "fp-map-flags")


def load_html(load: LessonLoad, look: Look) -> str:
    """The curve of a lesson and its figures, folded away."""
    said = look.words
    hardest = load.hardest
    words = said.say("curve.words", changes=len(load.changes), hardest=_points(hardest.points), mean=_points(load.mean))
    jumps = jumps_said(load.jumps, look)
    dots = [Dot(change.points, change.jump) for change in load.changes]
    drawn = curve(dots, said.say("curve.change"), said.say("curve.title"), f"{words} {jumps}", said.say("curve.points"))
    body = tag("p", escaped(f"{words} {jumps}")) + shown(drawn, f"{IDENT}-curve", "fp-curve-drawn") + _table(load, look)
    note = tag("p", escaped(said.say("curve.rule")), "fp-map-small")
    return tag("details", tag("summary", escaped(said.say("curve.title"))) + body + note, "fp-map-load")


def jumps_said(jumps: int, look: Look) -> str:
    """How many changes jump, as a sentence."""
    return look.words.count("curve.jumps", jumps) if jumps else look.words.say("curve.no_jump")


def _points(points: float) -> str:
    return f"{points:.1f}"


def _table(load: LessonLoad, look: Look) -> str:
    heads = "".join(tag("th", escaped(look.words.say(f"curve.{column}")), scope="col") for column in COLUMNS)
    caption = tag("caption", escaped(look.words.say("curve.caption")), "fp-hidden")
    rows = "".join(_rows(load, look))
    table = tag("table", caption + tag("thead", tag("tr", heads)) + tag("tbody", rows), "fp-map-figures")
    return tag("div", table, "wide")


COLUMNS = ("number", "from_to", "fingers", "points")


def _rows(load: LessonLoad, look: Look) -> Iterator[str]:
    for number, change in enumerate(load.changes, 1):
        file, block, step = change.place
        ends = look.words.say("curve.between", one=name_of(change.before, change.fretboard, look),
                              other=name_of(change.step, change.fretboard, look))  # fmt: skip
        link = tag("a", named(ends), href=look.links.step(file, block, html_id(step)))
        cells = tag("td", link) + tag("td", str(change.fingers)) + tag("td", _cell(change, look))
        yield tag("tr", tag("th", str(number), scope="row") + cells)


def _cell(change: Change, look: Look) -> str:
    points = _points(change.points)
    return f"{points} {tag('b', escaped(look.words.say('curve.jump')))}" if change.jump else points


def name_of(step: Step, fretboard: Fretboard, look: Look) -> str:
    """What a step is called in a sentence that becomes markup."""
    chord = step.naming.shown
    return look.voice(fretboard).chord(chord) if chord else look.words.say("label.silence")
