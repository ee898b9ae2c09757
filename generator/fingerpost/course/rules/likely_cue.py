"""The time that was meant by a cue that stands out of order: one slip of the fingers away, between its neighbours."""

from __future__ import annotations

import re
from collections.abc import Iterator
from itertools import pairwise

from fingerpost.source.syntax import Token

GOOD = re.compile(r"(?:[0-9]{1,2}:[0-5][0-9]|[0-9]{1,3}):[0-5][0-9](?:\.[0-9]+)?")


def seconds(text: str) -> float:
    """The time of a cue, `[h:]m:ss[.fff]`, in seconds."""
    total = 0.0
    for part in text.split(":"):
        total = 60 * total + float(part)
    return total


def likely_cue(cue: Token, above: Token | None, below: Token | None) -> str:
    """The one time between its neighbours that a slip makes this of, by the likeliest slip that makes any; else "".

    Behind the last cue any time fits, so nothing tells which was meant.
    """
    if below is None:
        return ""
    low, high = -1.0 if above is None else seconds(above.text), seconds(below.text)
    for kind in (_turned(cue.text), _minutes(cue.text), _seconds(cue.text)):
        fit = {text for text in kind if GOOD.fullmatch(text) and low < seconds(text) < high}
        if fit:
            return fit.pop() if len(fit) == 1 else ""
    return ""


def _digits(text: str) -> list[int]:
    return [at for at, sign in enumerate(text) if sign.isdigit()]


def _turned(text: str) -> Iterator[str]:
    """Two digits that follow each other, turned."""
    places = _digits(text)
    for one, other in pairwise(places):
        signs = list(text)
        signs[one], signs[other] = signs[other], signs[one]
        yield "".join(signs)


def _minutes(text: str) -> Iterator[str]:
    """Another digit in the minutes or hours, as where a minute was full and the count was not carried on."""
    end = text.rindex(":")
    return (other for at in _digits(text) if at < end for other in _with_another(text, at))


def _seconds(text: str) -> Iterator[str]:
    """Another digit in the seconds."""
    end = text.rindex(":")
    return (other for at in _digits(text) if at > end for other in _with_another(text, at))


def _with_another(text: str, at: int) -> Iterator[str]:
    return (text[:at] + digit + text[at + 1 :] for digit in "0123456789")
