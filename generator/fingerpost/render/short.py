"""What a page keeps out of sight until a step is practised: the move in short, `2 → A3`, and the way back."""

from __future__ import annotations

from collections.abc import Callable, Iterable

from fingerpost.course.model import Block, Step
from fingerpost.music.shape import Finger, Press
from fingerpost.music.transition import FingerMove, MoveKind, Transition
from fingerpost.render import wording
from fingerpost.render.named import named
from fingerpost.render.parts import tag
from fingerpost.render.voice import Voice

FEWEST_FOR_A_RANGE = 3


def step_short(step: Step, before: Step | None, voice: Voice) -> str:
    """The short form of how a step is reached; "" for the start, and where the move is not known."""
    plain = {"rest": step.rest, "back": step.back, "hold": step.hold}
    for name, holds in plain.items():
        if holds:
            return voice.words.say(f"short.{name}")
    if before is None or step.transition is None:
        return ""
    return short(step.transition, voice)


def short(transition: Transition, voice: Voice) -> str:
    """Every finger that moves, and the strings struck from here on if those change; "" where nothing moves."""
    if transition.shift:
        out = [voice.words.say("short.shift", by=f"{transition.shift:+d}".replace("-", "−"))]
    else:
        out = [_SHORT[move.kind](move, transition, voice) for move in transition.moves]
    if transition.strum_changed:
        out.append(voice.words.say("short.strum", strings=_strings(wording.struck(transition.after), voice)))
    return voice.words.say("short.between").join(out)


def for_practice(step: Step, before: Step | None, block: Block, voice: Voice) -> str:
    """The short form of the move, and of the way back what stays, what moves and its short form; "" where none is."""
    lines = {"fp-short": step_short(step, before, voice)}
    way = next((way for way in block.ways_back if way.from_step == step.ordinal), None)
    if way is not None:
        lines["fp-back-stays"] = wording.stays(way.transition, voice)
        lines["fp-back-move"] = wording.moves(way.transition, voice)
        lines["fp-back-short"] = short(way.transition, voice)
    content = "".join(tag("p", named(text), role) for role, text in lines.items() if text)
    return tag("div", content, "fp-for-practice", hidden="") if content else ""


def _mark(finger: Finger | None) -> str:
    return "?" if finger is None else finger.mark


def _called(string: int, voice: Voice) -> str:
    return voice.letter(string) or str(string)


def _spot(string: int, fret: int, voice: Voice) -> str:
    """`A3`; `5:3` where the string has no letter of its own."""
    letter = voice.letter(string)
    return f"{letter}{fret}" if letter else f"{string}:{fret}"


def _place(press: Press, voice: Voice) -> str:
    ends = [_spot(string, press.fret, voice) for string in ((press.low, press.high) if press.is_bar else (press.low,))]
    return "–".join(ends)


def _strings(strings: Iterable[int], voice: Voice) -> str:
    """`A–e` where all between are meant, else `A D B`."""
    ordered = sorted(strings, reverse=True)
    if len(ordered) >= FEWEST_FOR_A_RANGE and ordered[0] - ordered[-1] == len(ordered) - 1:
        return f"{_called(ordered[0], voice)}–{_called(ordered[-1], voice)}"
    return " ".join(_called(string, voice) for string in ordered)


def _goes(move: FingerMove, _: Transition, voice: Voice) -> str:
    assert move.after
    return voice.words.say("short.goes", finger=_mark(move.finger), place=_place(move.after, voice))


def _lifts(move: FingerMove, _: Transition, voice: Voice) -> str:
    return voice.words.say("short.lift", finger=_mark(move.finger))


def _exchanges(move: FingerMove, _: Transition, voice: Voice) -> str:
    return voice.words.say("short.exchange", finger=_mark(move.finger), replaced=_mark(move.replaced))


def _damps(move: FingerMove, transition: Transition, voice: Voice) -> str:
    old = {string for string, finger in transition.before.damped if finger == move.finger}
    new = {string for string, finger in transition.after.damped if finger == move.finger}
    key, strings = ("short.mute", new - old) if move.kind is MoveKind.MUTE else ("short.unmute", old - new)
    return voice.words.say(key, finger=_mark(move.finger), strings=_strings(strings, voice))


_SHORT: dict[MoveKind, Callable[[FingerMove, Transition, Voice], str]] = {
    MoveKind.PLACE: _goes,
    MoveKind.SLIDE: _goes,
    MoveKind.SHIFT: _goes,
    MoveKind.CROSS: _goes,
    MoveKind.BAR: _goes,
    MoveKind.HINGE: _goes,
    MoveKind.LIFT: _lifts,
    MoveKind.UNBAR: _lifts,
    MoveKind.EXCHANGE: _exchanges,
    MoveKind.MUTE: _damps,
    MoveKind.UNMUTE: _damps,
}
