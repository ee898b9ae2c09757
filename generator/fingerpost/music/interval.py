"""Intervals by degree: the degree fixes the letter, the accidental follows."""

from __future__ import annotations

import re
from functools import lru_cache
from typing import NamedTuple

from fingerpost.music.pitch import LETTERS, NATURAL, Note, plain_accidentals

_MAJOR_SCALE = (0, 2, 4, 5, 7, 9, 11)
_PLACE = {letter: place for place, letter in enumerate(LETTERS)}
_INTERVAL = re.compile(r"(#{0,3}|b{0,3})(\d{1,2})")


class Interval(NamedTuple):
    """A degree above a root, counted from 1, and how many semitones it is raised or lowered against the major scale.

    `Interval(3, -1)` is the minor third, written `b3`; `Interval(9, 1)` the raised ninth, written `#9`.
    """

    number: int
    alter: int = 0

    @property
    def semitones(self) -> int:
        """Semitones above the root; a ninth is over an octave."""
        octaves, step = divmod(self.number - 1, 7)
        return 12 * octaves + _MAJOR_SCALE[step] + self.alter

    @property
    def pitch_class(self) -> int:
        """Semitones above the root within one octave, 0 to 11."""
        return self.semitones % 12

    def above(self, root: Note) -> Note:
        """The note at this interval above a root, spelled by letter: the b7 of C is Bb, the #5 of F# is C##."""
        return _above(root, self.number, self.alter)

    def __str__(self) -> str:
        return accidental(self.alter) + str(self.number)

    @classmethod
    def parse(cls, text: str) -> Interval:
        """Reads `1`, `b3`, `bb7`, `#11`, real accidentals too; raises ValueError for anything else."""
        match = _INTERVAL.fullmatch(plain_accidentals(text))
        if match is None or match[2].startswith("0"):
            raise ValueError(f"{text!r} is no interval; expected a degree such as 5, b3 or #11")
        return cls(int(match[2]), match[1].count("#") - match[1].count("b"))


@lru_cache(maxsize=4096)
def _above(root: Note, number: int, alter: int) -> Note:
    letter = LETTERS[(_PLACE[root.letter] + number - 1) % 7]
    plain = (root.pitch_class + Interval(number, alter).semitones - NATURAL[letter]) % 12
    return Note(letter, plain if plain <= 6 else plain - 12)


def accidental(alter: int) -> str:
    """ASCII accidentals for a number of semitones: `##` for 2, `b` for -1."""
    return "#" * alter if alter > 0 else "b" * -alter
