"""Chords written as symbols, in the style that a course asks for."""

from __future__ import annotations

from functools import lru_cache

from fingerpost.music.chord import Chord
from fingerpost.music.compound import head_of
from fingerpost.music.degree import Degree, chord_intervals, is_alteration
from fingerpost.music.interval import Interval
from fingerpost.music.symbol_style import PLAIN, SymbolStyle, accidental_text, note_text, with_accidentals

_SEVENTH_ADDED = {-1: "addbb7", 0: "addb7", 1: "addmaj7"}
# After these a capital tells the major seventh from the mark before it: mMaj7.
_BEFORE_CAPITAL = ("{m}{M}", "{dim}{M}")


def _marks(template: str, style: SymbolStyle) -> str:
    """The mark of a kind with the style's signs filled in."""
    circle = style.diminished == "circle"
    word = "Maj" if template.startswith(_BEFORE_CAPITAL) else "maj"
    return template.format(
        m=style.minor,
        M="Δ" if style.major_seventh == "triangle" else word,
        dim="°" if circle else "dim",
        half="ø7" if circle else style.minor + with_accidentals("7b5", style),
        sharp=accidental_text(1, style),
    )


def _change(degree: Degree, intervals: tuple[Interval, ...], style: SymbolStyle) -> str:
    if degree.type == "subtract":
        return f"no{degree.value}"
    if degree.type == "add" and degree.value == 7:
        return _SEVENTH_ADDED[degree.alter]
    name = accidental_text(degree.alter, style) + str(degree.value)
    return name if is_alteration(degree, intervals) else "add" + name


def _needs_none(head: str, change: str) -> bool:
    """Whether a lone change needs no parentheses: an alteration after a number, a plain added tone after the root."""
    if change.startswith("add"):
        return not head and change[3:].isdigit()
    return head[-1:].isdigit()


def _join(head: str, changes: list[str], omitted: list[str]) -> str:
    if len(changes) == 1 and _needs_none(head, changes[0]):
        head, changes = head + changes[0], []
    inside = ",".join(changes + omitted)
    return f"{head}({inside})" if inside else head


@lru_cache(maxsize=16384)
def _ending(kind: str, degrees: tuple[Degree, ...], style: SymbolStyle) -> str:
    """What follows the root: the same for every root, so worked out once."""
    head, intervals = head_of(kind, degrees), chord_intervals(kind, degrees)
    changes = [_change(degree, intervals, style) for degree in head.rest if degree.type != "subtract"]
    omitted = [_change(degree, intervals, style) for degree in head.rest if degree.type == "subtract"]
    return _join(_marks(head.symbol, style), changes, omitted)


def write(chord: Chord, style: SymbolStyle = PLAIN) -> str:
    """The symbol of a chord; in the English styles `read` gives the same chord back."""
    bass = "" if chord.bass is None else "/" + note_text(chord.bass, style)
    return note_text(chord.root, style) + _ending(chord.kind, chord.degrees, style) + bass


def write_exact(chord: Chord, omitted: tuple[str, ...] = (), style: SymbolStyle = PLAIN) -> str:
    """The symbol with everything that is left out said as well: `C7(no5)`."""
    return write(without(chord, omitted), style)


def without(chord: Chord, omitted: tuple[str, ...]) -> Chord:
    """The chord with these intervals taken out of its structure."""
    gone = (Degree(int(interval.lstrip("#b")), 0, "subtract") for interval in omitted)
    extra = tuple(degree for degree in gone if degree not in chord.degrees)
    return Chord(chord.root, chord.kind, chord.degrees + extra, chord.bass)
