"""The map of a way: a row a shape, the trunk between neighbours, brackets for returns and leaps; words beside it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence

from fingerpost.course.next_shapes import Untaught
from fingerpost.course.way_map import Known, Leg, Stop, WayMap
from fingerpost.music.chord import Chord
from fingerpost.music.chord_symbol import write
from fingerpost.render.look import Look
from fingerpost.render.name_styles import longest_form
from fingerpost.render.picture import Box, Circle, Curve, Diagram, Label, Lines, Linked, Mark, Role
from fingerpost.render.plain import html_id
from fingerpost.render.way_layout import STOP, Bracket, Layout, Row, layout

NAME, NOTE = 18.0, 15.0
"""Sizes of a name and of what else is written, in units; both are read at arm's length."""
WIDE, NARROW = 0.64, 0.55
"""How wide a letter is on average, as a share of the size: in the bold face of names, and in that of words."""
LANE, SLIM, TURN, COUNT = 22.0, 15.0, 8.0, 10.0
"""Between two brackets, with numbers on them and without; how round they are; a number's circle."""
GAP, MARGIN, RING, NEAR_ROW, SHORTEST = 10.0, 6.0, 5.0, 20.0, 20.0
Near = Mapping[Known, Sequence[Untaught]]


def way_diagram(way: WayMap, look: Look, name: str, near: Near | None = None) -> Diagram:
    """The map. near: for some stops chords that are not taught, one finger away; they stand at the left."""
    beside = [tuple((near or {}).get(stop.known, ())) if not stop.met_before else () for stop in way.stops]
    head = NEAR_ROW + 4 if any(beside) else 0.0
    placed = layout(way, [NEAR_ROW * len(chords) + 6 for chords in beside], head)
    left = _near_width(beside, look)
    names = max([2 * STOP, *(_stop_width(stop, look) for stop in way.stops)])
    trunk = MARGIN + left + names + GAP + STOP / 2
    marks: list[Mark] = [*_heading(look, head)]
    for stop, row, chords in zip(way.stops, placed.rows, beside, strict=True):
        marks += _near(chords, row, MARGIN + left, trunk - GAP - STOP / 2 - _stop_width(stop, look), look)
    lane = LANE if any(leg.fingers > 1 for leg in way.legs) else SLIM
    marks += _lines(placed, trunk, lane)
    for stop, row in zip(way.stops, placed.rows, strict=True):
        marks.append(_stop_mark(stop, row, trunk))
    linked = [_linked(stop, row, MARGIN + left, trunk, look) for stop, row in zip(way.stops, placed.rows, strict=True)]
    width = trunk + STOP / 2 + (TURN + lane * placed.lanes if placed.lanes else 0) + COUNT + MARGIN
    return Diagram(width, placed.height, tuple(marks), tuple(linked), name, in_words(way, look))


def in_words(way: WayMap, look: Look) -> str:
    """The map as sentences: how many shapes, then each change with its number of fingers."""
    said = look.words
    shapes = said.count("map.shapes", len(way.stops))
    legs = (said.count("map.leg", leg.fingers, **_ends(way, leg, look)) for leg in way.legs)
    return " ".join([shapes, *legs])


def of_many_fingers(way: WayMap, look: Look) -> list[str]:
    """Each change that takes more than one finger, in words."""
    many = (leg for leg in way.legs if leg.fingers > 1)
    return [look.words.count("map.many", leg.fingers, **_ends(way, leg, look)) for leg in many]


def stop_name(stop: Stop, look: Look) -> str:
    """What a stop is called in a sentence; shapes of one name are told apart."""
    chord = stop.naming.shown
    name = look.voice(stop.fretboard).plain.chord(chord) if chord else look.words.say("label.silence")
    return name if stop.version == 1 else look.words.say("map.version", name=name, number=stop.version)


def _ends(way: WayMap, leg: Leg, look: Look) -> dict[str, str]:
    return {"one": stop_name(way.stops[leg.one], look), "other": stop_name(way.stops[leg.other], look)}


def _width(chord: Chord | None, look: Look, size: float = NAME, letter: float = WIDE) -> float:
    """The room of a name, in whichever style of notes a reader may choose."""
    longest = longest_form(write(chord), look.style) if chord else len(look.words.say("label.silence"))
    return size * letter * longest


def _stop_width(stop: Stop, look: Look) -> float:
    note = NOTE * NARROW * len(_version(stop, look))
    return max(_width(stop.naming.shown, look), note)


def _near_width(beside: Iterable[Sequence[Untaught]], look: Look) -> float:
    names = [_width(near.chord, look, NOTE, NARROW) for chords in beside for near in chords]
    return max(names) + GAP + 4 * RING + SHORTEST if names else 0.0


def _version(stop: Stop, look: Look) -> str:
    return "" if stop.version == 1 else look.words.say("map.shape", number=stop.version)


def _heading(look: Look, head: float) -> Iterator[Mark]:
    if head:
        yield Label(Role.MAP_NOTE, MARGIN, head / 2, look.words.say("map.near"), NOTE, anchor="start")


def _near(chords: Sequence[Untaught], row: Row, right: float, name: float, look: Look) -> Iterator[Mark]:
    """Chords that are not taught: a dashed ring each, joined to the name that they are one finger away from."""
    voice = look.voice_of_names
    for number, near in enumerate(chords):
        y = row.middle + NEAR_ROW * (number - (len(chords) - 1) / 2)
        ring = right - GAP - RING
        text, plain = voice.chord(near.chord), write(near.chord)
        aloud = voice.chord_aloud(near.chord)
        yield Label(Role.MAP_NOTE, ring - 2 * RING, y, text, NOTE, anchor="end", name=plain, aloud=aloud)
        yield Circle(Role.MAP_NEAR, ring, y, RING)
        yield Lines(Role.MAP_NEAR, ((ring + RING, y, name - 4, row.middle),))


def _linked(stop: Stop, row: Row, left: float, trunk: float, look: Look) -> Linked:
    """A row's name and all around it, as one thing to press."""
    voice, note = look.voice(stop.fretboard).plain, _version(stop, look)
    chord, x = stop.naming.shown, trunk - STOP / 2 - GAP
    middle = row.middle - (NOTE / 2 + 2 if note else 0)
    if chord:
        plain, aloud = write(chord), voice.chord_aloud(chord)
        name = Label(Role.MAP_NAME, x, middle, voice.chord(chord), NAME, anchor="end", name=plain, aloud=aloud)
    else:
        name = Label(Role.MAP_NAME, x, middle, look.words.say("label.silence"), NAME, anchor="end")
    target = Box(Role.MAP_TARGET, left, row.top + 1, trunk + STOP / 2 + 2 - left, row.bottom - row.top - 2, 4)
    below = (Label(Role.MAP_NOTE, x, row.middle + NAME / 2 + 1, note, NOTE, anchor="end"),) if note else ()
    file, block, step = stop.place
    return Linked(look.links.step(file, block, html_id(step)), (target, name, *below))


def _stop_mark(stop: Stop, row: Row, trunk: float) -> Mark:
    role = Role.MAP_MET if stop.met_before else Role.MAP_STOP
    return Box(role, trunk - STOP / 2, row.middle - row.stop / 2, STOP, row.stop, STOP / 2)


def _lines(placed: Layout, trunk: float, lane: float) -> Iterator[Mark]:
    for leg in placed.trunk:
        upper, lower = placed.rows[leg.one], placed.rows[leg.other]
        ends = (upper.middle + upper.stop / 2, lower.middle - lower.stop / 2)
        yield Lines(_role(leg), ((trunk, ends[0], trunk, ends[1]),))
        yield from _count(leg, trunk, upper.bottom)
    for bracket in placed.brackets:
        yield from _bracket(bracket, placed, trunk + STOP / 2, lane)


def _bracket(bracket: Bracket, placed: Layout, start: float, lane: float) -> Iterator[Mark]:
    """Out of one stop, along its lane, into the other; rounded, as a way is."""
    role, x = _role(bracket.leg), start + TURN + lane * bracket.lane + COUNT
    top, bottom, turn = bracket.top, bracket.bottom, x - TURN
    straight = ((start, top, turn, top), (x, top + TURN, x, bottom - TURN), (turn, bottom, start, bottom))
    yield Lines(role, straight)
    bend = TURN / 2
    yield Curve(role, (turn, top), (turn + bend, top), (x, top + bend), (x, top + TURN))
    yield Curve(role, (x, bottom - TURN), (x, bottom - bend), (turn + bend, bottom), (turn, bottom))
    middle = (bracket.leg.one + bracket.leg.other) // 2
    yield from _count(bracket.leg, x, placed.rows[middle].bottom)


def _role(leg: Leg) -> Role:
    return Role.MAP_MANY if leg.fingers > 1 else Role.MAP_LINE


def _count(leg: Leg, x: float, y: float) -> Iterator[Mark]:
    """How many fingers, where it is more than one; between two rows, where no other line turns."""
    if leg.fingers > 1:
        yield Circle(Role.MAP_COUNT, x, y, COUNT)
        yield Label(Role.MAP_NUMBER, x, y, str(leg.fingers), NOTE)
