"""The parts of a chord symbol as patterns; the grammar that joins them is in chord_reader.py."""

from __future__ import annotations

import re

_ACCIDENTAL = r"(?:##?|bb?|♯♯?|♭♭?|𝄪|𝄫)"
_SIGN = rf"{_ACCIDENTAL}|[+\-−]"
_TRIANGLE = r"[Δ∆△^]"
_MAJOR_WORD = r"(?>[Mm]ajor|MAJOR|[Mm]aj|MAJ|[Mm]a(?!dd)|MA(?!DD)|M(?![Ii]))"

NOTE = re.compile(rf"[A-G]{_ACCIDENTAL}?")
# A chord but for its small root: am7, f#.
SMALL = re.compile(rf"[a-g]{_ACCIDENTAL}?(?:maj|m|sus|dim|add)?[0-9]{{0,2}}(?![a-z])")
FAMILIES = tuple(
    (triad, re.compile(pattern))
    for triad, pattern in (
        ("major", rf"{_MAJOR_WORD}(?!\s*(?:7|9|11|13))"),
        ("minor", r"[Mm]inor|[Mm]in|MIN|[Mm]i|MI|m(?!aj?\s*(?:7|9|11|13))|[-−–]"),
        ("diminished", r"[Dd]iminished|[Dd]im|DIM|[°º˚]|o(?!mit)"),
        ("half-diminished", r"[øØ]"),
        ("augmented", r"[Aa]ugmented|[Aa]ug|AUG|\+"),
        ("dominant", r"[Dd]om(?:inant)?"),
    )
)
SIX_NINE = re.compile(r"6\s*/?\s*9|6\s*\(\s*9\s*\)")
# 7M, as some countries write maj7.
SEVENTH_THEN_MAJOR = re.compile(r"7\s*M(?![a-zA-Z0-9])")
NUMBER = re.compile(r"13|11|[2-79]")
MAJOR_SEVENTH = re.compile(rf"(?:{_MAJOR_WORD}|{_TRIANGLE})\s*(13|11|9|7)|{_TRIANGLE}")
ALTERED = re.compile(rf"({_SIGN})\s*(1[0-9]|[1-9])")
RAISED_FIFTH = re.compile(r"\+(?!\s*\d)")
ADDED = re.compile(rf"(?:[Aa]dd|ADD)\s*(?:({_MAJOR_WORD}|{_SIGN})\s*)?(1[0-9]|[1-9])(?:th|nd|rd)?")
SUSPENDED = re.compile(r"(?:[Ss]us|SUS)(?:pended)?\s*(2\s*(?:sus)?\s*/?4|4\s*(?:sus)?\s*/?2|2|4)?")
LEFT_OUT = re.compile(r"(?:[Nn]o|NO|[Oo]mit)\s*(1[0-9]|[1-9])(?:th|nd|rd)?")
# A degree on its own: it needs parentheses or a stroke before it.
BARE = re.compile(r"13|11|9|7|6|4|2")
STROKE = re.compile(r"\s*/\s*")
STROKE_AND_CHANGE = re.compile(rf"\s*/\s*(?=(?:{_SIGN})?\s*\d|add|maj|M7|sus|no|omit)")
ALT = re.compile(r"(?i:alt(?:ered)?)")
