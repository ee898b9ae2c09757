"""One structure for one chord: what can be said as a plainer kind is said so (C7 with a ninth added is C9)."""

from __future__ import annotations

from fingerpost.music.degree import Degree

Quality = tuple[str, tuple[Degree, ...]]

# kind, degree (value alter type) -> kind, degrees
_TABLE = """
minor               5 -1 alter   diminished
minor-seventh       5 -1 alter   half-diminished
major               5 +1 alter   augmented
dominant            5 +1 alter   augmented-seventh
major-minor         5 -1 alter   diminished           7 +1 add
major               7 0 add      dominant
major               7 +1 add     major-seventh
minor               7 0 add      minor-seventh
minor               7 +1 add     major-minor
augmented           7 0 add      augmented-seventh
augmented           7 +1 add     major-seventh        5 +1 alter
diminished          7 0 add      half-diminished
diminished          7 -1 add     diminished-seventh
major               6 0 add      major-sixth
minor               6 0 add      minor-sixth
dominant            9 0 add      dominant-ninth
major-seventh       9 0 add      major-ninth
minor-seventh       9 0 add      minor-ninth
augmented-seventh   9 0 add      dominant-ninth       5 +1 alter
half-diminished     9 0 add      minor-ninth          5 -1 alter
dominant-ninth      11 0 add     dominant-11th
major-ninth         11 0 add     major-11th
minor-ninth         11 0 add     minor-11th
dominant-11th       13 0 add     dominant-13th
major-11th          13 0 add     major-13th
minor-11th          13 0 add     minor-13th
dominant-ninth      9 -1 alter   dominant             9 -1 add
dominant-ninth      9 +1 alter   dominant             9 +1 add
major-ninth         9 -1 alter   major-seventh        9 -1 add
major-ninth         9 +1 alter   major-seventh        9 +1 add
minor-ninth         9 -1 alter   minor-seventh        9 -1 add
dominant-11th       11 +1 alter  dominant-ninth       11 +1 add
major-11th          11 +1 alter  major-ninth          11 +1 add
minor-11th          11 +1 alter  minor-ninth          11 +1 add
dominant-13th       13 -1 alter  dominant-11th        13 -1 add
major-13th          13 -1 alter  major-11th           13 -1 add
minor-13th          13 -1 alter  minor-11th           13 -1 add
suspended-second    4 0 add      suspended-fourth     9 0 add
suspended-second    11 0 add     suspended-fourth     9 0 add
suspended-fourth    2 0 add      suspended-fourth     9 0 add
"""


def _degrees(words: list[str]) -> tuple[Degree, ...]:
    return tuple(Degree(int(v), int(a), t) for v, a, t in zip(words[::3], words[1::3], words[2::3], strict=True))


_PLAINER = {
    (words[0], _degrees(words[1:4])[0]): (words[4], _degrees(words[5:]))
    for words in (line.split() for line in _TABLE.strip().splitlines())
}
_NO_THIRD = (Degree(3, 0, "subtract"),)


def canonical(kind: str, degrees: tuple[Degree, ...]) -> Quality:
    """The plainest kind and degrees for the same tones, and the same whatever way they were written."""
    for degree in degrees:
        plainer = _PLAINER.get((kind, degree))
        if plainer is not None:
            rest = tuple(other for other in degrees if other != degree)
            return canonical(plainer[0], rest + plainer[1])
    if kind == "major" and degrees == _NO_THIRD:
        return "power", ()
    return kind, degrees
