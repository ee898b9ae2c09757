"""Beats and strokes of a step: arrows down and up, each with its word."""

from __future__ import annotations

import re

from fingerpost.render.parts import hidden, tag
from fingerpost.render.plain import escaped
from fingerpost.render.voice import Voice

SIGNS = {"d": ("↓", "down"), "u": ("↑", "up"), "-": ("·", "pause")}
_WORDS = {"down": "d", "up": "u", "↓": "d", "↑": "u", ".": "-", "_": "-", "x": "-"}


def read_strokes(pattern: str) -> tuple[str, ...] | None:
    """The strokes of a pattern (`D DU UDU`, `down up -`) as d, u and -; None where it holds anything else."""
    groups = stroke_groups(pattern)
    return None if groups is None else tuple(mark for group in groups for mark in group)


def stroke_groups(pattern: str) -> tuple[str, ...] | None:
    """The strokes as they are written together: `D DU -UDU` is d, du and -udu. Each group begins on a beat."""
    out: list[str] = []
    for word in re.split(r"[\s,|]+", pattern.strip().casefold()):
        marks = [_WORDS[word]] if word in _WORDS else [_WORDS.get(mark, mark) for mark in word]
        if any(mark not in SIGNS for mark in marks):
            return None
        out.append("".join(marks))
    return tuple(out)


def strokes(pattern: str | None, beats: str | None, voice: Voice) -> str:
    """The line about the strumming hand; a pattern that is not made of strokes is shown as it was written."""
    parts = [_beats(beats, voice)] if beats else []
    if pattern:
        parts.append(_pattern(pattern, voice))
    if not parts:
        return ""
    return tag("p", f"<b>{escaped(voice.words.say('label.strum'))}</b> <span>{' '.join(parts)}</span>", "fp-strokes")


def _beats(beats: str, voice: Voice) -> str:
    text = voice.words.count("strokes.beats", int(beats)) if beats.isdecimal() and len(beats) < 4 else beats
    return tag("span", escaped(text), "fp-beats")


def _pattern(pattern: str, voice: Voice) -> str:
    read = read_strokes(pattern)
    if not read:
        return tag("span", escaped(pattern), "fp-pattern")
    signs = " ".join(SIGNS[stroke][0] for stroke in read)
    aloud = ", ".join(voice.words.say(f"strokes.{SIGNS[stroke][1]}") for stroke in read)
    return (
        tag("span", signs, "fp-pattern", aria_hidden="true")
        + " "
        + hidden(voice.words.say("strokes.text", strokes=aloud))
    )
