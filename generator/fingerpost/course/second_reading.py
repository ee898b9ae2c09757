"""A block that denies itself, read again: with the one slip put right that explains it, if there is one."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace

from fingerpost.course.corrected import corrected, finding
from fingerpost.course.ground import Ground
from fingerpost.course.heard import heard_of
from fingerpost.course.name_book import NameBook
from fingerpost.course.naming import computed
from fingerpost.course.one_slip import Began, Found, one_slip
from fingerpost.course.perform import Held
from fingerpost.course.steps import DOUBTFUL, Walk, is_uncommon
from fingerpost.course.teaching import teaching_of
from fingerpost.course.trial import chord_or_none
from fingerpost.diagnostics import Code, Severity
from fingerpost.music.chord import Chord
from fingerpost.source.syntax import BlockSyntax, FingersStart, MoveLine, NameSaid, ShapeStart

Begin = Callable[[Held], Walk]
"""Makes the walk through a block from what the hand holds at its start, the start made its first step."""

ACCEPTED = f"accept {Code.NAME_IS_LOOSE}"
"""Where an author stands by a loose name, what denies it is no slip."""

MOST_LINES = 400
"""A longer block that denies itself is not read again. By our own choice."""


def second_reading(walk: Walk, syntax: BlockSyntax, ground: Ground, start: Held, begin: Begin) -> Walk | None:
    """The walk through the block as it was likely meant, with one finding at the slip; None where nothing is gained."""
    denials = [f for f in walk.findings if f.code in DOUBTFUL and f.severity is Severity.ERROR]
    lines = [step.line for step in syntax.steps if step.line is not None]
    if (
        not denials
        or ACCEPTED in syntax.source
        or len(lines) < len(syntax.steps)
        or len(lines) > MOST_LINES
        or not start.sure
        or start.faults
    ):
        return None
    said = None if syntax.start is None else syntax.start.name
    changeable = syntax.start is not None and isinstance(syntax.start.form, FingersStart | ShapeStart)
    found = one_slip(start, said, changeable, lines, ground)
    if found is None or _name_is_the_slip(found, said, lines, syntax, ground, walk.book):
        return None
    again = begin(replace(start, shape=found.edit.shape) if isinstance(found.edit, Began) else start)
    meant = corrected(syntax.steps, found.edit, ground)
    again.go(meant.steps, {})
    if any(finding.code in DOUBTFUL for finding in again.findings):
        return None
    again.written[1:] = meant.written
    again.findings.append(finding(found, syntax.steps, syntax.start, min(denials), ground))
    return again


def _name_is_the_slip(
    found: Found, said: NameSaid | None, lines: Sequence[MoveLine], syntax: BlockSyntax, ground: Ground, book: NameBook
) -> bool:
    """Whether the name that is denied is likelier the slip than a move: what the block teaches and shows tells.

    So where nothing else is denied, and what sounds is a chord that is expected here rather than the one named.
    """
    name = said if found.denied < 0 else lines[found.denied].name
    heard = None if found.only_name is None else heard_of(found.only_name, ground.fretboard)
    wanted = None if name is None else chord_or_none(name.symbol)
    if heard is None or wanted is None:
        return False
    naming = computed(heard, ground, book)
    assert naming.shown is not None
    taught = {chord.with_bass(None) for chord in teaching_of(syntax).chords}
    names = [said, *(line.name for line in lines)]
    shown = {_plain(other) for other in names if other is not None and other is not name}
    known = taught | shown | set(book.used.values())
    wanted, sounding = wanted.with_bass(None), naming.shown.with_bass(None)
    for expected in (taught - shown, known):
        if (wanted in expected) != (sounding in expected):
            return sounding in expected
    return not is_uncommon(naming)


def _plain(name: NameSaid) -> Chord | None:
    chord = chord_or_none(name.symbol)
    return None if chord is None else chord.with_bass(None)
