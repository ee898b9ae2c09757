"""The text alternative of a picture: from it alone a person forms the same shape. Finger, string by number, fret."""

from __future__ import annotations

from collections.abc import Iterable

from fingerpost.music.fretboard import Fretboard
from fingerpost.music.shape import Finger, Press, Shape
from fingerpost.render.catalogue import sentence
from fingerpost.render.voice import Voice


def describe(shape: Shape, fretboard: Fretboard, voice: Voice, rest: bool = False) -> str:
    """First what each finger holds, lowest-pitched string first, then what rings open and what stays silent.

    Strings are given by number, since `E` and `e` sound alike when read aloud. Every string is named at least once.
    """
    if rest:
        return voice.words.say("picture.rest")
    said = [*_capo(fretboard, voice), *_presses(shape, voice), *_damped(shape, voice), *_silent_and_open(shape, voice)]
    return " ".join(map(sentence, said))


def _capo(fretboard: Fretboard, voice: Voice) -> list[str]:
    return [voice.words.say("picture.capo", capo=fretboard.capo)] if fretboard.capo else []


def _presses(shape: Shape, voice: Voice) -> list[str]:
    if not shape.presses:
        return [voice.words.say("picture.no_finger")]
    ordered = sorted(shape.presses, key=lambda press: (-press.low, press.fret))
    return [_press(press, voice) for press in ordered]


def _press(press: Press, voice: Voice) -> str:
    finger = voice.finger(press.finger)
    if press.is_bar:
        return voice.words.say("picture.bar", finger=finger, low=press.low, high=press.high, fret=press.fret)
    return voice.words.say("picture.finger", finger=finger, string=press.low, fret=press.fret)


def _numbered(key: str, strings: Iterable[int], voice: Voice, **values: str) -> str:
    ordered = sorted(strings, reverse=True)
    return voice.words.count(key, len(ordered), numbers=voice.words.listed(ordered), **values)


def _damped(shape: Shape, voice: Voice) -> list[str]:
    by_finger: dict[Finger, list[int]] = {}
    for string, finger in shape.damped:
        by_finger.setdefault(finger, []).append(string)
    return [
        _numbered("picture.damped", strings, voice, finger=voice.finger(finger))
        for finger, strings in by_finger.items()
    ]


def _silent_and_open(shape: Shape, voice: Voice) -> list[str]:
    rings = [s for s in range(1, shape.strings + 1) if shape.fret(s) == 0]
    out = [_numbered("picture.open", rings, voice)] if rings else []
    if shape.unstruck:
        out.append(_numbered("picture.unstruck", shape.unstruck, voice))
    return out
