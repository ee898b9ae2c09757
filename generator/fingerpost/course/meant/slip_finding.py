"""The finding at the one slip with which a block denies itself: where it stands, what it denies, what was meant."""

from __future__ import annotations

import re
from collections.abc import Sequence

from fingerpost.course.ground import Ground
from fingerpost.course.meant.corrected import Slipped
from fingerpost.course.meant.edits import Missing, OfStart, Redundant, Surplus, Swapped, Word
from fingerpost.course.meant.slip_words import in_start, what, word
from fingerpost.course.slip import error
from fingerpost.course.words import quoted
from fingerpost.diagnostics import Code, Diagnostic, Span
from fingerpost.music import chord_symbol
from fingerpost.music.move import Move, write_move
from fingerpost.source.syntax import BlockSyntax, MoveLine

JOINED = re.compile(r"\s*(?:,|\band\b)?\s*$")
"""What joins an action to the one before, behind a name that may stand between them."""
OF_NAMES = (Code.NAME_IS_WRONG, Code.NAME_IS_LOOSE)


def finding(slipped: Slipped, syntax: BlockSyntax, first: Diagnostic, ground: Ground) -> Diagnostic:
    """The finding at the slip itself. syntax: its block. first: what is said where the lines first deny each other."""
    edit, at = slipped.edit, slipped.line
    if isinstance(edit, OfStart):
        return _other_start(edit, syntax, first, ground)
    lines = [step.line for step in syntax.steps if step.line is not None]
    if isinstance(edit, Missing):
        name = "" if slipped.shows is None else f" = {chord_symbol.write(slipped.shows, ground.style)}"
        return _missing(lines, at, step_text(edit.moves, slipped.unheard, ground) + name, first)
    line = lines[at]
    span = line.text.span
    match edit:
        case Word(_, index, move):
            return _other_word(line, index, move, first, ground)
        case Redundant(_, index):
            return _words_too_many(line, index, first)
        case Swapped(_):
            message = f"This step and the next seem to stand in the wrong order: {_said(first, span)}"
            expected, fix = "the next step before this one", "Put the next step above this one."
            return error(span, first.code, message, expected, fix)
        case Surplus(_):
            message = f"This step seems to be one too many: {_said(first, span)}"
            return error(span, first.code, message, "the steps without it, which all hold", "Leave this step out.")


def _other_start(edit: OfStart, syntax: BlockSyntax, first: Diagnostic, ground: Ground) -> Diagnostic:
    said = in_start(edit, syntax, ground)
    here = _is_on(first, said.span)
    message = first.message if here else f"With this start {_cant(first, said.span)}"
    if said.seems:
        message = f"{said.seems}: {_said(first, said.span)}"
    return error(said.span, first.code, message, f"`{said.words}`, with which all that follows holds", said.fix)


def _words_too_many(line: MoveLine, index: int, first: Diagnostic) -> Diagnostic:
    span, fix = line.actions[index].span, _without(line, index)
    message = first.message if _is_on(first, span) else f"With these words {_cant(first, span)}"
    return error(span, first.code, message, f"the line without these words: `{fix}`", fix)


def _without(line: MoveLine, index: int) -> str:
    """The line without one of its actions, and without what joins it to the others: a comma, or a word for it."""
    text, column = line.text.text, line.text.span.column
    spans = [action.span for action in line.actions]
    first, last = spans[index].column - column, spans[index].end_column - column
    if index:
        before = spans[index - 1].end_column - column
        return text[:before] + JOINED.sub("", text[before:first]) + text[last:]
    after = spans[1].column - column if len(spans) > 1 else last
    return text[:first] + text[after:].lstrip()


def _other_word(line: MoveLine, index: int, move: Move, first: Diagnostic, ground: Ground) -> Diagnostic:
    action, fix = line.actions[index], write_move(move, ground.fretboard.tuning)
    span = word(action, move, ground)
    if not _is_here(first, line):
        message = f"With this {what(action, span)} {_cant(first, span)}"
        return error(span, first.code, message, f"`{fix}`, with which all that follows holds", fix)
    if line.name is not None and first.code in OF_NAMES:
        name = f", or the name {first.fix}" if first.span == line.name.symbol.span else ""
        message = f"This move does not make {quoted(line.name.symbol.text)}"
        return error(span, first.code, message, f"`{fix}`{name}", fix)
    return error(span, first.code, first.message, first.expected, fix)


def _is_here(first: Diagnostic, line: MoveLine) -> bool:
    """Whether what is denied first is this very step."""
    name = None if line.name is None else line.name.symbol.span
    return _is_on(first, line.text.span) or (name is not None and _is_on(first, name))


def _is_on(first: Diagnostic, span: Span) -> bool:
    return (first.span.file, first.span.line) == (span.file, span.line)


def _missing(lines: Sequence[MoveLine], at: int, step: str, first: Diagnostic) -> Diagnostic:
    """The finding at the line above which a step is missing, or at the last line, below which it is."""
    where = "above" if at < len(lines) else "below"
    span = lines[min(at, len(lines) - 1)].actions[0].span
    message = f"A step seems to be missing {where} this line: {_said(first, span)}"
    expected = f"`{step}` {where} it, with which all that follows holds"
    return error(span, first.code, message, expected, f"Write `{step}` {where} this line.")


def step_text(moves: Sequence[Move], unheard: bool, ground: Ground) -> str:
    """The line of a step that is missing."""
    text = "- " + ", ".join(write_move(move, ground.fretboard.tuning) for move in moves)
    return f"{text} silent" if unheard else text


def _said(first: Diagnostic, span: Span) -> str:
    return ("" if _is_on(first, span) else f"on {_line(first, span)} ") + _lowered(first)


def _cant(first: Diagnostic, span: Span) -> str:
    return f"{_line(first, span)} can't hold: {_lowered(first)}"


def _line(first: Diagnostic, span: Span) -> str:
    return f"line {first.span.line}" + ("" if first.span.file == span.file else f" of {first.span.file}")


def _lowered(first: Diagnostic) -> str:
    return first.message[0].lower() + first.message[1:]
