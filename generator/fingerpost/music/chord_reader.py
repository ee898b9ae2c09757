"""Chord symbols read as people write them.

The grammar. Blanks may stand between any two parts; real accidentals serve as # and b:

    symbol    = note [family] [number] { change } [ "/" note ]
    note      = "A".."G" [ "#" | "##" | "b" | "bb" ]
    family    = "m" | "min" | "-" | "M" | "maj" | "dim" | "°" | "o" | "ø" | "aug" | "+" | "dom"
    number    = "5" | "6" | "6/9" | "69" | "7" | "9" | "11" | "13"
    change    = [ "(" | "," | "/" ] one [ ")" ]
    one       = major [ "7" | "9" | "11" | "13" ]  | accidental degree | "add" [ accidental ] degree
              | "sus" [ "2" ] [ "4" ] | ( "no" | "omit" ) degree | degree
    major     = "M" | "maj" | "ma" | "^" | "Δ"

`M` is major, `m` is minor; a bare number is of the dominant family; `sus` is `sus4`; a bare degree as a change is an
added one and stands in parentheses or after a stroke (common practice).
"""

from __future__ import annotations

from functools import lru_cache

from fingerpost.music import symbol_parts as part
from fingerpost.music.chord import Chord
from fingerpost.music.pitch import Note, plain_accidentals
from fingerpost.music.symbol_draft import Draft
from fingerpost.music.symbol_scanner import Scanner, SymbolError

__all__ = ["SymbolError", "read"]

_ALTERABLE = {2, 4, 5, 6, 9, 11, 13}
_ADDABLE = {2, 3, 4, 5, 6, 7, 9, 11, 13}

_ENDINGS = "what follows a root, such as m, 7, maj7, m7b5, sus4, add9, (no5) or /G"
_ROOT = "a chord that begins with a capital letter from A to G, such as C, F#m or Bb7"


def read(text: str) -> Chord:
    """The chord that a symbol means, in its plainest structure. English note names; raises SymbolError."""
    return _read(text)


@lru_cache(maxsize=4096)
def _read(text: str) -> Chord:
    scan = Scanner(text)
    scan.skip()
    draft = Draft(_root(scan))
    _family(scan, draft)
    _number(scan, draft)
    while _change(scan, draft):
        pass
    scan.skip()
    bass = _bass(scan)
    if not scan.at_end:
        _fail(scan)
    scan.close()
    return draft.chord().with_bass(bass)


def _root(scan: Scanner) -> Note:
    match = scan.accept(part.NOTE)
    if match is not None:
        return Note.parse(match[0])
    if scan.at_end:
        scan.fail_here("there is no chord here", _ROOT)
    if scan.text[scan.position] == "H":
        scan.fail_here("{} is German: H is the note B", "B, and Bb for the German B")
    small = scan.accept(part.SMALL)
    if small is not None:
        scan.fail_back("{} does not begin with a capital letter", f"the root as a capital: {small[0].capitalize()}")
    scan.fail_here("{} does not begin with a root", _ROOT)


def _family(scan: Scanner, draft: Draft) -> None:
    scan.skip()
    for family, pattern in part.FAMILIES:
        if scan.accept(pattern):
            draft.triad = {"dominant": "major", "half-diminished": "diminished"}.get(family, family)
            draft.seventh = -1 if family == "diminished" else 0
            if family == "half-diminished" and not scan.sees(part.NUMBER):
                draft.extend(7, 0)
            return


def _number(scan: Scanner, draft: Draft) -> None:
    scan.skip()
    if scan.inside:
        return
    if scan.accept(part.SIX_NINE):
        draft.add(6, 0)
        draft.add(9, 0)
    elif scan.accept(part.SEVENTH_THEN_MAJOR):
        draft.extend(7, 1)
    elif match := scan.accept(part.NUMBER):
        _plain_number(scan, draft, int(match[0]))


def _plain_number(scan: Scanner, draft: Draft, number: int) -> None:
    root = str(draft.root)
    if number in (2, 4):
        both = f"{root}add9 or {root}sus2" if number == 2 else f"{root}add11 or {root}sus4"
        scan.fail_back("{} alone is read in two ways", both)
    elif number == 3:
        scan.fail_back("every chord but a power chord or a suspension has its third", f"{root} or {root}m")
    elif number == 5:
        _power(scan, draft)
    elif number == 6:
        draft.add(6, 0)
    else:
        draft.extend(number, draft.seventh)


def _power(scan: Scanner, draft: Draft) -> None:
    if draft.triad == "augmented":
        return
    if draft.triad != "major":
        scan.fail_back("a power chord (5) has no third", f"{draft.root}5, or {draft.root}m without the 5")
    draft.triad = "power"


def _change(scan: Scanner, draft: Draft) -> bool:
    """Takes one change, or nothing."""
    scan.skip()
    stroke = scan.accept(part.STROKE_AND_CHANGE) is not None
    if match := scan.accept(part.SUSPENDED):
        draft.suspended = "24" if match[1] and len(match[1]) > 1 else match[1] or "4"
    elif match := scan.accept(part.ADDED):
        _add(scan, draft, match[1] or "", int(match[2]))
    elif match := scan.accept(part.LEFT_OUT):
        _leave_out(scan, draft, int(match[1]))
    elif match := scan.accept(part.MAJOR_SEVENTH):
        draft.extend(int(match[1] or 7), 1)
    elif match := scan.accept(part.ALTERED):
        _alter(scan, draft, _amount(match[1]), int(match[2]))
    elif scan.accept(part.RAISED_FIFTH):
        draft.alter(5, 1)
    elif (stroke or scan.inside) and (match := scan.accept(part.BARE)):
        draft.add(int(match[0]), 0)
    else:
        return False
    return True


def _amount(sign: str) -> int:
    plain = plain_accidentals(sign).replace("x", "##").replace("+", "#").replace("-", "b").replace("−", "b")
    return plain.count("#") - plain.count("b")


def _alter(scan: Scanner, draft: Draft, amount: int, value: int) -> None:
    if value == 10 and amount == -1:
        value, amount = 9, 1
    if value not in _ALTERABLE:
        scan.fail_back("{} is no change that a chord knows", "a raised or lowered 5, 9, 11 or 13, such as b5 or #9")
    draft.alter(value, amount)


def _add(scan: Scanner, draft: Draft, sign: str, value: int) -> None:
    if value not in _ADDABLE:
        scan.fail_back("{} adds no degree that a chord knows", "add9, add11 or add13")
    if value == 7:
        amount = 1 if sign and sign[0] in "mM#♯" else {"bb": -1}.get(plain_accidentals(sign), 0)
    elif sign and sign[0] in "mM":
        scan.fail_back("{} adds no degree that a chord knows", "addmaj7, or add9, add11, add13")
    else:
        amount = _amount(sign)
    draft.add(value, amount)


def _leave_out(scan: Scanner, draft: Draft, value: int) -> None:
    if value == 1:
        scan.fail_back("a chord keeps its root", "a degree to leave out, such as no3 or no5")
    if not draft.leave_out(value):
        scan.fail_back("{} leaves out a tone that the chord does not have", "a degree of the chord, such as no5")


def _bass(scan: Scanner) -> Note | None:
    if scan.inside or not scan.accept(part.STROKE):
        return None
    match = scan.accept(part.NOTE)
    if match is None:
        scan.fail_here("{} after the stroke is no bass note", "a note from A to G, such as C/G")
    scan.skip()
    return Note.parse(match[0])


def _fail(scan: Scanner) -> None:
    if scan.sees(part.ALT):
        scan.fail_here("{} is not one set of notes", "the altered notes themselves, such as C7(b9,#5)")
    if scan.sees(part.BARE):
        scan.fail_here("{} stands alone", "add, # or b before the number, or parentheses around it")
    scan.fail_here("{} is not understood", _ENDINGS)
