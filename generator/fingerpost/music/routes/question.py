"""A question for a route: from where to where, on which neck, by which hand, under which conditions."""

from __future__ import annotations

from dataclasses import dataclass, field, replace

from fingerpost.music.chord import Chord
from fingerpost.music.fretboard import Fretboard
from fingerpost.music.hand import Hand
from fingerpost.music.neighbours import USUAL_FRETS
from fingerpost.music.routes.chord_shapes import shapes_of
from fingerpost.music.routes.conditions import Conditions
from fingerpost.music.routes.neck import Neck
from fingerpost.music.shape import Shape

OPEN_POSITION = (1, 4)
"""The frets of the open position (common practice)."""


@dataclass(frozen=True)
class End:
    """One end of a route: a shape; or a chord, meaning any of some shapes, or (none given) any that it has."""

    text: str
    shapes: tuple[Shape, ...] = ()
    chord: Chord | None = None

    @property
    def chosen(self) -> bool:
        """Whether the route may choose among shapes."""
        return self.chord is not None

    @property
    def frets(self) -> tuple[int, ...]:
        """The frets that the shape presses, where it is just one shape."""
        return () if self.chosen else tuple(press.fret for press in self.shapes[0].presses)


@dataclass(frozen=True)
class Question:
    """unheard: also moves of which nothing is heard."""

    start: End
    end: End
    fretboard: Fretboard = field(default_factory=Fretboard)
    hand: Hand = field(default_factory=Hand)
    conditions: Conditions = field(default_factory=Conditions)
    unheard: bool = False

    @property
    def window(self) -> tuple[int, int]:
        """The frets that fingers may use: those asked for, else twelve, or as far up as the shapes given."""
        farthest = max([USUAL_FRETS, *self.start.frets, *self.end.frets])
        low, high = self.conditions.position or (1, farthest)
        return low, min(high, self.fretboard.highest_fret)

    @property
    def near(self) -> tuple[int, int]:
        """Where shapes of a chord are looked for first: the window asked for; within reach of the shape given; else
        the open position."""
        frets, span = (*self.start.frets, *self.end.frets), self.hand.limits.span_frets
        low, high = self.window
        if self.conditions.position:
            return low, high
        if not frets:
            return max(low, OPEN_POSITION[0]), min(high, OPEN_POSITION[1])
        return max(low, min(frets) - span), min(high, max(frets) + span)

    @property
    def used_hand(self) -> Hand:
        """The hand, without bars where none are wanted."""
        if not self.conditions.no_bar:
            return self.hand
        return replace(self.hand, limits=replace(self.hand.limits, bar_strings=(1, 1, 1, 1)))


@dataclass(frozen=True, eq=False)
class Atlas:
    """What has been worked out about necks and chords, kept for the next question of the same command."""

    _necks: dict[tuple[Fretboard, Hand, tuple[int, int], bool], Neck] = field(default_factory=dict)
    _shapes: dict[tuple[Chord, Fretboard, Hand, tuple[int, int]], tuple[Shape, ...]] = field(default_factory=dict)

    def neck(self, question: Question) -> Neck:
        """The graph that a question is about."""
        key = question.fretboard, question.used_hand, question.window, question.unheard
        if key not in self._necks:
            fretboard, hand, (low, high), unheard = key
            self._necks[key] = Neck(fretboard, hand, low, high, unheard)
        return self._necks[key]

    def shapes(self, end: End, question: Question) -> tuple[Shape, ...]:
        """The shapes that may stand at an end, those that break a condition left out.

        A chord's shapes near by, else those in the whole window.
        """
        found = end.shapes
        if end.chord is not None and not found:
            found = self._of(end.chord, question, question.near) or self._of(end.chord, question, question.window)
        return self._keeping(found, question)

    def _of(self, chord: Chord, question: Question, window: tuple[int, int]) -> tuple[Shape, ...]:
        key = chord, question.fretboard, question.used_hand, window
        if key not in self._shapes:
            self._shapes[key] = shapes_of(chord, question.fretboard, question.used_hand, *window)
        return self._keeping(self._shapes[key], question)

    @staticmethod
    def _keeping(shapes: tuple[Shape, ...], question: Question) -> tuple[Shape, ...]:
        asked, board = question.conditions, question.fretboard
        return tuple(shape for shape in shapes if not asked.broken_by(shape, board)) if asked.asked else shapes
