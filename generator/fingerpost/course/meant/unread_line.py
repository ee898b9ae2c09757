"""The line that was likely meant by one that can't be read: what its finding offers, or what the names ahead tell."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace

from fingerpost.course.agreement import rooted_first
from fingerpost.course.ground import Ground
from fingerpost.course.meant.left_out import letters_left_out
from fingerpost.course.meant.likely_move import Meant, names_hold
from fingerpost.course.perform import Held, perform
from fingerpost.course.slip import Slip
from fingerpost.diagnostics import Diagnostic, Span
from fingerpost.music.shape import Shape
from fingerpost.source.grammar import move_or_none, read_move
from fingerpost.source.syntax import BlockSyntax, MoveLine, NameSaid, StepSyntax, Token


@dataclass(frozen=True)
class Unread:
    """The finding about a step that can't be read, and the line that its fix writes, None where it has none."""

    finding: Diagnostic
    meant: MoveLine | None


def unread_lines(syntax: BlockSyntax, errors: Iterable[Diagnostic]) -> dict[Span, Unread]:
    """What is known of the steps that could not be read, by their spans."""
    by_line = {finding.span.line: finding for finding in sorted(errors, reverse=True)}
    out: dict[Span, Unread] = {}
    for step in syntax.steps:
        finding = None if step.line is not None else by_line.get((step.unread or step).span.line)
        if finding is not None:
            meant = read_move(Token(finding.fix, step.span)).value if finding.fix else None
            out[step.span] = Unread(finding, meant)
    return out


def with_letter_left_out(
    step: StepSyntax, fault: Span, held: Held, ahead: Sequence[StepSyntax], ground: Ground
) -> Meant | None:
    """The step with the one letter that was left out where reading stopped, so that the first name from it on holds.

    One after which the lowest note is the root of the line's name goes before others.
    """
    return rooted_first(_holding(step, fault, held, ahead, ground), ground)


def _holding(
    step: StepSyntax, fault: Span, held: Held, ahead: Sequence[StepSyntax], ground: Ground
) -> Iterator[tuple[Meant, Shape, NameSaid | None]]:
    for text in letters_left_out(step.unread, fault, ground.fretboard.tuning) if step.unread is not None else ():
        line = move_or_none(text)
        if line is None:
            continue
        line = line if line.name is not None else replace(line, name=step.unread_name)
        after = _done(held, line, ground)
        if after is not None and names_hold(after, line, ahead, ground):
            yield Meant(text.text, after), after.shape, line.name


def _done(held: Held, line: MoveLine, ground: Ground) -> Held | None:
    """The hand after a line that can be done without a finding."""
    try:
        done = perform(held, line, ground)
    except Slip:
        return None
    return None if done.findings else done.held
