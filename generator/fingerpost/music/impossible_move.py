"""Moves that a hand cannot make, and why."""

from __future__ import annotations

import enum

from fingerpost.music.shape import Finger


class Reason(enum.StrEnum):
    """Why a move cannot be made; closed."""

    FINGER_UP = "finger-up"
    FINGER_DOWN = "finger-down"
    ALREADY_SO = "already-so"
    SAME_SPOT = "same-spot"
    NO_SUCH_FRET = "no-such-fret"
    NO_SUCH_STRING = "no-such-string"
    OFF_THE_NECK = "off-the-neck"
    NOTHING_DOWN = "nothing-down"
    NOTHING_STRUCK = "nothing-struck"
    PRESSES_IT = "presses-it"


class ImpossibleMove(ValueError):  # noqa: N818 - the name says what it is to the reader of a finding
    """A move that the hand, as it stands, cannot make. reason is data; the text is a plain sentence.

    finger: the finger concerned. other: the one in its way, or the one to be replaced. string, fret: where.
    """

    def __init__(
        self,
        reason: Reason,
        message: str,
        *,
        finger: Finger | None = None,
        other: Finger | None = None,
        string: int | None = None,
        fret: int | None = None,
    ) -> None:
        super().__init__(message)
        self.reason, self.message = reason, message
        self.finger, self.other, self.string, self.fret = finger, other, string, fret
