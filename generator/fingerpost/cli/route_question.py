"""A question for a route out of the two words that name its ends, under what the options ask for."""

from __future__ import annotations

import re
from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING

from fingerpost.cli.answer import QuestionError
from fingerpost.music.chord import Chord
from fingerpost.music.chord_symbol import SymbolError, read, write
from fingerpost.music.fretboard import Fretboard
from fingerpost.music.hand import Hand
from fingerpost.music.routes.conditions import Conditions
from fingerpost.music.routes.question import Atlas, End, Question
from fingerpost.music.shape import Shape
from fingerpost.music.shape_text import write_shape

if TYPE_CHECKING:
    from fingerpost.course.model import Course


@dataclass(frozen=True)
class Asked:
    """What the options ask for; ends are read by it. course: the course whose shapes the chords stand for."""

    fretboard: Fretboard
    hand: Hand
    conditions: Conditions
    alternatives: int
    course: Course | None = None
    atlas: Atlas = field(default_factory=Atlas)

    def question(self, start: str, end: str) -> Question:
        """The question for a route from start to end. Raises QuestionError."""
        ends = (self.end(start), self.end(end))
        for place, one in zip(("starts", "ends"), ends, strict=True):
            if not one.chosen and "avoid" in self.conditions.broken_by(one.shapes[0], self.fretboard):
                raise QuestionError(f"--avoid names {one.text}, where the route {place}", "leave it out of --avoid")
        return Question(*ends, self.fretboard, self.hand, self.conditions)

    def end(self, text: str) -> End:
        """A shape, or a chord by name. Raises QuestionError."""
        return self._chord(text) if re.match(r"[A-WYZa-wyz]", text) else self._shape(text)

    def _shape(self, text: str) -> End:
        from fingerpost.cli.sound import fingered

        shape = fingered(text, self.fretboard, self.hand)
        if not shape.sounding_strings:
            raise QuestionError(f"In {text!r} no string sounds, so a route can neither start nor end there")
        if shape.damped:
            plain = replace(shape, damped=(), unstruck=shape.unstruck | {string for string, _ in shape.damped})
            raise QuestionError(
                f"In {text!r} a finger damps a string; a route cannot count on that", write_shape(plain)
            )
        for fault in self.hand.faults(shape, self.fretboard):
            if fault.limit in ("one_fret", "one_spot", "neck"):
                raise QuestionError(f"Nobody can hold {text!r}: {fault.message}")
        return End(text, (shape,))

    def _chord(self, text: str) -> End:
        chord = chord_called(text)
        if self.course is None:
            return End(text, (), chord)
        taught = taught_shapes(self.course, self.fretboard)
        shapes = tuple(dict.fromkeys(shape for known, shape in taught if known == chord))
        if not shapes:
            names = ", ".join(dict.fromkeys(write(known) for known, _ in taught)) or "none on this neck"
            raise QuestionError(f"This course teaches no {text}; the chords that it teaches: {names}")
        return End(text, shapes, chord)


def chord_called(text: str) -> Chord:
    """The chord of a symbol. Raises QuestionError with the nearest way to write it."""
    try:
        return read(text)
    except SymbolError as problem:
        near = text[:1].upper() + text[1:]
        fix = (
            f"{near}, or a shape such as x32010"
            if near != text and reads(near)
            else "a chord such as Am, or a shape such as x32010"
        )
        raise QuestionError(
            f"{text!r} is neither a shape nor a chord: {problem.message}; expected {problem.expected}", fix
        ) from problem


def reads(text: str) -> bool:
    """Whether a text is a chord symbol."""
    try:
        read(text)
    except SymbolError:
        return False
    return True


def taught_shapes(course: Course, fretboard: Fretboard) -> list[tuple[Chord, Shape]]:
    """The shapes that a course teaches on this neck, each with its chord, in the course's order."""
    return [
        (entry.chord, met.shape)
        for entry in course.chords
        for met in entry.shapes
        if met.fretboard == fretboard and met.shape.has_fingers and not met.shape.damped
    ]
