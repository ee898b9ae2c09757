"""The moves that one line of a lesson can ask of the hand, as data."""

from __future__ import annotations

from dataclasses import dataclass

from fingerpost.music.shape import Finger, Press


@dataclass(frozen=True, slots=True)
class Place:
    """A finger goes to a fret over the strings `low` down to `high` (equal: one string), from wherever it is."""

    finger: Finger
    fret: int
    low: int
    high: int

    @property
    def press(self) -> Press:
        """What the finger then presses."""
        return Press(self.finger, self.fret, self.low, self.high)


@dataclass(frozen=True, slots=True)
class Lift:
    """A finger leaves the strings."""

    finger: Finger


@dataclass(frozen=True, slots=True)
class Exchange:
    """A finger that is up takes the place of one that is down, which leaves: no sound changes."""

    finger: Finger
    replaced: Finger


@dataclass(frozen=True, slots=True)
class Shift:
    """Every finger that is down slides by so many frets, up the neck where positive."""

    by: int


@dataclass(frozen=True, slots=True)
class Mute:
    """A string is silenced: by a finger that is down and leans on it, or (finger None) by not being struck."""

    string: int
    finger: Finger | None = None


@dataclass(frozen=True, slots=True)
class Strum:
    """These strings, and no others, are struck from here on."""

    strings: frozenset[int]


Move = Place | Lift | Exchange | Shift | Mute | Strum
