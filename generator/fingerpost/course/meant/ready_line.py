"""A line made ready to be done many times over: whether it can be done is all that is asked, not why it can't."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache

from fingerpost.course.ground import Ground
from fingerpost.course.moves import move_of
from fingerpost.course.perform import ALONE, Held, applied, movers
from fingerpost.course.slip import Slip
from fingerpost.course.sound import SILENT_BY_NATURE
from fingerpost.music.move import ImpossibleMove, Move, Place, Shift
from fingerpost.music.shape import Shape
from fingerpost.source.syntax import (
    Action,
    Back,
    LiftFinger,
    MoveLine,
    MuteString,
    PlaceFinger,
    Rest,
    StrumStrings,
)


@dataclass(frozen=True)
class ReadyLine:
    """Does what `perform.perform` does, for a hand that breaks no limit; a test holds the two against each other.

    moves: each with the index of its action, in the order in which they are done; None where one can't be read or the
    line moves more than it may. placed: the finger that each action places. starts: whether it can come after a rest.
    """

    alone: Action | None
    moves: tuple[tuple[int, Move], ...] | None
    placed: Mapping[int, str]
    many: bool
    starts: bool
    silent: bool
    by_nature: bool

    def after(self, held: Held, ground: Ground, instead: Mapping[int, Move]) -> Held | None:
        """The hand after the line; None where it can't be done, or is heard otherwise than it promises."""
        if self.alone is not None:
            return self._alone(held)
        if self.moves is None or (not self.starts if held.resting else self.many):
            return None
        shape = self._moved(held.shape, self.moves, ground, instead)
        if shape is None or not is_held(shape, ground):
            return None
        if any(isinstance(move, Place) and _is_unheard(shape, move) for move in instead.values()) and not self.silent:
            return None
        changes = held.shape.frets != shape.frets
        if not held.resting and (changes if self.silent else not changes and not self.by_nature):
            return None
        return Held(shape)

    def _moved(
        self, shape: Shape, moves: tuple[tuple[int, Move], ...], ground: Ground, instead: Mapping[int, Move]
    ) -> Shape | None:
        try:
            for place, (index, move) in enumerate(moves):
                on_the_way = {self.placed.get(later) for later, _ in moves[place + 1 :]}
                shape = applied(shape, instead.get(index, move), on_the_way, ground)
        except ImpossibleMove:
            return None
        return shape

    def _alone(self, held: Held) -> Held | None:
        if isinstance(self.alone, Rest):
            bare = Shape(held.shape.strings, (), held.shape.unstruck)
            return None if held.resting else Held(bare, held.shape)
        if isinstance(self.alone, Back):
            return None if held.before_rest is None else Held(held.before_rest)
        return None if held.resting else held


def ready(line: MoveLine, ground: Ground) -> ReadyLine:
    """The line, made ready on this ground."""
    actions = line.actions
    alone = next((action for action in actions if isinstance(action, ALONE)), None)
    order = sorted(range(len(actions)), key=lambda index: not isinstance(actions[index], LiftFinger))
    placing = [action for action in actions if isinstance(action, PlaceFinger)]
    return ReadyLine(
        alone=alone if len(actions) == 1 else None,
        moves=None if alone is not None else _moves(actions, order, ground),
        placed={i: a.finger.text.upper() for i, a in enumerate(actions) if isinstance(a, PlaceFinger)},
        many=len(movers(actions)) > ground.fingers_per_step,
        starts=bool(placing) and all(isinstance(a, PlaceFinger | MuteString | StrumStrings) for a in actions),
        silent=line.silent is not None,
        by_nature=all(isinstance(action, SILENT_BY_NATURE) for action in actions),
    )


def _moves(actions: tuple[Action, ...], order: list[int], ground: Ground) -> tuple[tuple[int, Move], ...] | None:
    out = list[tuple[int, Move]]()
    for index in order:
        try:
            move = move_of(actions[index], ground.fretboard)
        except Slip:
            return None
        if move is None or (isinstance(move, Shift) and not ground.hand_shifts):
            return None
        out.append((index, move))
    return tuple(out)


def _is_unheard(shape: Shape, move: Place) -> bool:
    """Whether nothing is heard of a placement, because its strings are not struck or are damped."""
    return all(shape.fret(string) is None for string in move.press.strings)


@lru_cache(maxsize=8192)
def is_held(shape: Shape, ground: Ground) -> bool:
    """Whether a hand can hold a shape; remembered, since trials come to the same shapes again and again."""
    return not ground.hand.faults(shape, ground.fretboard)
