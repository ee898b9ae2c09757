"""Two names for the same notes, used against what the course has decided.

C6 and Am7 are the same four notes. Where the bass leaves both open, an author decides once, in the option `ties`, and
the course keeps to it. Without a decision, two different names for the same notes over the same bass are a slip too.

    ties: [Am7 not C6]        and in a lesson        - 3 to E3 = C6/G

Write the name that was decided, here `Am7/G`, or change the decision.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from fingerpost.course.ground import ground_of
from fingerpost.course.heard import Heard, heard_of
from fingerpost.course.meant.slip_words import start_line
from fingerpost.course.meant.strum_left_out import strum_left_out
from fingerpost.course.model import Step
from fingerpost.course.name_book import over_bass
from fingerpost.course.naming import chord_or_none, symbol_of
from fingerpost.course.rules.explanation import Explanation
from fingerpost.course.slip import error, warning
from fingerpost.course.teaching import Told
from fingerpost.course.words import quoted
from fingerpost.diagnostics import Code, Diagnostic, Edit
from fingerpost.music import chord_symbol
from fingerpost.music.chord import Chord
from fingerpost.music.shape import Shape
from fingerpost.source.syntax import NameSaid, Token

Ties = tuple[tuple[Chord, Chord], ...]


def ties_decided_otherwise(told: Iterable[Told], ties: Ties) -> Iterator[Diagnostic]:
    """An error for a name that the course decided against, a warning for one that differs from an earlier one."""
    earlier: dict[Heard, tuple[Chord, Token, Told]] = {}
    strums: dict[Told, Diagnostic] = {}
    for block in told:
        for name, heard, chord in block.once(_names):
            chosen = next((kept for kept, refused in ties if refused == chord.with_bass(None)), None)
            if chosen is not None:
                yield _against(name.symbol, over_bass(chosen, heard) if chord.bass else chosen, chosen)
            elif name.strict and all(kept != chord.with_bass(None) for kept, _ in ties):
                first, token, other = earlier.setdefault(heard, (chord, name.symbol, block))
                if first.root.pitch_class == chord.root.pitch_class:
                    continue
                one = (other, first, name.symbol) if first.root.pitch_class != heard.bass else (block, chord, token)
                lost = strums.get(one[0]) or _strum_lost(*one, heard)
                if lost is not None:
                    strums[one[0]] = lost
                else:
                    yield _twice(name.symbol, token)
    yield from strums.values()


def _names(told: Told) -> Iterator[tuple[NameSaid, Heard, Chord]]:
    """The names that a block gives, each with what sounds and the chord that it names."""
    if told.block is None or not told.sound:
        return
    for step in told.block.steps:
        name, heard = _name_of(told, step), heard_of(step.shape, told.block.fretboard)
        chord = None if name is None else chord_or_none(name.symbol)
        if name is not None and heard is not None and not step.rest and chord is not None:
            yield name, heard, chord


def _name_of(told: Told, step: Step) -> NameSaid | None:
    written = told.written[step.ordinal]
    if written is not None:
        return None if written.line is None else written.line.name
    return None if told.syntax.start is None else told.syntax.start.name


def _strum_lost(told: Told, chord: Chord, other: Token, heard: Heard) -> Diagnostic | None:
    """The finding at a block that leaves out its strum, so that its names sound over a bass which is not theirs.

    chord: one of them, whose notes another block names by their lowest: other.
    """
    if chord.root.pitch_class == heard.bass or told.block is None:
        return None
    strum = strum_left_out(told.syntax, list(_strict(told)), ground_of(told.syntax, told.settings).ground)
    if strum is None:
        return None
    span, where = start_line(told.syntax)
    line = f"strum: {strum}"
    place = f"on line {other.span.line} of {other.span.file}"
    message = (
        f"What is struck seems to be missing {where} this line: the same notes over the same bass as of "
        f"{quoted(chord_symbol.write(chord))} are called {quoted(other.text)} {place}"
    )
    expected = f"`{line}` {where} it, with which each name has its root below"
    return warning(span, Code.TIE_DECIDED_OTHERWISE, message, expected, f"Write `{line}` {where} this line.")


def _strict(told: Told) -> Iterator[tuple[Shape, Chord]]:
    """What the hand holds where a name is given that claims to be exact, and the chord."""
    for step in told.block.steps if told.block is not None else ():
        name = _name_of(told, step)
        chord = chord_or_none(name.symbol) if name is not None and name.strict else None
        if chord is not None and not step.rest:
            yield step.shape, chord


def _against(token: Token, instead: Chord, chosen: Chord) -> Diagnostic:
    word = chord_symbol.write(instead)
    message = f"This course calls these notes {chord_symbol.write(chosen)}, not {quoted(token.text)}"
    edits = (Edit(token.span, word),)
    return error(token.span, Code.TIE_DECIDED_OTHERWISE, message, "the name that `ties` decides for", word, edits)


def _twice(token: Token, earlier: Token) -> Diagnostic:
    where = f"on line {earlier.span.line} of {earlier.span.file}"
    kept, refused = (chord_symbol.write(symbol_of(name).with_bass(None)) for name in (earlier, token))
    message = f"The same notes over the same bass are called {quoted(earlier.text)} {where}"
    expected = f"one name for them, recorded once in the option `ties`: `{kept} not {refused}`, or the other way round"
    return warning(token.span, Code.TIE_DECIDED_OTHERWISE, message, expected, earlier.text)


REASONS = {
    Code.TIE_DECIDED_OTHERWISE: Explanation(
        "The other of two names for the same notes",
        "The course has decided for one of them, in `ties` or by using it first over the same bass.",
        "ties: [Am7 not C6]     - 3 to E3 = C6/G",
        "ties: [Am7 not C6]     - 3 to E3 = Am7/G",
    ),
}
