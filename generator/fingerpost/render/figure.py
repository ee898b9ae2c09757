"""A picture with its text alternative, as it stands on a page or in a file."""

from __future__ import annotations

from dataclasses import replace

from fingerpost.course.model import Naming, Step
from fingerpost.music.fretboard import Fretboard
from fingerpost.music.shape import Shape
from fingerpost.music.transition import Transition
from fingerpost.render.alternative import describe
from fingerpost.render.drawing import draw, draw_bare
from fingerpost.render.look import Look
from fingerpost.render.picture import Picture
from fingerpost.render.svg import svg
from fingerpost.render.text_rows import TextRow
from fingerpost.render.voice import Voice


def picture(
    shape: Shape,
    fretboard: Fretboard,
    naming: Naming | None,
    look: Look,
    transition: Transition | None = None,
    rest: bool = False,
    rows: tuple[TextRow, ...] = (),
) -> Picture:
    """The picture of a shape with its name and words; rows of text below it where no table will stand."""
    voice = look.voice(fretboard)
    capo = look.words.say("picture.capo_name", fret=fretboard.capo)
    if rest:
        drawn = draw_bare(fretboard, look.facing, capo)
    else:
        drawn = draw(shape, fretboard, transition, look.facing, capo, rows)
    return replace(drawn, name=_name(shape, naming, voice), words=describe(shape, fretboard, voice, rest))


def _name(shape: Shape, naming: Naming | None, voice: Voice) -> str:
    if naming and naming.shown:
        return voice.chord_aloud(naming.shown)
    return voice.words.say("picture.title_shape" if shape.presses else "picture.title_unnamed")


def step_picture(step: Step, fretboard: Fretboard, look: Look, rows: tuple[TextRow, ...] = ()) -> Picture:
    """The picture of a step, with what moved to get there."""
    return picture(step.shape, fretboard, step.naming, look, step.transition, step.rest, rows)


def figure_svg(drawn: Picture, ident: str, small: bool = False, turnable: bool = True) -> str:
    """The SVG of a picture for a page; small ones carry a class of their own."""
    classes, scale = (("fp-frame", "fp-small"), 0.5) if small else (("fp-frame",), 1.0)
    return svg(drawn, ident, classes, turnable, scale)
