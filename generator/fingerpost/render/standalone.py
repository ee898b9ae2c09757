"""A picture as a file of its own, for slides and print: its name above, notes and intervals below the strings."""

from __future__ import annotations

from collections.abc import Sequence

from fingerpost.course.model import Naming, Step, StringRow
from fingerpost.course.table import table
from fingerpost.music.fretboard import Fretboard
from fingerpost.music.shape import Shape
from fingerpost.render.figure import picture, step_picture
from fingerpost.render.look import Look
from fingerpost.render.svg import svg_file
from fingerpost.render.text_rows import TextRow
from fingerpost.render.voice import Voice


def step_file(
    step: Step, fretboard: Fretboard, look: Look, rows: bool = True, named: bool = True, paper: bool = True
) -> str:
    """The SVG file of a step. rows: notes and intervals; named: the chord's name above; paper: a light background."""
    voice = look.voice(fretboard).plain
    texts = _rows(step.table, voice) if rows and not step.rest else ()
    heading = voice.chord(step.naming.shown) if named and not step.rest else ""
    return svg_file(step_picture(step, fretboard, look, texts), heading, paper)


def shape_file(
    shape: Shape,
    fretboard: Fretboard,
    look: Look,
    naming: Naming,
    rows: bool = True,
    named: bool = True,
    paper: bool = True,
) -> str:
    """The SVG file of a shape that belongs to no course; rows and name as far as the naming has a chord."""
    voice = look.voice(fretboard).plain
    known = table(shape, None, naming.shown, naming.sounding, fretboard)
    texts = _rows(known, voice) if rows and naming.shown else ()
    heading = voice.chord(naming.shown) if named else ""
    return svg_file(picture(shape, fretboard, naming, look, rows=texts), heading, paper)


def _rows(rows: Sequence[StringRow], voice: Voice) -> tuple[TextRow, ...]:
    said = voice.words
    nothing = said.say("table.nothing")
    notes = tuple((voice.note(row.note) if row.note else nothing, row.changed) for row in rows)
    intervals = tuple((voice.interval_sign(row.interval) if row.interval else nothing, row.changed) for row in rows)
    return TextRow(said.say("table.note"), notes), TextRow(said.say("table.interval"), intervals)
