"""The mark of a chord: that of its kind, or one that says a kind and its degrees in one, such as 6/9, 9sus4, mMaj9."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

from fingerpost.music.degree import Degree
from fingerpost.music.kind import KINDS

# kind, degrees (as MusicXML counts them: 7 is the minor seventh, #7 the major), symbol, spoken name
_TABLE = """
major-sixth       9          6/9         six nine
minor-sixth       9          {m}6/9      minor six nine
major-minor       9 11 13    {m}{M}13    minor thirteenth with a major seventh
major-minor       9 11       {m}{M}11    minor eleventh with a major seventh
major-minor       9          {m}{M}9     minor ninth with a major seventh
diminished        #7         {dim}{M}7   diminished with a major seventh
suspended-fourth  7 9 13     13sus4      dominant thirteenth, suspended fourth
suspended-fourth  7 9        9sus4       dominant ninth, suspended fourth
suspended-fourth  7          7sus4       dominant seventh, suspended fourth
suspended-fourth  #7 9 13    {M}13sus4   major thirteenth, suspended fourth
suspended-fourth  #7 9       {M}9sus4    major ninth, suspended fourth
suspended-fourth  #7         {M}7sus4    major seventh, suspended fourth
suspended-fourth  6 9        6/9sus4     six nine, suspended fourth
suspended-fourth  6          6sus4       sixth, suspended fourth
suspended-fourth  9          sus2sus4    suspended second and fourth
suspended-second  7          7sus2       dominant seventh, suspended second
suspended-second  #7         {M}7sus2    major seventh, suspended second
suspended-second  6          6sus2       sixth, suspended second
"""

Compound = tuple[frozenset[Degree], str, str]


def _compounds() -> dict[str, tuple[Compound, ...]]:
    found: dict[str, tuple[Compound, ...]] = {}
    for line in _TABLE.strip().splitlines():
        kind, degrees, symbol, spoken = line[:18].strip(), line[18:29].split(), line[29:41].strip(), line[41:].strip()
        absorbed = frozenset(Degree(int(word.lstrip("#")), word.count("#"), "add") for word in degrees)
        found[kind] = (*found.get(kind, ()), (absorbed, symbol, spoken))
    return found


# By kind, the one that says most first.
_COMPOUNDS = _compounds()
_RAISED_FIFTH = Degree(5, 1, "alter")


@dataclass(frozen=True, slots=True)
class Head:
    """The mark that a symbol begins with, its words, and the degrees that it does not say.

    symbol holds the marks that a style fills in, as `Kind.symbol` does.
    """

    symbol: str
    spoken: str
    rest: tuple[Degree, ...]


@lru_cache(maxsize=8192)
def head_of(kind: str, degrees: tuple[Degree, ...]) -> Head:
    """What the symbol of a chord begins with."""
    for absorbed, symbol, words in _COMPOUNDS.get(kind, ()):
        if absorbed <= set(degrees):
            return Head(symbol, words, tuple(degree for degree in degrees if degree not in absorbed))
    if kind == "augmented-seventh" and any(degree.type != "subtract" for degree in degrees):
        return Head(KINDS["dominant"].symbol, KINDS["dominant"].spoken, (_RAISED_FIFTH, *degrees))
    return Head(KINDS[kind].symbol, KINDS[kind].spoken, degrees)
