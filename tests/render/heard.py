"""Reads a picture's text alternative back into a shape, as a person would who only hears it."""

from __future__ import annotations

import re

from fingerpost.music.shape import Finger, Press, Shape

_PRESS = re.compile(r"(.+?) on string (\d+), fret (\d+)")
_BAR = re.compile(r"(.+?) bars strings (\d+) to (\d+), fret (\d+)")
_DAMPS = re.compile(r"(.+?) damps strings? (.+)")
_OPEN = re.compile(r"Strings? (.+?) rings? open")
_UNSTRUCK = re.compile(r"Strings? (.+?) (?:is|are) not struck")
_CAPO = re.compile(r"Capo on fret (\d+); frets count from it")


def _finger(words: str) -> Finger | None:
    if words == "A finger":
        return None
    return Finger.THUMB if words == "The thumb" else Finger(int(words.removeprefix("Finger ")))


def _numbers(words: str) -> list[int]:
    return [int(number) for number in re.findall(r"\d+", words)]


def shape_heard(text: str) -> tuple[Shape, set[int], int]:
    """The shape, the strings that are said to ring open, and the fret of the capo."""
    presses: list[Press] = []
    damped: list[tuple[int, Finger]] = []
    unstruck: set[int] = set()
    rings: set[int] = set()
    capo, highest = 0, 0
    for sentence in text.rstrip(".").split(". "):
        if found := _CAPO.fullmatch(sentence):
            capo = int(found[1])
        elif found := _BAR.fullmatch(sentence):
            presses.append(Press(_finger(found[1]), int(found[4]), int(found[2]), int(found[3])))
            highest = max(highest, int(found[2]))
        elif found := _PRESS.fullmatch(sentence):
            presses.append(Press(_finger(found[1]), int(found[3]), int(found[2]), int(found[2])))
            highest = max(highest, int(found[2]))
        elif found := _DAMPS.fullmatch(sentence):
            finger = _finger(found[1])
            assert finger is not None
            damped += [(string, finger) for string in _numbers(found[2])]
        elif found := _OPEN.fullmatch(sentence):
            rings |= set(_numbers(found[1]))
        elif found := _UNSTRUCK.fullmatch(sentence):
            unstruck |= set(_numbers(found[1]))
        else:
            assert sentence == "No finger is down", f"not understood: {sentence!r}"
    strings = max([highest, *rings, *unstruck, *(string for string, _ in damped)])
    return Shape(strings, tuple(presses), frozenset(unstruck), tuple(damped)), rings, capo
