"""What a block is played on: neck, hand, key and the rules that hold there, from the course and its own keys."""

from __future__ import annotations

from dataclasses import dataclass

from fingerpost.course.option_values import nearest
from fingerpost.course.settings import Settings
from fingerpost.course.slip import error
from fingerpost.course.spots import number_of
from fingerpost.course.words import quoted
from fingerpost.diagnostics import Code, Diagnostic
from fingerpost.music.chord import Chord
from fingerpost.music.chord_symbol import SymbolStyle
from fingerpost.music.fretboard import Fretboard
from fingerpost.music.hand import Hand
from fingerpost.music.hashing import hashed_once
from fingerpost.music.key import Key
from fingerpost.music.tuning import NAMED, parse_tuning
from fingerpost.source.syntax import BlockSyntax, Token
from fingerpost.source.typing_slips import meant_by

HIGHEST_CAPO = 12
MOST_FINGERS = 5
USUAL_KEYS = ("C Am G Em D Bm A F#m E C#m B G#m F# D#m C# A#m F Dm Bb Gm Eb Cm Ab Fm Db Bbm Gb Ebm Cb Abm").split()
"""The thirty keys of the circle of fifths, at most seven sharps or flats (common practice)."""


@hashed_once
@dataclass(frozen=True)
class Ground:
    """Neck, hand, key, and what the course allows; ties are decisions between equal names, (chosen, refused)."""

    fretboard: Fretboard
    hand: Hand
    key: Key | None
    fingers_per_step: int
    hand_shifts: bool
    ties: tuple[tuple[Chord, Chord], ...]
    style: SymbolStyle
    clean: int
    tries: int
    warm_up_minutes: int
    rest_minutes: int


@dataclass(frozen=True)
class GroundRead:
    """The ground of a block and the findings about the keys that make it; sure is False where the tuning is unknown."""

    ground: Ground
    findings: tuple[Diagnostic, ...] = ()
    sure: bool = True


def ground_of(block: BlockSyntax, settings: Settings) -> GroundRead:
    """What this block is played on; a key that can't be read leaves what the course says."""
    findings: list[Diagnostic] = []
    sure = "tuning" not in block.unread
    tuning = settings.tuning
    if block.tuning is not None:
        try:
            tuning = parse_tuning(block.tuning.text)
        except ValueError:
            findings.append(_no_tuning(block.tuning))
            sure = False
    highest = min(HIGHEST_CAPO, settings.frets - 1)
    capo = _number(block.capo, settings.capo, 0, highest, "a fret for the capo", findings)
    fingers = _number(
        block.fingers_per_step, settings.fingers_per_step, 1, MOST_FINGERS, "a number of fingers", findings
    )
    ground = Ground(
        fretboard=Fretboard(tuning, capo, settings.frets, settings.scale_length),
        hand=settings.hand,
        key=_key(block.key, settings.key, findings),
        fingers_per_step=fingers,
        hand_shifts=settings.hand_shifts,
        ties=settings.ties,
        style=settings.symbol_style,
        clean=settings.clean,
        tries=settings.tries,
        warm_up_minutes=settings.warm_up_minutes,
        rest_minutes=settings.rest_minutes,
    )
    return GroundRead(ground, tuple(findings), sure)


def _no_tuning(token: Token) -> Diagnostic:
    return error(
        token.span,
        Code.BAD_VALUE,
        f"{quoted(token.text)} is no tuning",
        "a named tuning, or four to eight pitches from the lowest string, such as D2 A2 D3 G3 A3 D4",
        nearest(token.text, NAMED),
    )


def _number(token: Token | None, default: int, low: int, high: int, what: str, findings: list[Diagnostic]) -> int:
    if token is None:
        return default
    number = number_of(token)
    if number is not None and low <= number <= high:
        return number
    fix = "" if number is None else str(min(max(number, low), high))
    message = f"{quoted(token.text)} is not {what}"
    findings.append(error(token.span, Code.BAD_VALUE, message, f"a whole number from {low} to {high}", fix))
    return default


def _key(token: Token | None, default: str | None, findings: list[Diagnostic]) -> Key | None:
    if token is not None:
        try:
            return Key.parse(token.text)
        except ValueError:
            message = f"{quoted(token.text)} is no key"
            expected = "a key such as G, Bb, Em or F#m"
            findings.append(error(token.span, Code.BAD_VALUE, message, expected, meant_by(token.text, USUAL_KEYS)))
    return None if default is None else Key.parse(default)
