"""Spots: every way that a finger can lie on a window of frets, numbered, so that sets of them are whole numbers."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property

from fingerpost.music.shape import Finger, Press


@dataclass(frozen=True)
class Spots:
    """The frets low to high of a neck. Spot 0 is the air; the others are numbered by fret, then from the lowest string.

    A set of spots is a whole number, bit n for spot n. A set of strings is one too, bit 0 for string 1.
    """

    strings: int
    low: int
    high: int

    @cached_property
    def runs(self) -> tuple[tuple[int, int], ...]:
        """The runs of strings that a finger can cover, as (low, high), highest-numbered first; singles included."""
        return tuple((low, high) for low in range(self.strings, 0, -1) for high in range(low, 0, -1))

    @cached_property
    def placed(self) -> tuple[tuple[int, int, int], ...]:
        """Fret, low and high string by spot; zeros for the air."""
        return ((0, 0, 0), *((fret, *run) for fret in self.frets for run in self.runs))

    @cached_property
    def covers(self) -> tuple[int, ...]:
        """The strings that each spot covers."""
        return tuple((1 << low) - (1 << high - 1) if low else 0 for _, low, high in self.placed)

    @property
    def frets(self) -> range:
        """The frets of the window."""
        return range(self.low, self.high + 1)

    def spot(self, press: Press) -> int | None:
        """The number of a press, None where its fret is outside the window."""
        if not self.low <= press.fret <= self.high:
            return None
        return 1 + (press.fret - self.low) * len(self.runs) + self.runs.index((press.low, press.high))

    def press(self, spot: int, finger: Finger | None) -> Press:
        """The press that a spot stands for."""
        return Press(finger, *self.placed[spot])

    def on_frets(self, runs: dict[int, int]) -> int:
        """A set of spots from the set of runs (bit n for run n) at each fret."""
        width = len(self.runs)
        return sum(chosen << 1 + (fret - self.low) * width for fret, chosen in runs.items())


def bits(mask: int) -> Iterator[int]:
    """The members of a set, lowest first."""
    while mask:
        bit = mask & -mask
        yield bit.bit_length() - 1
        mask ^= bit
