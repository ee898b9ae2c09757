"""Keys: the notes of a scale, and how a key spells any pitch class."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cached_property

from fingerpost.music.interval import Interval
from fingerpost.music.pitch import Note, plain_accidentals

_LINE_OF_FIFTHS = "FCGDAEB"
_KEY = re.compile(r"([A-G](?:#|b)?)\s*(m|min|minor|maj|major|)")
_MAJOR = tuple(Interval.parse(word) for word in "1 2 3 4 5 6 7".split())
_MINOR = tuple(Interval.parse(word) for word in "1 2 b3 4 5 b6 b7".split())
_MOST_ACCIDENTALS = 7


def _fifths(note: Note) -> int:
    """Place on the line of fifths, C = 0, G = 1, F = -1."""
    return _LINE_OF_FIFTHS.index(note.letter) - 1 + 7 * note.alter


def _at_fifths(place: int) -> Note:
    alter, index = divmod(place + 1, 7)
    return Note(_LINE_OF_FIFTHS[index], alter)


@dataclass(frozen=True, slots=False)
class Key:
    """A major or minor key by its first note."""

    tonic: Note
    minor: bool = False

    @classmethod
    def parse(cls, text: str) -> Key:
        """Reads `G`, `Em`, `Bb`, `F# minor`; raises ValueError for anything else or for over seven accidentals."""
        match = _KEY.fullmatch(plain_accidentals(text.strip()))
        if match is None:
            raise ValueError(f"{text!r} is no key; expected a note, with m for minor, such as G, Em or Bb")
        key = cls(Note.parse(match[1]), match[2].startswith("mi") or match[2] == "m")
        if abs(key.accidentals) > _MOST_ACCIDENTALS:
            raise ValueError(f"{text!r} would need over seven sharps or flats; expected a key such as G, Em or Bb")
        return key

    @property
    def accidentals(self) -> int:
        """Sharps (+) or flats (-) of the key signature."""
        return _fifths(self.tonic) - (3 if self.minor else 0)

    @cached_property
    def notes(self) -> tuple[Note, ...]:
        """The seven notes of the scale (natural minor where minor), from the tonic."""
        return tuple(interval.above(self.tonic) for interval in (_MINOR if self.minor else _MAJOR))

    @cached_property
    def _spelling(self) -> tuple[Note, ...]:
        lowest = self.accidentals - (2 if self.minor else 5)
        notes = [_at_fifths(lowest + place) for place in range(12)]
        return tuple(sorted(notes, key=lambda note: note.pitch_class))

    def spell(self, pitch_class: int) -> Note:
        """The note of a pitch class in this key; outside the scale, by the harmonic chromatic scale.

        Major: lowered second, third, sixth and seventh, raised fourth. Minor: raised sixth and seventh, and the
        raised third and fourth; the lowered second. Common practice.
        """
        return self._spelling[pitch_class % 12]

    def has(self, pitch_class: int) -> bool:
        """Whether the pitch class belongs to the scale."""
        return any(note.pitch_class == pitch_class % 12 for note in self.notes)

    def __str__(self) -> str:
        return f"{self.tonic}{'m' if self.minor else ''}"
