"""The two lines of words of a step: what stays, and what moves from where to where, in sentences of the catalogue."""

from __future__ import annotations

from collections.abc import Callable

from fingerpost.music.shape import Press, Shape
from fingerpost.music.transition import FingerMove, MoveKind, Transition
from fingerpost.render.catalogue import sentence
from fingerpost.render.voice import Voice


def stays(transition: Transition, voice: Voice) -> str:
    """What keeps still, said before anything moves; "" where no finger was down before."""
    if not transition.before.presses:
        return ""
    said = voice.words
    out = []
    if transition.stays:
        kept = voice.fingers(transition.stays)
        out.append(said.count("stays.fingers", len(transition.stays), fingers=kept))
    for move in transition.moves:
        if move.kind is MoveKind.HINGE and move.after:
            out.append(said.say("stays.base", finger=voice.finger(move.finger), place=voice.place(move.after)))
    if transition.guides:
        guides = voice.fingers(transition.guides)
        out.append(said.count("stays.guides", len(transition.guides), fingers=guides))
    return " ".join(map(sentence, out or [said.say("stays.none")]))


def moves(transition: Transition, voice: Voice) -> str:
    """What moves: a sentence a finger, or one for the whole hand; then what is struck from here on, if that changes."""
    if transition.shift:
        key = "move.shift_up" if transition.shift > 0 else "move.shift_down"
        out = [voice.words.count(key, abs(transition.shift))]
    else:
        out = [finger_move(move, transition, voice) for move in transition.moves]
    if transition.strum_changed:
        out.append(voice.words.say("move.strum", strings=voice.strings(struck(transition.after))))
    return " ".join(map(sentence, out or [voice.words.say("move.hold")]))


def struck(shape: Shape) -> tuple[int, ...]:
    """The strings that are struck, highest-numbered first."""
    return tuple(string for string in range(shape.strings, 0, -1) if string not in shape.unstruck)


def finger_move(move: FingerMove, transition: Transition, voice: Voice) -> str:
    """What one finger does, as a sentence."""
    if move.kind in (MoveKind.MUTE, MoveKind.UNMUTE):
        return _damping(move, transition, voice)
    return _SENTENCES[move.kind](move, voice)


def _place(move: FingerMove, voice: Voice) -> str:
    assert move.after
    return voice.words.say("move.place", finger=voice.finger(move.finger), place=voice.place(move.after))


def _lift(move: FingerMove, voice: Voice) -> str:
    assert move.before
    return voice.words.say("move.lift", finger=voice.finger(move.finger), place=voice.place(move.before))


def _slide(move: FingerMove, voice: Voice) -> str:
    assert move.before
    assert move.after
    return voice.words.say(
        "move.slide_bar" if move.after.is_bar else "move.slide",
        finger=voice.finger(move.finger),
        string=voice.strings(move.after.strings),
        from_fret=voice.fret(move.before.fret),
        to_fret=voice.fret(move.after.fret),
    )


def _cross(move: FingerMove, voice: Voice) -> str:
    assert move.before
    assert move.after
    return voice.words.say(
        "move.cross",
        finger=voice.finger(move.finger),
        from_place=voice.place(move.before),
        to_place=voice.place(move.after),
    )


def _bar(move: FingerMove, voice: Voice) -> str:
    assert move.after
    key, where = "move.bar", ""
    if move.before:
        grows = move.before.fret == move.after.fret and _lies_within(move.before, move.after)
        key, where = ("move.bar_grows" if grows else "move.bar_from"), voice.place(move.before)
    return voice.words.say(
        key,
        finger=voice.finger(move.finger),
        strings=voice.strings(move.after.strings),
        fret=voice.fret(move.after.fret),
        from_place=where,
    )


def _lies_within(inner: Press, outer: Press) -> bool:
    return outer.covers(inner.low) and outer.covers(inner.high)


def _unbar(move: FingerMove, voice: Voice) -> str:
    assert move.before
    return voice.words.say(
        "move.unbar",
        finger=voice.finger(move.finger),
        strings=voice.strings(move.before.strings),
        fret=voice.fret(move.before.fret),
    )


def _hinge(move: FingerMove, voice: Voice) -> str:
    assert move.before
    assert move.after
    freed = [string for string in move.before.strings if not move.after.covers(string)]
    return voice.words.say(
        "move.hinge",
        finger=voice.finger(move.finger),
        freed=voice.strings(freed),
        place=voice.place(move.after),
    )


def _exchange(move: FingerMove, voice: Voice) -> str:
    assert move.after
    return voice.words.say(
        "move.exchange",
        finger=voice.finger(move.finger),
        replaced=voice.finger(move.replaced),
        place=voice.place(move.after),
    )


def _damping(move: FingerMove, transition: Transition, voice: Voice) -> str:
    old = {string for string, finger in transition.before.damped if finger == move.finger}
    new = {string for string, finger in transition.after.damped if finger == move.finger}
    finger = voice.finger(move.finger)
    if move.kind is MoveKind.UNMUTE:
        return voice.words.say("move.unmute", finger=finger, strings=voice.strings(old - new))
    key = "move.mute" if len(new - old) == 1 else "move.mute_many"
    return voice.words.say(key, finger=finger, strings=voice.strings(new - old))


_SENTENCES: dict[MoveKind, Callable[[FingerMove, Voice], str]] = {
    MoveKind.PLACE: _place,
    MoveKind.LIFT: _lift,
    MoveKind.SLIDE: _slide,
    MoveKind.SHIFT: _slide,
    MoveKind.CROSS: _cross,
    MoveKind.BAR: _bar,
    MoveKind.UNBAR: _unbar,
    MoveKind.HINGE: _hinge,
    MoveKind.EXCHANGE: _exchange,
}
