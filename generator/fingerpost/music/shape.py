"""A shape: which finger presses what, what is struck and what is damped; and what each string then sounds."""

from __future__ import annotations

import enum
from collections.abc import Iterable, Set
from dataclasses import dataclass
from functools import cached_property

from fingerpost.music.hashing import hashed_once


class Finger(enum.IntEnum):
    """A finger of the fretting hand, numbered as the trade does."""

    THUMB = 0
    INDEX = 1
    MIDDLE = 2
    RING = 3
    LITTLE = 4

    @property
    def mark(self) -> str:
        """`T` for the thumb, else the number."""
        return "T" if self is Finger.THUMB else str(int(self))

    @property
    def called(self) -> str:
        """How a sentence names it: `the thumb`, else `finger 1` to `finger 4`."""
        return "the thumb" if self is Finger.THUMB else f"finger {self.mark}"

    @classmethod
    def from_mark(cls, mark: str) -> Finger:
        """Reads `T` or `1` to `4`; raises ValueError for anything else."""
        if mark in ("T", "t"):
            return cls.THUMB
        if mark in ("1", "2", "3", "4"):
            return cls(int(mark))
        raise ValueError(f"{mark!r} is no finger; expected 1, 2, 3, 4 or T for the thumb")


@dataclass(frozen=True, slots=True)
class Press:
    """One finger on one fret, over the strings `low` down to `high` by number (6 to 1: a full bar; equal: one string).

    finger is None where the shape does not say which finger it is. fret counts from the capo and is at least 1.
    """

    finger: Finger | None
    fret: int
    low: int
    high: int

    @property
    def is_bar(self) -> bool:
        """Whether it covers more than one string."""
        return self.low != self.high

    @property
    def strings(self) -> range:
        """The strings it covers, highest-numbered first."""
        return range(self.low, self.high - 1, -1)

    def covers(self, string: int) -> bool:
        """Whether it lies over this string."""
        return self.high <= string <= self.low

    def clashes(self, other: Press) -> bool:
        """Whether both would be on one string at one fret, which two fingers cannot be."""
        return self.fret == other.fret and self.low >= other.high and other.low >= self.high


def _order(press: Press) -> tuple[int, int, int, int]:
    return (press.fret, -press.low, -press.high, -1 if press.finger is None else press.finger)


@hashed_once
@dataclass(frozen=True)
class Shape:
    """What the fretting hand holds and which strings are struck. Strings count from 1, the highest in pitch as a rule.

    presses: every finger that is down, also one behind another; kept in a fixed order, so equal hands compare equal.
    unstruck: strings not struck. damped: strings silenced by a finger that touches them, as (string, finger).
    """

    strings: int
    presses: tuple[Press, ...] = ()
    unstruck: frozenset[int] = frozenset()
    damped: tuple[tuple[int, Finger], ...] = ()

    def __post_init__(self) -> None:
        if len(self.presses) > 1:
            object.__setattr__(self, "presses", tuple(sorted(self.presses, key=_order)))
        if len(self.damped) > 1:
            object.__setattr__(self, "damped", tuple(sorted(self.damped)))

    @cached_property
    def frets(self) -> tuple[int | None, ...]:
        """What each string sounds, index 0 = string 1: a fret, 0 open, None silent.

        The highest fret pressed on a string sounds, else the open string, if it is struck and not damped.
        """
        silent = self.unstruck | {string for string, _ in self.damped} if self.damped else self.unstruck
        return tuple(
            [
                None if string in silent else 0 if press is None else press.fret
                for string, press in enumerate(self.on_top, 1)
            ]
        )

    @cached_property
    def on_top(self) -> tuple[Press | None, ...]:
        """The press at the highest fret of each string, index 0 = string 1, None where nothing presses it."""
        tops: list[Press | None] = [None] * self.strings
        for press in self.presses:  # in the order of frets, so that a higher one comes last
            tops[press.high - 1 : press.low] = [press] * (press.low - press.high + 1)
        return tuple(tops)

    def fret(self, string: int) -> int | None:
        """What a string sounds: a fret, 0 open, None silent."""
        return self.frets[string - 1]

    def sounding_press(self, string: int) -> Press | None:
        """The press that makes the note of a string, None where it is open or nothing presses it."""
        return self.on_top[string - 1]

    def press_of(self, finger: Finger) -> Press | None:
        """What a finger presses, None where it is up."""
        return self._by_finger.get(finger)

    @cached_property
    def _by_finger(self) -> dict[Finger, Press]:
        return {press.finger: press for press in reversed(self.presses) if press.finger is not None}

    @cached_property
    def fingers(self) -> tuple[Finger, ...]:
        """The fingers that are known to be down, in order."""
        return tuple(sorted(self._by_finger))

    @property
    def has_fingers(self) -> bool:
        """Whether every press says which finger it is."""
        return all(press.finger is not None for press in self.presses)

    @property
    def sounding_strings(self) -> tuple[int, ...]:
        """The strings that sound, highest-numbered first."""
        return tuple(string for string in range(self.strings, 0, -1) if self.fret(string) is not None)

    @property
    def struck(self) -> frozenset[int]:
        """The strings that are struck, also those that are damped."""
        return frozenset(range(1, self.strings + 1)) - self.unstruck

    def with_struck(self, strings: Set[int]) -> Shape:
        """The same shape with just these strings struck."""
        return self.with_unstruck(frozenset(range(1, self.strings + 1)) - strings)

    def with_presses(self, presses: Iterable[Press]) -> Shape:
        """The same shape with other presses."""
        return Shape(self.strings, tuple(presses), self.unstruck, self.damped)

    def with_unstruck(self, unstruck: frozenset[int]) -> Shape:
        """The same shape with other strings left unstruck."""
        return self if unstruck == self.unstruck else Shape(self.strings, self.presses, unstruck, self.damped)

    def without(self, finger: Finger) -> Shape:
        """The same shape with a finger off the strings: it presses and damps nothing."""
        return Shape(
            self.strings,
            tuple([press for press in self.presses if press.finger != finger]),
            self.unstruck,
            tuple([pair for pair in self.damped if pair[1] != finger]) if self.damped else (),
        )


def open_shape(strings: int = 6) -> Shape:
    """All strings open and struck."""
    return Shape(strings)
