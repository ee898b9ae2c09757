"""Where a block goes from one of its chords to another by more moves, or harder ones, than there need be.

Two kinds are looked for. Between two chords with only passing shapes between them: the shortest, then easiest, way.
And of three chords that follow each other: the middle one held otherwise, so that both moves together are easier.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from fingerpost.course.model import Block, Step
from fingerpost.diagnostics import Edit, Span
from fingerpost.music.difficulty import difficulty
from fingerpost.music.hand import Hand
from fingerpost.music.routes.answer import best_route
from fingerpost.music.routes.conditions import Conditions
from fingerpost.music.routes.question import Atlas, End, Question
from fingerpost.music.routes.route import Route, route_of
from fingerpost.music.routes.search import Budget, Chain, SearchBoundError
from fingerpost.music.shape import Shape
from fingerpost.source.syntax import BlockSyntax, StepSyntax

WORTH = 0.2
"""A way of as many moves is worth telling if it costs so many points less (by judgement)."""
GRIPS = 20_000


@dataclass(frozen=True, slots=True)
class BetterWay:
    """A stretch of a block and a better one. first, last: ordinals of the steps; before them is where it begins.

    now, then: points of the changes as they are and as they would be. moves: as a lesson writes them. edits put them
    in place; has_words: what the author says, cues or shows there may not fit any more.
    """

    block: str
    span: Span
    first: int
    last: int
    now: float
    then: float
    moves: tuple[str, ...]
    shapes: tuple[Shape, ...]
    edits: tuple[Edit, ...]
    has_words: bool

    @property
    def fewer(self) -> int:
        """By how many moves it is shorter."""
        return self.last - self.first + 1 - len(self.moves)


def better_ways(block: Block, syntax: BlockSyntax, hand: Hand, atlas: Atlas) -> Iterator[BetterWay]:
    """All that are found in a sound block; they may overlap."""
    if len(block.steps) != len(syntax.steps) + 1:
        return
    for first, last in _stretches(block.steps):
        route = _shortest(block, block.steps[first - 1].shape, block.steps[last].shape, hand, atlas)
        if route is not None:
            yield from _told(block, syntax, hand, first, last, route)
    for first in range(1, len(block.steps) - 1):
        if all(_is_move(step) and not step.passing for step in block.steps[first : first + 2]):
            route = _held_otherwise(block, first, hand, atlas)
            if route is not None:
                yield from _told(block, syntax, hand, first, first + 1, route)


def _is_move(step: Step) -> bool:
    return not (step.rest or step.hold or step.back or step.silent or step.transition is None)


def _stretches(steps: Sequence[Step]) -> Iterator[tuple[int, int]]:
    """The first and last ordinal of each stretch of several moves that only passes shapes before its last."""
    kept = [step.ordinal for step in steps if not step.passing]
    for one, other in pairwise(kept):
        if other - one > 1 and all(_is_move(step) for step in steps[one + 1 : other + 1]):
            yield one + 1, other


def _can_be_searched(shape: Shape) -> bool:
    return shape.has_fingers and not shape.damped


def _question(block: Block, start: Shape, end: Shape, hand: Hand, others: Sequence[Shape] = ()) -> Question:
    """The question between two shapes; bars are no better way where there is none."""
    bars = any(press.is_bar for shape in (start, end, *others) for press in shape.presses)
    conditions = Conditions(no_bar=not bars)
    return Question(End("", (start,)), End("", (end,)), block.fretboard, hand, conditions)


def _shortest(block: Block, start: Shape, end: Shape, hand: Hand, atlas: Atlas) -> Route | None:
    if not (_can_be_searched(start) and _can_be_searched(end)):
        return None
    try:
        return best_route(_question(block, start, end, hand), atlas, Budget(GRIPS))
    except SearchBoundError:
        return None


def _held_otherwise(block: Block, first: int, hand: Hand, atlas: Atlas) -> Route | None:
    """The cheapest two moves through any shape of the chord in the middle that is no harder to hold."""
    start, middle, end = (step.shape for step in block.steps[first - 1 : first + 2])
    naming = block.steps[first].naming
    if naming.shown is None or naming.taught_as or not all(map(_can_be_searched, (start, middle, end))):
        return None
    question = _question(block, start, end, hand, (middle,))
    neck = atlas.neck(question)
    source, target = neck.grip(start), neck.grip(end)
    if source is None or target is None:
        return None
    chains = []
    for shape in atlas.shapes(End("", (), naming.shown), question):
        grip = neck.grip(shape)
        harder = hand.cost(shape, block.fretboard) > hand.cost(middle, block.fretboard)
        if grip is not None and shape.unstruck == middle.unstruck and not harder:
            to, on = neck.step(source, grip), neck.step(grip, target)
            if to is not None and on is not None:
                chains.append(Chain((source, grip, target), to + on))
    best = min(chains, key=lambda chain: (chain.cost, chain.grips), default=None)
    return None if best is None else route_of(neck, best)


def _told(block: Block, syntax: BlockSyntax, hand: Hand, first: int, last: int, route: Route) -> Iterator[BetterWay]:
    """The route as a better way, if it is one and can be written into the lines that are there."""
    steps, written = block.steps[first : last + 1], syntax.steps[first - 1 : last]
    now = sum(difficulty(step.transition, block.fretboard, hand).total for step in steps if step.transition)
    shorter = route.length < len(steps)
    if not shorter and (route.length > len(steps) or route.cost > now - WORTH):
        return
    moves = tuple(step.text for step in route.steps)
    edits = _edits(written, moves)
    if edits is not None:
        span = written[0].span.to(written[-1].span)
        shapes = tuple(step.shape for step in route.steps)
        has_words = any(map(_has_words, written))
        yield BetterWay(block.id, span, first, last, round(now, 3), route.cost, moves, shapes, edits, has_words)


def _has_words(step: StepSyntax) -> bool:
    """Whether something is said, cued or shown that may speak of the move; beats and strokes do not."""
    cue = step.line is not None and step.line.cue is not None
    return cue or any(part is not None for part in (step.say, step.id, step.easier, step.image))


def _edits(written: Sequence[StepSyntax], moves: Sequence[str]) -> tuple[Edit, ...] | None:
    """The moves in place of those that are written, the last in the last line; lines that are left over go."""
    gone, kept = written[: len(written) - len(moves)], written[len(written) - len(moves) :]
    if not moves or any(step.line is None or not step.line.actions for step in written):
        return None
    edits = [Edit(Span(step.span.file, step.span.line, 1, step.span.line + 1, 1), "") for step in gone]
    if any(step.span.line != step.span.end_line or _has_words(step) for step in gone):
        return None
    for step, move in zip(kept, moves, strict=True):
        assert step.line is not None
        edits.append(Edit(step.line.actions[0].span.to(step.line.actions[-1].span), move))
    return tuple(edits)
