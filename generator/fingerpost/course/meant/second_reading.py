"""A block that denies itself, read again: with the one slip put right that explains it, if there is one."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import replace

from fingerpost.course.ground import Ground
from fingerpost.course.heard import heard_of
from fingerpost.course.meant.corrected import Slipped, corrected
from fingerpost.course.meant.edits import OfStart
from fingerpost.course.meant.one_slip import Found, one_slip
from fingerpost.course.meant.slip_finding import finding
from fingerpost.course.meant.thread import Strand, Thread
from fingerpost.course.meant.trial import Trial
from fingerpost.course.name_book import NameBook
from fingerpost.course.naming import chord_or_none, computed
from fingerpost.course.perform import Held
from fingerpost.course.steps import DOUBTFUL, Walk, is_uncommon
from fingerpost.course.teaching import teaching_of
from fingerpost.diagnostics import Code, Diagnostic, Severity
from fingerpost.music.chord import Chord
from fingerpost.source.syntax import BlockSyntax, NameSaid

Begin = Callable[[Held], Walk]
"""Makes the walk through a block from what the hand holds at its start, the start made its first step."""

ACCEPTED = f"accept {Code.NAME_IS_LOOSE}"
"""Where an author stands by a loose name, what denies it is no slip."""

MOST_LINES = 400
"""A longer block that denies itself is not read again. By our own choice."""


def denials(findings: Iterable[Diagnostic]) -> list[Diagnostic]:
    """The findings that say that the lines of a block deny each other."""
    return [f for f in findings if f.code in DOUBTFUL and f.severity is Severity.ERROR]


def is_readable(syntax: BlockSyntax, start: Held) -> bool:
    """Whether a block can be read with others: each of its lines could be read, and its start is known."""
    whole = all(step.line is not None for step in syntax.steps)
    return whole and start.sure and not start.faults and ACCEPTED not in syntax.source


def second_reading(walk: Walk, thread: Thread, ground: Ground, begin: Begin) -> Walk | None:
    """The walk through the block as it was likely meant, with one finding at the slip; None where nothing is gained."""
    own = thread.strands[thread.own]
    first = min(denials(walk.findings), default=None)
    if first is None or own.held is None or not is_readable(own.syntax, own.held) or len(own.lines) > MOST_LINES:
        return None
    threads = dict.fromkeys([thread, thread.alone, Thread((own, *thread.strands[thread.own + 1 :])), Thread((own,))])
    for tried in threads:
        found = one_slip(tried, ground)
        if found is not None and not _name_is_the_slip(found, tried, ground, walk.book):
            again = _read_again(found, tried, first, ground, begin)
            if again is not None:
                return again
    return None


def _read_again(found: Found, thread: Thread, first: Diagnostic, ground: Ground, begin: Begin) -> Walk | None:
    own = thread.strands[thread.own]
    slipped = Slipped.of(found, thread)
    if slipped.strand > thread.own or own.held is None:
        return None
    steps, written, held = own.syntax.steps, own.syntax.steps, own.held
    if slipped.strand < thread.own:
        onward = Trial(thread.rows, ground).until_denied(found.held, found.first)
        held = onward[thread.ends(thread.own - 1) + 1 - found.first]
    elif isinstance(found.edit, OfStart):
        held = replace(held, shape=found.edit.shape)
    else:
        meant = corrected(steps, slipped, ground)
        steps, written = meant.steps, meant.written
    again = begin(held)
    again.go(steps, {})
    if denials(again.findings):
        return None
    again.written[1:] = written
    again.findings.append(finding(slipped, thread.strands[slipped.strand].syntax, first, ground))
    return again


def _name_is_the_slip(found: Found, thread: Thread, ground: Ground, book: NameBook) -> bool:
    """Whether the name that is denied is likelier the slip than a move: what the block teaches and shows tells.

    So where nothing else is denied, and what sounds is a chord that is expected here rather than the one named.
    """
    number = thread.places[found.denied].strand if found.denied >= 0 else 0
    syntax = thread.strands[number].syntax
    said = None if syntax.start is None else syntax.start.name
    name = said if found.denied < 0 else thread.rows[found.denied].name
    heard = None if found.only_name is None else heard_of(found.only_name, ground.fretboard)
    wanted = None if name is None else chord_or_none(name.symbol)
    if heard is None or wanted is None:
        return False
    naming = computed(heard, ground, book)
    assert naming.shown is not None
    taught = {chord.with_bass(None) for chord in teaching_of(syntax).chords}
    shown = {_plain(other) for other in _names(thread.strands[number]) if other is not None and other is not name}
    known = taught | shown | set(book.used.values())
    wanted, sounding = wanted.with_bass(None), naming.shown.with_bass(None)
    for expected in (taught - shown, known):
        if (wanted in expected) != (sounding in expected):
            return sounding in expected
    return not is_uncommon(naming) and not found.likelier


def _names(strand: Strand) -> Iterator[NameSaid | None]:
    yield None if strand.syntax.start is None else strand.syntax.start.name
    yield from (line.name for line in strand.lines)


def _plain(name: NameSaid) -> Chord | None:
    chord = chord_or_none(name.symbol)
    return None if chord is None else chord.with_bass(None)
