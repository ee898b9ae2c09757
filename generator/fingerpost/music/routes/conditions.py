"""What a route is asked to keep to besides the limits of the hand."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, fields
from typing import Any

from fingerpost.music.fretboard import Fretboard
from fingerpost.music.key import Key
from fingerpost.music.plain_name import Frets, heard, plain_name
from fingerpost.music.routes.hands import Grip, Hands
from fingerpost.music.shape import Shape


@dataclass(frozen=True)
class Conditions:
    """What every shape of a route keeps to, the first and the last included; each has a default that asks nothing.

    position: the lowest and highest fret that fingers may press. named: each shape has a plain name. keep_ringing:
    strings that sound all the way. key: only its notes sound. avoid: shapes not to be met, in any fingering where they
    name no fingers. only: the shapes that may be met. at_most: moves.
    """

    position: tuple[int, int] | None = None
    named: bool = False
    no_bar: bool = False
    no_muted_inner: bool = False
    keep_ringing: frozenset[int] = frozenset()
    key: Key | None = None
    avoid: tuple[Shape, ...] = ()
    only: frozenset[Shape] | None = None
    at_most: int | None = None

    @property
    def asked(self) -> tuple[str, ...]:
        """The conditions that ask something, by name."""
        return tuple(field.name for field in fields(self) if getattr(self, field.name) != field.default)

    def broken_by(self, shape: Shape, fretboard: Fretboard) -> tuple[str, ...]:
        """The conditions that a shape breaks, by name."""
        return tuple(name for name, keeps in KEEPS.items() if name in self.asked and not keeps(self, shape, fretboard))

    def keeper(self, hands: Hands) -> Callable[[Grip], bool] | None:
        """Whether a grip keeps to what shapes are judged by, None where nothing is asked of them.

        What hangs on the sound alone is remembered by what sounds.
        """
        by_sound = [KEEPS[name] for name in BY_SOUND if name in self.asked]
        by_hand = [KEEPS[name] for name in self.asked if name in KEEPS and name not in (*BY_SOUND, "position")]
        known: dict[Frets, bool] = {}

        def keeps(grip: Grip) -> bool:
            frets = hands.frets(grip)
            if by_sound and frets not in known:
                shape = hands.shape(grip)
                known[frets] = all(keep(self, shape, hands.fretboard) for keep in by_sound)
            if by_sound and not known[frets]:
                return False
            return not by_hand or all(keep(self, hands.shape(grip), hands.fretboard) for keep in by_hand)

        return keeps if by_sound or by_hand else None


def _position(asked: Conditions, shape: Shape, fretboard: Fretboard) -> bool:
    low, high = asked.position or (1, fretboard.highest_fret)
    return all(low <= press.fret <= high for press in shape.presses)


def _named(asked: Conditions, shape: Shape, fretboard: Fretboard) -> bool:
    return plain_name(shape.frets, fretboard, asked.key) is not None


def _no_bar(asked: Conditions, shape: Shape, fretboard: Fretboard) -> bool:
    return not any(press.is_bar for press in shape.presses)


def _no_muted_inner(asked: Conditions, shape: Shape, fretboard: Fretboard) -> bool:
    struck = shape.sounding_strings
    return not struck or len(struck) == struck[0] - struck[-1] + 1


def _keep_ringing(asked: Conditions, shape: Shape, fretboard: Fretboard) -> bool:
    return all(shape.fret(string) is not None for string in asked.keep_ringing)


def _key(asked: Conditions, shape: Shape, fretboard: Fretboard) -> bool:
    return asked.key is None or all(asked.key.has(midi) for midi in heard(shape.frets, fretboard))


def _avoid(asked: Conditions, shape: Shape, fretboard: Fretboard) -> bool:
    return not any(shape == other if _tells(other) else shape.frets == other.frets for other in asked.avoid)


def _tells(shape: Shape) -> bool:
    return bool(shape.presses) and shape.has_fingers


def _only(asked: Conditions, shape: Shape, fretboard: Fretboard) -> bool:
    return asked.only is None or shape in asked.only


Keeps = Callable[[Conditions, Shape, Fretboard], bool]
KEEPS: Mapping[str, Keeps] = {
    "position": _position,
    "named": _named,
    "no_bar": _no_bar,
    "no_muted_inner": _no_muted_inner,
    "keep_ringing": _keep_ringing,
    "key": _key,
    "avoid": _avoid,
    "only": _only,
}
BY_SOUND = ("no_muted_inner", "keep_ringing", "key", "named")


def without(asked: Conditions, name: str) -> dict[str, Any]:
    """What `dataclasses.replace` needs to drop a condition."""
    return {name: next(field.default for field in fields(asked) if field.name == name)}
