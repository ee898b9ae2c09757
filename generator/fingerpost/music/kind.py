"""The kinds of chord: the kind-values of MusicXML 4.0 with their intervals, their symbol and their spoken name."""

from __future__ import annotations

from dataclasses import dataclass

from fingerpost.music.interval import Interval


@dataclass(frozen=True, slots=True)
class Kind:
    """A kind-value of MusicXML 4.0 (W3C Community Group Report).

    symbol holds marks that a style fills in: {m} minor, {M} major seventh, {dim} diminished, {half} half-diminished,
    {sharp} a sharp.
    """

    value: str
    intervals: tuple[Interval, ...]
    symbol: str
    spoken: str


_TABLE = """
major               1 3 5               -           major
minor               1 b3 5              {m}         minor
augmented           1 3 #5              aug         augmented
diminished          1 b3 b5             {dim}       diminished
dominant            1 3 5 b7            7           dominant seventh
major-seventh       1 3 5 7             {M}7        major seventh
minor-seventh       1 b3 5 b7           {m}7        minor seventh
diminished-seventh  1 b3 b5 bb7         {dim}7      diminished seventh
augmented-seventh   1 3 #5 b7           7{sharp}5   augmented seventh
half-diminished     1 b3 b5 b7          {half}      half-diminished seventh
major-minor         1 b3 5 7            {m}{M}7     minor with a major seventh
major-sixth         1 3 5 6             6           sixth
minor-sixth         1 b3 5 6            {m}6        minor sixth
dominant-ninth      1 3 5 b7 9          9           dominant ninth
major-ninth         1 3 5 7 9           {M}9        major ninth
minor-ninth         1 b3 5 b7 9         {m}9        minor ninth
dominant-11th       1 3 5 b7 9 11       11          dominant eleventh
major-11th          1 3 5 7 9 11        {M}11       major eleventh
minor-11th          1 b3 5 b7 9 11      {m}11       minor eleventh
dominant-13th       1 3 5 b7 9 11 13    13          dominant thirteenth
major-13th          1 3 5 7 9 11 13     {M}13       major thirteenth
minor-13th          1 b3 5 b7 9 11 13   {m}13       minor thirteenth
suspended-second    1 2 5               sus2        suspended second
suspended-fourth    1 4 5               sus4        suspended fourth
power               1 5                 5           power chord
"""


def _kind(line: str) -> Kind:
    value, intervals, symbol, spoken = line[:20].strip(), line[20:40].split(), line[40:52].strip(), line[52:]
    return Kind(value, tuple(map(Interval.parse, intervals)), "" if symbol == "-" else symbol, spoken)


KINDS = {kind.value: kind for kind in map(_kind, _TABLE.strip().splitlines())}
