"""What a step does to the sound: which notes are new and what they are in the chord, which strings fall silent."""

from __future__ import annotations

from collections.abc import Sequence

from fingerpost.course.model import StringRow
from fingerpost.music.shape import Shape
from fingerpost.render.catalogue import sentence
from fingerpost.render.voice import Voice
from fingerpost.render.wording import struck


def sound(before: Sequence[StringRow], after: Sequence[StringRow], voice: Voice) -> str:
    """The change that is heard between two tables of the same strings."""
    pairs = [(old, new) for old, new in zip(before, after, strict=True) if old.fret != new.fret]
    said = voice.words
    if not pairs:
        return said.say("sound.none")
    if len(pairs) == 1:
        return sentence(_alone(*pairs[0], voice))
    parts = said.say("sound.between").join(_part(old, new, voice) for old, new in pairs)
    return sentence(said.count("sound.many", len(pairs), parts=parts))


def _case(old: StringRow, new: StringRow) -> str:
    if new.fret is None:
        return "silent"
    if new.fret == 0:
        return "open"
    return "newly" if old.fret is None else "instead"


def _alone(old: StringRow, new: StringRow, voice: Voice) -> str:
    """The sentence where one string changes: it names the note first, since that is what is heard."""
    key = {"silent": "silent", "open": "rings_open", "newly": "newly", "instead": "instead"}[_case(old, new)]
    return voice.words.say(f"sound.{key}", **_values(old, new, voice))


def _part(old: StringRow, new: StringRow, voice: Voice) -> str:
    return voice.words.say(f"sound.part_{_case(old, new)}", **_values(old, new, voice))


def _values(old: StringRow, new: StringRow, voice: Voice) -> dict[str, str]:
    return {
        "string": voice.string(new.string),
        "note": voice.note(new.note) if new.note else "",
        "old": voice.note(old.note) if old.note else "",
        "interval": voice.interval(new.interval) if new.interval else "",
    }


def strum(shape: Shape, voice: Voice) -> str:
    """Which strings to strum, for a start."""
    strings = [string for string in struck(shape) if shape.fret(string) is not None]
    if not strings:
        return voice.words.say("sound.nothing")
    if len(strings) == shape.strings:
        return voice.words.say("sound.all", number=voice.words.number_word(len(strings)))
    key = "sound.strum_one" if len(strings) == 1 else "sound.strum"
    return voice.words.say(key, strings=voice.strings(strings))
