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


def picture(
    shape: Shape,
    fretboard: Fretboard,
    naming: Naming | None,
    look: Look,
    transition: Transition | None = None,
    rest: bool = False,
) -> Picture:
    """The picture of a shape with its name and words."""
    voice = look.voice(fretboard)
    named = naming.shown if naming else None
    title = (
        voice.chord_aloud(named)
        if named
        else look.words.say("picture.title_shape" if shape.presses else "picture.title_unnamed")
    )
    drawn = draw_bare(fretboard, look.facing) if rest else draw(shape, fretboard, transition, look.facing)
    return replace(drawn, name=title, words=describe(shape, fretboard, voice, rest))


def step_picture(step: Step, fretboard: Fretboard, look: Look) -> Picture:
    """The picture of a step, with what moved to get there."""
    return picture(step.shape, fretboard, step.naming, look, step.transition, step.rest)


def figure_svg(drawn: Picture, ident: str, small: bool = False, turnable: bool = True) -> str:
    """The SVG of a picture for a page; small ones carry a class of their own."""
    return svg(drawn, ident, ("fp-frame", "fp-small") if small else ("fp-frame",), turnable=turnable)
