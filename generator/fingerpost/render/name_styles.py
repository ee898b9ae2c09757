"""Every name of a course in every style of writing it, so that a page can change its names without being made anew."""

from __future__ import annotations

import itertools
import json
import re
from collections.abc import Iterable
from dataclasses import replace
from functools import lru_cache
from typing import get_args, get_type_hints

from fingerpost.music.chord_symbol import SymbolStyle, read, write
from fingerpost.render.voice import string_letter

FIELDS = ("notes", "major_seventh", "diminished", "minor")
"""What a reader chooses of a style, in this order."""
_NOTES = get_args(get_type_hints(SymbolStyle)["notes"])
_NOTE = re.compile(r"[a-g][#b]*")


@lru_cache(maxsize=2)
def styles(accidentals: str = "real") -> tuple[SymbolStyle, ...]:
    """Every style that a reader can choose, with the course's accidentals."""
    hints = get_type_hints(SymbolStyle)
    choices = itertools.product(*(get_args(hints[field]) for field in FIELDS))
    return tuple(SymbolStyle(**dict(zip(FIELDS, chosen, strict=True)), accidentals=accidentals) for chosen in choices)  # type: ignore[arg-type]


def names_in_styles(names: Iterable[str], accidentals: str = "real") -> str:
    """JSON: `{"styles": ["english maj7 dim m", ...], "names": {"Bbm": ["B♭m", ...]}}`, a form for each style in turn.

    names: in plain English form, as the pages carry them (render/named.py): chords, notes, small letters of strings.
    """
    known = styles(accidentals)
    table = {name: [_written(name, style) for style in known] for name in sorted(set(names))}
    keys = [" ".join(getattr(style, field) for field in FIELDS) for style in known]
    return json.dumps({"styles": keys, "names": table}, ensure_ascii=False, separators=(",", ":"))


@lru_cache(maxsize=4096)
def longest_form(name: str, built: SymbolStyle) -> int:
    """How many characters a chord's name has at most, whichever names of notes and signs a reader chooses."""
    longest = SymbolStyle(accidentals=built.accidentals)  # with maj7, dim and m; the signs for these are no longer
    return max(len(_written(name, replace(longest, notes=names))) for names in _NOTES)


def _written(name: str, style: SymbolStyle) -> str:
    """A name in a style. A note is written as the major chord on it is."""
    return string_letter(name, style) if _NOTE.fullmatch(name) else write(read(name), style)
