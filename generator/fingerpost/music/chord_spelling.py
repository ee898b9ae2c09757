"""Which letter a root takes: by the key, else the side that is commoner and needs fewer accidentals."""

from __future__ import annotations

from functools import lru_cache

from fingerpost.music.degree import Degree, chord_intervals, interval_at
from fingerpost.music.key import Key
from fingerpost.music.kind import KINDS
from fingerpost.music.pitch import COMMON_SPELLING, Note

# How unusual each root is among players, in accidentals (common practice). A natural root costs nothing.
_RARITY = {"Bb": 0.0, "Eb": 0.0, "F#": 0.0, "C#": 0.0, "Ab": 0.0, "Db": 0.5, "G#": 0.5, "Gb": 1.6, "D#": 1.2, "A#": 4.0}
_ROOTS = tuple(Note.parse(name) for name in ("C", "D", "E", "F", "G", "A", "B", *_RARITY))
# What an accidental costs, by its size.
_WEIGHT = (0.0, 1.0, 2.5, 50.0)
_AWKWARD = {"E#": 1.2, "B#": 1.2, "Cb": 1.2, "Fb": 1.2}
_OFF_KEY = 1.5
_OFF_SCALE = 12.0


def _weight(note: Note) -> float:
    return _AWKWARD.get(str(note), _WEIGHT[min(abs(note.alter), 3)])


def spelled_root(kind: str, degrees: tuple[Degree, ...], pitch_class: int, key: Key | None = None) -> Note:
    """The root of a chord as it is best written: in the key if there is one, else the commoner side.

    Weighed by the plain kind, so that C#7 and C#7b5 keep one root; but no tone is to need three accidentals.
    """
    choices = _choices(kind, pitch_class % 12, key)
    return next((root for root in choices if _is_bearable(root, kind, degrees)), choices[0])


def commoner_root(kind: str, degrees: tuple[Degree, ...], pitch_class: int) -> Note:
    """The root with the lighter spelling, where both sides are as light the one that players meet more often."""
    return spelled_root(kind, degrees, pitch_class)


@lru_cache(maxsize=8192)
def _choices(kind: str, pitch_class: int, key: Key | None) -> tuple[Note, ...]:
    """The ways to write a root, best first."""
    in_key = set() if key is None else {key.spell(pitch_class)}
    roots = {note for note in _ROOTS if note.pitch_class == pitch_class} | in_key
    return tuple(sorted(roots, key=lambda root: (_burden(root, kind) + _strangeness(root, key), str(root))))


def _burden(root: Note, kind: str) -> float:
    return sum(_weight(interval.above(root)) for interval in KINDS[kind].intervals)


def _strangeness(root: Note, key: Key | None) -> float:
    """What speaks against a root: that players seldom meet it, or that the key spells it otherwise."""
    if key is None:
        return _RARITY.get(str(root), 0.0)
    if root == key.spell(root.pitch_class):
        return 0.0
    return _OFF_SCALE if key.has(root.pitch_class) else _OFF_KEY


def _is_bearable(root: Note, kind: str, degrees: tuple[Degree, ...]) -> bool:
    """Whether no tone needs three accidentals; over a natural root none does (the farthest: bb7 of F, #9 of B)."""
    return not root.alter or all(abs(interval.above(root).alter) < 3 for interval in chord_intervals(kind, degrees))


def tone_note(root: Note, kind: str, degrees: tuple[Degree, ...], pitch_class: int) -> Note:
    """A pitch class as a chord spells it, by letter from the root.

    A tone outside the chord goes by its commoner name where it would need a double accidental, E#, B#, Cb or Fb.
    """
    interval = interval_at(kind, degrees, (pitch_class - root.pitch_class) % 12)
    note = interval.above(root)
    if _weight(note) <= 1 or interval in chord_intervals(kind, degrees):
        return note
    return COMMON_SPELLING[note.pitch_class]
