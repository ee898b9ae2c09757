"""What a block with errors would leave to later ones: nothing is said of them that mending it may take back."""

from __future__ import annotations

import math
import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace

from fingerpost.course.naming import chord_or_none
from fingerpost.course.teaching import Told, teaching_of
from fingerpost.course.trail import Sighting, sighted
from fingerpost.diagnostics import Diagnostic
from fingerpost.music.chord import Chord
from fingerpost.source.grammar import LONGEST_LINE
from fingerpost.source.syntax import BlockSyntax, StepSyntax, Token

_NAME = re.compile(r"[=~]\s*([A-H][^\s=~]*)")
"""A chord's name in a line that can't be read."""


@dataclass(frozen=True)
class InDoubt:
    """The chords that a block with errors shows, those that it teaches or names alone, and the ids of its steps."""

    shown: tuple[tuple[Chord, Sighting], ...]
    promised: frozenset[Chord]
    step_ids: tuple[str, ...]


def in_doubt(told: Told, errors: Iterable[Diagnostic], start_is_sure: bool) -> InDoubt:
    """What is in doubt of a block with these errors. What stands above the first of them is as sure as elsewhere."""
    first = _first_line_at_fault(told.syntax, errors) if start_is_sure else 0
    shown = tuple((chord, replace(seen, sure=_line(told, seen) < first)) for chord, seen in sighted(told))
    promised = told.teaching.chords.union(_named(told.syntax)) - {chord for chord, _ in shown}
    return InDoubt(shown, promised, tuple(step.id.text for step in told.syntax.steps if step.id is not None))


def chords_by_text(syntax: BlockSyntax) -> frozenset[Chord]:
    """The chords that a block teaches or names: what it may show, before it is built."""
    return teaching_of(syntax).chords.union(_named(syntax))


def ids_by_text(syntax: BlockSyntax) -> frozenset[str]:
    """The ids that a block gives to itself and to its steps."""
    return frozenset(token.text for token in (syntax.id, *(step.id for step in syntax.steps)) if token is not None)


def _named(syntax: BlockSyntax) -> Iterator[Chord]:
    """The chords that the start and the steps claim to show, also in lines that can't be read."""
    said = (*(name.symbol for name in syntax.names), *(token for step in syntax.steps for token in _in_unread(step)))
    return (chord for chord in map(chord_or_none, said) if chord is not None)


def _in_unread(step: StepSyntax) -> Iterator[Token]:
    if step.unread_name is not None:
        yield step.unread_name.symbol
    elif step.unread is not None and len(step.unread.text) <= LONGEST_LINE:
        yield from (Token(found.group(1), step.span) for found in _NAME.finditer(step.unread.text))


def _first_line_at_fault(syntax: BlockSyntax, errors: Iterable[Diagnostic]) -> float:
    """The line of the first error in the steps; 0 where the start itself has one, infinity where neither has."""
    lines = {finding.span.line for finding in errors}
    if syntax.start is None and "start" in syntax.unread:
        return 0
    if syntax.start is not None and syntax.start.text.span.line in lines:
        return 0
    steps = (syntax.steps[0].span.line, syntax.steps[-1].span.end_line) if syntax.steps else (1, 0)
    return min((line for line in lines if steps[0] <= line <= steps[1]), default=math.inf)


def _line(told: Told, seen: Sighting) -> int:
    """The line that made a step; 0 for the start, which comes before them all wherever it is written."""
    written = told.written[seen.step.ordinal]
    return 0 if written is None else written.span.line
