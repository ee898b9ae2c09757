"""A block whose names deny its tuning: the tuning in which all of it holds, which it has lost or misnamed."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, replace

from fingerpost.course.agreement import agrees
from fingerpost.course.ground import Ground
from fingerpost.course.meant.second_reading import MOST_LINES, denials
from fingerpost.course.meant.slip_words import start_line
from fingerpost.course.meant.thread import Strand
from fingerpost.course.meant.trial import Trial
from fingerpost.course.perform import Held
from fingerpost.course.slip import error
from fingerpost.course.start import StartRead
from fingerpost.diagnostics import Diagnostic
from fingerpost.music.tuning import NAMED, Tuning, parse_tuning
from fingerpost.source.syntax import BlockSyntax

FEWEST_NAMES = 3
"""So many names must tell before a tuning is said to be another. By our own choice."""
FEWEST_DENIED = 2
"""One that is denied is likelier a slip of its own."""

Start = Callable[[Ground], StartRead]
"""Reads the start of the block on another ground."""


@dataclass(frozen=True)
class Retuned:
    """The ground with the other tuning, how that is written, and the start on it."""

    ground: Ground
    text: str
    start: StartRead


def other_tuning(
    syntax: BlockSyntax, findings: Iterable[Diagnostic], ground: Ground, written: Iterable[str], start: Start
) -> Retuned | None:
    """The first tuning in which the block holds. written: how the course's other blocks write theirs, nearest first."""
    said = [name for name in syntax.names if name.strict]
    strand = Strand(syntax)
    if len(denials(findings)) < FEWEST_DENIED or len(said) < FEWEST_NAMES or not strand.whole:
        return None
    done = 0
    for text, tuning in _tunings(written) if len(strand.lines) <= MOST_LINES else ():
        if tuning.strings != ground.fretboard.strings or tuning.midi == ground.fretboard.tuning.midi:
            continue
        on = replace(ground, fretboard=replace(ground.fretboard, tuning=tuning))
        read = start(on)
        if read.shape is None or read.findings or not read.sure:
            continue
        trial = Trial(strand.lines, on, done)
        name = None if syntax.start is None else syntax.start.name
        if agrees(read.shape, name, on) is not False and trial.holds(Held(read.shape), 0):
            return Retuned(on, text, read)
        done = trial.done
    return None


def tuning_finding(syntax: BlockSyntax, retuned: Retuned, first: Diagnostic) -> Diagnostic:
    """The finding at the tuning, or where it is missing. first: what is said where a name first denies it."""
    what = first.message[0].lower() + first.message[1:]
    if syntax.tuning is not None:
        message = f"In this tuning line {first.span.line} can't hold: {what}"
        expected = f"`{retuned.text}`, in which all that follows holds"
        return error(syntax.tuning.span, first.code, message, expected, retuned.text)
    span, where = start_line(syntax)
    line = f"tuning: {retuned.text}"
    on = "" if first.span.line == span.line else f"on line {first.span.line} "
    message = f"The tuning seems to be missing {where} this line: {on}{what}"
    expected = f"`{line}` {where} it, with which all that follows holds"
    return error(span, first.code, message, expected, f"Write `{line}` {where} this line.")


def _tunings(written: Iterable[str]) -> Iterator[tuple[str, Tuning]]:
    for text in dict.fromkeys((*written, *NAMED)):
        try:
            yield text, parse_tuning(text)
        except ValueError:
            continue
