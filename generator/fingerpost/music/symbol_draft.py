"""What a symbol has said so far, and the chord that comes of it."""

from __future__ import annotations

from dataclasses import dataclass, field

from fingerpost.music.canonical import canonical
from fingerpost.music.chord import Chord
from fingerpost.music.degree import Degree, chord_intervals
from fingerpost.music.pitch import Note

_EXTENSIONS = (9, 11, 13)
# Degrees as some people count them, and as this package does.
_RENAMED = {2: 9, 4: 11, 6: 13}
_THIRD = 3
_FIFTH = {"augmented": 1, "diminished": -1}


@dataclass
class Draft:
    """A chord in the making: the triad, then what is added, altered, suspended and left out, in the order read."""

    root: Note
    triad: str = "major"
    seventh: int = 0
    extension: int = 0
    suspended: str = ""
    degrees: list[Degree] = field(default_factory=list)

    @property
    def has_seventh(self) -> bool:
        """Whether a seventh was named."""
        return any(degree.value == 7 for degree in self.degrees)

    def extend(self, number: int, seventh: int) -> None:
        """A seventh (0 minor, 1 major, -1 diminished) and all thirds on it up to a number."""
        self.extension = number
        self.add(7, seventh)
        for value in _EXTENSIONS:
            if value <= number:
                self.add(value, 0)

    def add(self, value: int, alter: int) -> None:
        """A degree more; a sixth beside a seventh is a thirteenth, a second a ninth, a fourth an eleventh."""
        if value in _RENAMED and not (value == 6 and alter == 0 and not self.has_seventh):
            value = _RENAMED[value]
        degree = Degree(value, alter, "add")
        if degree not in self.degrees:
            self.degrees.append(degree)

    def alter(self, value: int, alter: int) -> None:
        """A degree raised or lowered: the fifth or an extension that is there, else added so."""
        value = _RENAMED.get(value, value)
        changed = any(degree.value == value and degree.type == "alter" for degree in self.degrees)
        there = value == 5 or 9 <= value <= self.extension
        degree = Degree(value, alter, "alter" if there and not changed else "add")
        if degree._replace(type="alter") not in self.degrees:
            self.degrees.append(degree)

    def leave_out(self, value: int) -> bool:
        """A degree less; false where the chord has none. A third may be left out of what never had one: C5(no3)."""
        if not self._has(value):
            value = _RENAMED.get(value, value)
        if not self._has(value):
            return value == _THIRD
        self.degrees.append(Degree(value, 0, "subtract"))
        return True

    def _has(self, value: int) -> bool:
        return any(interval.number == value for interval in chord_intervals(*self.quality()))

    def quality(self) -> tuple[str, tuple[Degree, ...]]:
        """Kind and degrees in their plainest form."""
        kind, degrees = canonical(self._kind(), tuple(self._all_degrees()))
        numbers = {interval.number for interval in chord_intervals(kind, ())}
        moved = {degree.value: degree for degree in degrees if degree.type == "alter" and degree.value not in numbers}
        kept = (degree for degree in degrees if degree not in moved.values() and not _natural(degree, moved))
        added = (Degree(degree.value, degree.alter, "add") for degree in moved.values())
        return canonical(kind, (*kept, *added))

    def _kind(self) -> str:
        if self.suspended:
            return "suspended-second" if self.suspended == "2" else "suspended-fourth"
        return self.triad

    def _all_degrees(self) -> list[Degree]:
        if not self.suspended:
            return self.degrees
        fourth = Degree(11, 0, "add")
        degrees = [degree for degree in self.degrees if degree != fourth or self.suspended == "2"]
        if self.suspended == "24" and Degree(9, 0, "add") not in degrees:
            degrees.append(Degree(9, 0, "add"))
        if self.triad in _FIFTH:
            degrees.append(Degree(5, _FIFTH[self.triad], "alter"))
        return degrees

    def chord(self) -> Chord:
        """The chord, without a bass."""
        return Chord(self.root, *self.quality())


def _natural(degree: Degree, moved: dict[int, Degree]) -> bool:
    return degree.type == "add" and degree.alter == 0 and degree.value in moved
