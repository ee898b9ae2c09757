"""How pages look and where they lead: what a course sets for all its pictures and words, and how links are made."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from fingerpost.course.settings import Settings
from fingerpost.music.chord_symbol import SymbolStyle
from fingerpost.music.fretboard import Fretboard
from fingerpost.render.catalogue import Words, words
from fingerpost.render.layout import UPRIGHT, Facing
from fingerpost.render.voice import ENGLISH, REAL_SIGNS, Voice


def _same_page(lesson: str, block: str, step: str) -> str:
    return f"#{step or block}"


def _as_written(name: str) -> str:
    return name


@dataclass(frozen=True)
class Links:
    """How addresses are made: of a step from lesson file, block id and step id; of an image from what was written.

    page: of another page from its file among the sources.

    The defaults serve a page that stands alone.
    """

    step: Callable[[str, str, str], str] = _same_page
    image: Callable[[str], str] = _as_written
    page: Callable[[str], str] = _as_written


ALONE = Links()


@dataclass(frozen=True)
class Look:
    """The look of a course: its words, symbols, and which way pictures face.

    heading: the level of a block's heading; its steps are one deeper.
    """

    words: Words = ENGLISH
    style: SymbolStyle = REAL_SIGNS
    facing: Facing = UPRIGHT
    heading: int = 2
    links: Links = ALONE

    @classmethod
    def of(cls, settings: Settings, language: str = "en", links: Links | None = None) -> Look:
        """The look that a course's settings ask for. Raises NoSuchWords for a language without a catalogue."""
        facing = Facing(settings.view == "player", settings.handed == "left")
        return cls(words(language), settings.symbol_style, facing, links=links or ALONE)

    def voice(self, fretboard: Fretboard) -> Voice:
        """Who speaks of this neck."""
        return Voice(self.words, fretboard.tuning, self.style, marks=True)

    @property
    def voice_of_names(self) -> Voice:
        """Who names chords, without marks, wherever they are played."""
        return Voice(self.words, style=self.style)
