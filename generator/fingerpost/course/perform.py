"""What the hand holds after a line: its actions done one after the other, and what no hand can do refused."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from fingerpost.course.ground import Ground
from fingerpost.course.moves import move_of
from fingerpost.course.objections import fault_finding, fault_span, objection
from fingerpost.course.slip import Slip, error, slip
from fingerpost.diagnostics import Code, Diagnostic
from fingerpost.music.limits import Fault
from fingerpost.music.move import ImpossibleMove, Lift, Move, Reason, apply
from fingerpost.music.shape import Shape
from fingerpost.source.syntax import (
    Action,
    Back,
    ExchangeFinger,
    Hold,
    LiftFinger,
    MoveLine,
    MuteString,
    PlaceFinger,
    Rest,
    ShiftHand,
    StrumStrings,
)


@dataclass(frozen=True)
class Held:
    """What the hand holds. before_rest: the shape before a rest, None while the hand is on the neck.

    sure: whether this is known; False after a line that could not be followed, until a name confirms it. faults:
    limits that the hand breaks already, so that they are not reported again.
    """

    shape: Shape
    before_rest: Shape | None = None
    sure: bool = True
    faults: frozenset[Fault] = frozenset()

    @property
    def resting(self) -> bool:
        """Whether the hand is off the neck."""
        return self.before_rest is not None


@dataclass(frozen=True)
class Performed:
    """The hand after a line, and what is wrong with it though it can be done."""

    held: Held
    findings: tuple[Diagnostic, ...] = ()


class Stuck(Slip):
    """A slip at one action of a line: its index tells which."""

    def __init__(self, finding: Diagnostic, index: int) -> None:
        super().__init__(finding)
        self.index = index


ALONE = (Hold, Rest, Back)
AFTER_REST = "`back`, or the whole shape, such as `2 to E3 and 1 to A2`"


def perform(held: Held, line: MoveLine, ground: Ground, instead: Mapping[int, Move] | None = None) -> Performed:
    """Does a line. Raises Stuck where it can't be done. instead: other moves for some actions, by their index."""
    alone = next((action for action in line.actions if isinstance(action, ALONE)), None)
    if alone is not None:
        return _alone(held, alone, line)
    if held.resting:
        _check_after_rest(line.actions)
    shape = _done(held.shape, line.actions, ground, instead or {})
    new = [fault for fault in ground.hand.faults(shape, ground.fretboard) if fault not in held.faults]
    after = Held(shape, None, held.sure or held.resting, held.faults.union(new))
    many = () if held.resting else too_many(line, ground.fingers_per_step)
    return Performed(after, (*_fault(new, line), *many))


def _done(shape: Shape, actions: Sequence[Action], ground: Ground, instead: Mapping[int, Move]) -> Shape:
    """The shape after all actions of a line, which are one moment: it does not matter which finger is named first."""
    order = sorted(range(len(actions)), key=lambda index: not isinstance(actions[index], LiftFinger))
    for place, index in enumerate(order):
        action = actions[index]
        try:
            move = instead.get(index) or move_of(action, ground.fretboard)
            if isinstance(action, ShiftHand) and not ground.hand_shifts:
                raise _no_shifts(action)
            if move is not None:
                on_the_way = {_finger_placed(actions[later]) for later in order[place + 1 :]}
                shape = applied(shape, move, on_the_way, ground)
        except ImpossibleMove as problem:
            raise Stuck(objection(action, problem, shape, ground.fretboard), index) from None
        except Slip as problem:
            raise Stuck(problem.finding, index) from None
    return shape


def _finger_placed(action: Action) -> str | None:
    return action.finger.text.upper() if isinstance(action, PlaceFinger) else None


def applied(shape: Shape, move: Move, on_the_way: set[str | None], ground: Ground) -> Shape:
    """The shape after a move; a finger in its way that is about to go elsewhere in the same moment has gone."""
    try:
        return apply(shape, move, ground.fretboard.highest_fret)
    except ImpossibleMove as problem:
        if problem.reason is not Reason.SAME_SPOT or problem.other is None or problem.other.mark not in on_the_way:
            raise
        return applied(apply(shape, Lift(problem.other)), move, on_the_way, ground)


def _no_shifts(action: ShiftHand) -> Slip:
    message = "The whole hand slides here, and this course does not allow that"
    expected = "one finger's move, or the option `hand_shifts: true`"
    return slip(action.span, Code.IMPOSSIBLE_MOVE, message, expected)


def _alone(held: Held, action: Action, line: MoveLine) -> Performed:
    others = [other for other in line.actions if other is not action]
    word = {Hold: "hold", Rest: "rest", Back: "back"}[type(action)]
    if others:
        message = f"`{word}` stands alone, and here is more beside it"
        raise Stuck(error(others[0].span, Code.MOVE_UNREADABLE, message, f"`{word}` as a step of its own"), 0)
    if isinstance(action, Rest):
        return _rest(held, action)
    if isinstance(action, Back):
        return _back(held, action)
    if held.resting:
        raise Stuck(
            error(action.span, Code.IMPOSSIBLE_MOVE, "The hand rests, so it holds nothing", AFTER_REST, "back"), 0
        )
    return Performed(held)


def _rest(held: Held, action: Rest) -> Performed:
    if held.resting:
        raise Stuck(error(action.span, Code.IMPOSSIBLE_MOVE, "The hand rests already", AFTER_REST, "back"), 0)
    return Performed(replace(held, shape=Shape(held.shape.strings, (), held.shape.unstruck), before_rest=held.shape))


def _back(held: Held, action: Back) -> Performed:
    if held.before_rest is None:
        message = "There is no `rest` to come back from"
        raise Stuck(error(action.span, Code.IMPOSSIBLE_MOVE, message, "`rest` in a step before it"), 0)
    return Performed(replace(held, shape=held.before_rest, before_rest=None))


def _check_after_rest(actions: Sequence[Action]) -> None:
    placed = any(isinstance(action, PlaceFinger) for action in actions)
    for index, action in enumerate(actions):
        if not placed or not isinstance(action, PlaceFinger | MuteString | StrumStrings):
            message = "The hand rests, so it can't go on from a shape"
            raise Stuck(error(action.span, Code.IMPOSSIBLE_MOVE, message, AFTER_REST, "back"), index)


def _fault(new: Sequence[Fault], line: MoveLine) -> list[Diagnostic]:
    """The first fault as a finding; where one move breaks several limits, one of them is enough to know."""
    whole = line.actions[0].span.to(line.actions[-1].span)
    return [fault_finding(fault, fault_span(fault, line.actions, whole)) for fault in new[:1]]


def movers(actions: Sequence[Action]) -> list[tuple[str, Action]]:
    """The fingers that a line moves, each with the action that first names it; a shift is one mover."""
    out: dict[str, Action] = {}
    for action in actions:
        if isinstance(action, ShiftHand):
            out.setdefault("shift", action)
        elif isinstance(action, PlaceFinger | LiftFinger | ExchangeFinger | MuteString) and action.finger is not None:
            out.setdefault(action.finger.text.upper(), action)
    return list(out.items())


NUMBERS = {1: "one finger", 2: "two fingers", 3: "three fingers", 4: "four fingers", 5: "five fingers"}


def too_many(line: MoveLine, allowed: int) -> tuple[Diagnostic, ...]:
    """The finding for a line that moves more fingers than promised, at the first one too many."""
    moved = movers(line.actions)
    if len(moved) <= allowed:
        return ()
    extra = moved[allowed][1]
    count = NUMBERS.get(len(moved), f"{len(moved)} fingers")
    return (
        error(
            extra.span,
            Code.TOO_MANY_FINGERS,
            f"{count.capitalize()} move in this step, and at most {NUMBERS[allowed]} may",
            f"at most {NUMBERS[allowed]} a step (the key `fingers_per_step` allows more)",
            "a step for each: " + ", then ".join(f"`{written(action, line)}`" for _, action in moved),
        ),
    )


def written(action: Action, line: MoveLine) -> str:
    """The words of an action as they stand in its line."""
    start = action.span.column - line.text.span.column
    return line.text.text[start : start + action.span.end_column - action.span.column]
