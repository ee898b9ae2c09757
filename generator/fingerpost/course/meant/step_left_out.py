"""The step that was left out of a block which teaches a chord that none of its steps shows, where one would fit."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from fingerpost.course.agreement import sounds
from fingerpost.course.ground import Ground
from fingerpost.course.heard import heard_of
from fingerpost.course.ledger import Use, uses_of_step
from fingerpost.course.meant.edits import Missing
from fingerpost.course.meant.one_slip import searched
from fingerpost.course.meant.search import FRETS_TRIED, MISSING, Candidate, Search, strums
from fingerpost.course.meant.slip_finding import step_text
from fingerpost.course.meant.steps_missing import damping
from fingerpost.course.meant.thread import Strand, Thread
from fingerpost.course.meant.weighing import OTHER_BASS, Weighing
from fingerpost.course.model import Block, Naming, Step
from fingerpost.course.naming import chord_or_none
from fingerpost.course.perform import Held
from fingerpost.course.teaching import teaching_of
from fingerpost.diagnostics import Span
from fingerpost.music import chord_symbol
from fingerpost.music.chord import Chord
from fingerpost.music.move import Move, Strum
from fingerpost.music.neighbours import steps as moves_of
from fingerpost.music.transition import transition
from fingerpost.source.syntax import BlockSyntax

MOST_LINES = 100
"""In a longer block no step is looked for. By our own choice."""


OUT_OF_TURN = 0.3
"""How much less likely a step is for every chord that `teaches` names in another order. By our own choice."""


@dataclass(frozen=True)
class LeftOut:
    """A step that is missing above a line: where that stands, what to write, and everything that the step would use."""

    span: Span
    text: str
    uses: frozenset[Use]


def step_left_out(chord: Chord, syntax: BlockSyntax, block: Block, ground: Ground) -> LeftOut | None:
    """The likeliest step that shows the chord, and with which all lines still hold; None where there is none."""
    lines = [step.line for step in syntax.steps if step.line is not None]
    if not 0 < len(lines) <= MOST_LINES or len(lines) < len(syntax.steps):
        return None
    thread = Thread((Strand(syntax, held=Held(block.steps[0].shape)),))
    trial, denied = searched(thread, ground)
    if denied is not None:
        return None
    befores = trial.until_denied(thread.start)
    search = Search(thread, trial, befores[:-1], len(lines))
    found = list(_showing(chord, search, with_strum=False)) or list(_showing(chord, search, with_strum=True))
    if not found:
        return None
    weighing = Weighing(search)
    best = min(
        found, key=lambda one: weighing.of(one) + _out_of_turn(chord, one, syntax) + _other_bass(chord, one, search)
    )
    assert isinstance(best.edit, Missing)
    line = lines[best.edit.at]
    text = f"{step_text(best.edit.moves, False, ground)} = {chord_symbol.write(chord, ground.style)}"
    return LeftOut(line.actions[0].span, text, _uses(best, chord, block, line.actions[0].span))


def _showing(chord: Chord, search: Search, with_strum: bool) -> Iterator[Candidate]:
    """Every step of one finger that shows the chord, wherever the lines below it still hold."""
    for at, before in enumerate(search.befores):
        if before.resting or not before.shape.has_fingers:
            continue
        for candidate in _steps(search, at, with_strum):
            heard = heard_of(candidate.held.shape, search.trial.ground.fretboard)
            if heard is None or candidate.unheard or not sounds(chord, heard):
                continue
            if search.trial.holds(candidate.held, at):
                yield candidate


def _steps(search: Search, at: int, with_strum: bool) -> Iterator[Candidate]:
    before, ground = search.befores[at], search.trial.ground
    if not with_strum:
        yield from damping(search, at)
    for strum in strums(ground) if with_strum else [Strum(before.shape.struck)]:
        if with_strum == (strum.strings == before.shape.struck):
            continue
        hand = before.shape.with_struck(strum.strings)
        for step in moves_of(hand, ground.fretboard, ground.hand, FRETS_TRIED):
            if step.strum is None:
                moves: tuple[Move, ...] = (step.move, strum) if with_strum else (step.move,)
                yield Candidate(MISSING, Missing(at, moves), replace(before, shape=step.shape), at, before)


def _other_bass(chord: Chord, candidate: Candidate, search: Search) -> float:
    heard = heard_of(candidate.held.shape, search.trial.ground.fretboard)
    return OTHER_BASS * (heard is not None and chord.bass_pitch_class != heard.bass)


def _out_of_turn(chord: Chord, candidate: Candidate, syntax: BlockSyntax) -> float:
    """What it costs that the step comes before a chord that `teaches` names before it, or below one named after it."""
    assert isinstance(candidate.edit, Missing)
    order = [use.name for use in teaching_of(syntax).words]
    turn, cost = order.index(chord), 0.0
    shown: dict[Chord | None, int] = {}
    for at, step in enumerate(syntax.steps):
        name = None if step.line is None or step.line.name is None else step.line.name.symbol
        shown.setdefault(None if name is None else chord_or_none(name), at)
    for beside, other in enumerate(order):
        if other != chord and isinstance(other, Chord) and other in shown:
            cost += OUT_OF_TURN * ((beside < turn) != (shown[other] < candidate.edit.at))
    return cost


def _uses(candidate: Candidate, chord: Chord, block: Block, span: Span) -> frozenset[Use]:
    change = transition(candidate.before.shape, candidate.held.shape, block.fretboard)
    step = Step("", 0, span, candidate.held.shape, Naming(chord), (), change)
    return frozenset(uses_of_step(step, block))
