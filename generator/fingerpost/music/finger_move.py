"""What one finger does between two shapes, by kind."""

from __future__ import annotations

import enum
from dataclasses import dataclass

from fingerpost.music.shape import Finger, Press


class MoveKind(enum.StrEnum):
    """How one finger moves."""

    PLACE = "place"  # from the air onto one string
    LIFT = "lift"  # from one string into the air
    SLIDE = "slide"  # along the same string or strings, keeping contact: a guide finger
    CROSS = "cross"  # over to another string
    BAR = "bar"  # lays a bar, from the air or from wherever it is
    UNBAR = "unbar"  # raises a bar into the air
    HINGE = "hinge"  # part of a bar is freed, the rest stays
    EXCHANGE = "exchange"  # takes the place of another finger, which leaves
    SHIFT = "shift"  # slides with the whole hand
    MUTE = "mute"  # leans on a string to damp it
    UNMUTE = "unmute"  # stops damping, stays where it presses


@dataclass(frozen=True, slots=True)
class FingerMove:
    """What one finger does: before and after are what it presses, None where it is up.

    replaced: for an exchange, the finger that leaves.
    """

    finger: Finger
    kind: MoveKind
    before: Press | None
    after: Press | None
    replaced: Finger | None = None


def kind_of(old: Press | None, new: Press | None) -> MoveKind:
    """How a finger moves between two different presses, None standing for the air (at least one is a press)."""
    if new is None:
        return MoveKind.UNBAR if old is not None and old.is_bar else MoveKind.LIFT
    if old is None:
        return MoveKind.BAR if new.is_bar else MoveKind.PLACE
    meet = old.covers(new.low) or new.covers(old.low)
    if old.fret == new.fret and meet:
        return MoveKind.BAR if len(new.strings) >= len(old.strings) else MoveKind.HINGE
    if new.is_bar and not old.is_bar:
        return MoveKind.BAR
    return MoveKind.SLIDE if meet else MoveKind.CROSS
