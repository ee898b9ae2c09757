"""What to say when the hand, as it stands, cannot do what a line asks of it."""

from __future__ import annotations

from collections.abc import Callable, Iterable

from fingerpost.course.slip import error
from fingerpost.course.words import listed, marks, sentence
from fingerpost.diagnostics import Code, Diagnostic, Span
from fingerpost.music.fretboard import Fretboard
from fingerpost.music.limits import Fault, Limit
from fingerpost.music.move import ImpossibleMove, Reason
from fingerpost.music.shape import Shape
from fingerpost.source.syntax import (
    Action,
    ExchangeFinger,
    LiftFinger,
    MuteString,
    PlaceFinger,
    ShiftHand,
    Token,
)


def objection(action: Action, problem: ImpossibleMove, shape: Shape, fretboard: Fretboard) -> Diagnostic:
    """The finding for a move that can't be made, at the word that makes it impossible."""
    return _BY_REASON[problem.reason](action, problem, shape, fretboard)


def down(shape: Shape) -> str:
    """Which fingers are down, as an expectation."""
    fingers = shape.fingers
    if not fingers:
        return "a finger that is put down first"
    return (
        f"finger {fingers[0].mark}, which alone is down"
        if len(fingers) == 1
        else f"a finger that is down: {marks(fingers)}"
    )


def _finger_span(action: Action, problem: ImpossibleMove) -> Span:
    """The word for the finger that is concerned."""
    if isinstance(action, ExchangeFinger):
        concerned = problem.finger is not None and action.finger.text.upper() == problem.finger.mark
        return (action.finger if concerned else action.replaced).span
    if isinstance(action, PlaceFinger | LiftFinger):
        return action.finger.span
    if isinstance(action, MuteString) and action.finger is not None:
        return action.finger.span
    return action.span


def _not_down(action: Action, problem: ImpossibleMove, shape: Shape, fretboard: Fretboard) -> Diagnostic:
    fixes = [f"`{_with_finger(action, finger.mark)}`" for finger in shape.fingers]
    fix = listed(fixes) if len(fixes) > 1 else fixes[0].strip("`") if fixes else ""
    return error(_finger_span(action, problem), Code.FINGER_NOT_DOWN, sentence(problem.message), down(shape), fix)


def _with_finger(action: Action, mark: str) -> str:
    """The action as it would be written with another finger."""
    if isinstance(action, ExchangeFinger):
        return f"{action.finger.text} for {mark}"
    if isinstance(action, MuteString):
        return f"mute {action.string.text} by {mark}"
    return f"{mark} off"


def _is_down(action: Action, problem: ImpossibleMove, shape: Shape, fretboard: Fretboard) -> Diagnostic:
    free = [mark for mark in ("1", "2", "3", "4") if mark not in {finger.mark for finger in shape.fingers}]
    expected = f"a finger that is up: {listed(free)}" if free else "a finger that is up"
    return error(_finger_span(action, problem), Code.IMPOSSIBLE_MOVE, sentence(problem.message), expected)


def _already(action: Action, problem: ImpossibleMove, shape: Shape, fretboard: Fretboard) -> Diagnostic:
    expected = "a place where it is not yet, or `hold`" if isinstance(action, PlaceFinger) else "a change, or `hold`"
    return error(action.span, Code.IMPOSSIBLE_MOVE, sentence(problem.message), expected, "hold")


def _same_spot(action: Action, problem: ImpossibleMove, shape: Shape, fretboard: Fretboard) -> Diagnostic:
    span = action.place.span if isinstance(action, PlaceFinger) else action.span
    fix = ""
    if problem.finger is not None and problem.other is not None and shape.press_of(problem.finger) is None:
        fix = f"{problem.finger.mark} for {problem.other.mark}"
    expected = "a place that is free" + (f", or `{fix}` to take the place over" if fix else "")
    return error(span, Code.IMPOSSIBLE_HAND, sentence(problem.message), expected, fix)


def _no_fret(action: Action, problem: ImpossibleMove, shape: Shape, fretboard: Fretboard) -> Diagnostic:
    span = action.place.fret.span if isinstance(action, PlaceFinger) else action.span
    return error(span, Code.UNKNOWN_FRET, sentence(problem.message), f"a fret from 1 to {fretboard.highest_fret}")


def _off_the_neck(action: Action, problem: ImpossibleMove, shape: Shape, fretboard: Fretboard) -> Diagnostic:
    span = action.by.span if isinstance(action, ShiftHand) else action.span
    expected = f"a shift that keeps every finger between frets 1 and {fretboard.highest_fret}"
    return error(span, Code.IMPOSSIBLE_MOVE, sentence(problem.message), expected)


def _no_string(action: Action, problem: ImpossibleMove, shape: Shape, fretboard: Fretboard) -> Diagnostic:
    return error(action.span, Code.UNKNOWN_STRING, sentence(problem.message), f"a string from 1 to {shape.strings}")


def _nothing_down(action: Action, problem: ImpossibleMove, shape: Shape, fretboard: Fretboard) -> Diagnostic:
    return error(action.span, Code.FINGER_NOT_DOWN, sentence(problem.message), "a finger that is put down first")


def _nothing_struck(action: Action, problem: ImpossibleMove, shape: Shape, fretboard: Fretboard) -> Diagnostic:
    return error(action.span, Code.IMPOSSIBLE_MOVE, sentence(problem.message), "at least one string")


def _presses_it(action: Action, problem: ImpossibleMove, shape: Shape, fretboard: Fretboard) -> Diagnostic:
    string: Token | None = action.string if isinstance(action, MuteString) else None
    span = string.span if string is not None else action.span
    expected = "another string, or `mute` without a finger to leave this one unstruck"
    fix = f"mute {string.text}" if string is not None else ""
    return error(span, Code.IMPOSSIBLE_MOVE, sentence(problem.message), expected, fix)


_BY_REASON: dict[Reason, Callable[[Action, ImpossibleMove, Shape, Fretboard], Diagnostic]] = {
    Reason.FINGER_UP: _not_down,
    Reason.FINGER_DOWN: _is_down,
    Reason.ALREADY_SO: _already,
    Reason.SAME_SPOT: _same_spot,
    Reason.NO_SUCH_FRET: _no_fret,
    Reason.NO_SUCH_STRING: _no_string,
    Reason.OFF_THE_NECK: _off_the_neck,
    Reason.NOTHING_DOWN: _nothing_down,
    Reason.NOTHING_STRUCK: _nothing_struck,
    Reason.PRESSES_IT: _presses_it,
}

WITHIN = {
    Limit.FINGER_ORDER: "fingers in their order along the neck: a lower finger behind a higher one",
    Limit.SPAN_FRETS: "frets within the limit `span_frets`",
    Limit.SPAN_MM: "frets within the limit `span_mm`",
    Limit.FINGERS: "one of the fingers in the limit `fingers`",
    Limit.BAR_STRINGS: "a bar within the limit `bar_strings`",
    Limit.THUMB_STRINGS: "a string within the limit `thumb_strings`",
    Limit.DAMPING_REACH: "a string within the limit `damping_reach`",
    Limit.ONE_FRET: "one place a finger",
    Limit.ONE_SPOT: "one finger a place",
    Limit.NECK: "a fret of this neck",
}
"""What each limit of the hand asks for, in the words of a finding."""


def fault_finding(fault: Fault, span: Span, fix: str = "") -> Diagnostic:
    """The finding for a hand that breaks a limit."""
    return error(span, Code.IMPOSSIBLE_HAND, sentence(fault.message), WITHIN[fault.limit], fix)


def fault_span(fault: Fault, actions: Iterable[Action], whole: Span) -> Span:
    """Where the fault comes in: the place given to a finger that is concerned, else the whole."""
    concerned = {finger.mark for finger in fault.fingers}
    for action in reversed(tuple(actions)):
        if isinstance(action, PlaceFinger) and action.finger.text.upper() in concerned:
            return action.place.span
        if isinstance(action, MuteString | ExchangeFinger) and action.finger and action.finger.text in concerned:
            return action.span
    return whole
