"""What changes from one shape to another: which fingers move and how, what stays, and what is heard of it."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

from fingerpost.music.finger_move import FingerMove, MoveKind, kind_of
from fingerpost.music.fretboard import Fretboard
from fingerpost.music.shape import Finger, Shape

__all__ = ["FingerMove", "MoveKind", "Transition", "kind_of", "transition"]


@dataclass(frozen=True, slots=True)
class Transition:
    """The change between two shapes with known fingers. Strings are listed highest-numbered first.

    moves: one a moved finger, in the order of the fingers; an exchange is one move. strings_changed: strings whose
    pitch changes, or that fall silent or newly sound. notes_gone, notes_come: MIDI numbers heard before and not
    after, and the other way round, counted with repetition. stays: fingers whose press is the same before and after,
    whether anything hangs on it or not; of these, pivots are the ones that hold while another finger moves. guides:
    fingers that keep contact while they move along their string. newly_sounding, falling_silent: strings.
    strum_changed: other strings are struck than before. shift: by how many frets the whole hand slides, else 0.
    """

    before: Shape
    after: Shape
    moves: tuple[FingerMove, ...]
    strings_changed: tuple[int, ...]
    notes_gone: tuple[int, ...]
    notes_come: tuple[int, ...]
    stays: tuple[Finger, ...]
    guides: tuple[Finger, ...]
    pivots: tuple[Finger, ...]
    newly_sounding: tuple[int, ...]
    falling_silent: tuple[int, ...]
    strum_changed: bool
    shift: int = 0

    @property
    def finger_count(self) -> int:
        """How many fingers move; an exchange counts as one, a change of the strings struck as none."""
        return len(self.moves)

    @property
    def notes_changed(self) -> int:
        """How many pitches differ: of those gone and those come, the larger number.

        So one note that moves counts as one, and a pitch that merely goes to another string as none.
        """
        return max(len(self.notes_gone), len(self.notes_come))

    @property
    def sound_changes(self) -> bool:
        """Whether any string sounds otherwise than before."""
        return bool(self.strings_changed)

    def move_of(self, finger: Finger) -> FingerMove | None:
        """What this finger does, or None where it does not move."""
        return next((move for move in self.moves if move.finger == finger), None)


# The same changes are asked for at every keystroke of an author.
@lru_cache(maxsize=4096)
def transition(before: Shape, after: Shape, fretboard: Fretboard) -> Transition:
    """The change from one shape to another on the same strings.

    Raises ValueError where the numbers of strings differ or a shape does not say which fingers it uses.
    """
    check_comparable(before, after, fretboard)
    shift = hand_shift(before, after)
    moves = _moves(before, after, shift)
    stays = tuple(f for f in before.fingers if before.press_of(f) == after.press_of(f))
    numbers = range(before.strings, 0, -1)
    changed = tuple(s for s in numbers if before.fret(s) != after.fret(s))
    gone, come = _notes(before, changed, fretboard), _notes(after, changed, fretboard)
    return Transition(
        before=before,
        after=after,
        moves=moves,
        strings_changed=changed,
        notes_gone=_without(gone, come),
        notes_come=_without(come, gone),
        stays=stays,
        guides=tuple(move.finger for move in moves if move.kind in (MoveKind.SLIDE, MoveKind.SHIFT)),
        pivots=tuple(f for f in stays if any(move.finger != f for move in moves)),
        newly_sounding=tuple(s for s in changed if before.fret(s) is None and after.fret(s) is not None),
        falling_silent=tuple(s for s in changed if before.fret(s) is not None and after.fret(s) is None),
        strum_changed=before.unstruck != after.unstruck,
        shift=shift,
    )


def check_comparable(before: Shape, after: Shape, fretboard: Fretboard | None = None) -> None:
    """Raises ValueError where the strings differ in number or a shape does not say which fingers it uses."""
    if before.strings != after.strings or (fretboard is not None and fretboard.strings != before.strings):
        raise ValueError("the shapes and the neck have different numbers of strings")
    if not (before.has_fingers and after.has_fingers):
        raise ValueError("a transition needs shapes that say which finger presses what")


def _notes(shape: Shape, strings: tuple[int, ...], fretboard: Fretboard) -> list[int]:
    return [fretboard.shape_midi(string, fret) for string in strings if (fret := shape.fret(string)) is not None]


def _without(notes: list[int], others: list[int]) -> tuple[int, ...]:
    """The notes in order, less as many of each as there are among the others."""
    left, out = list(others), list[int]()
    for note in sorted(notes):
        if note in left:
            left.remove(note)
        else:
            out.append(note)
    return tuple(out)


def hand_shift(before: Shape, after: Shape) -> int:
    """By how many frets the whole hand slides, two fingers at least; else 0."""
    if len(before.fingers) < 2 or before.fingers != after.fingers:
        return 0
    pairs = [(before.press_of(f), after.press_of(f)) for f in before.fingers]
    by = {b.fret - a.fret for a, b in pairs if a and b and (a.low, a.high) == (b.low, b.high)}
    whole = all(a and b and (a.low, a.high) == (b.low, b.high) for a, b in pairs)
    return by.pop() if whole and len(by) == 1 else 0


def _moves(before: Shape, after: Shape, shift: int) -> tuple[FingerMove, ...]:
    replaced = exchanges(before, after)
    out: list[FingerMove] = []
    for finger in Finger:
        old, new = before.press_of(finger), after.press_of(finger)
        if finger in replaced.values():
            continue
        if finger in replaced:
            out.append(FingerMove(finger, MoveKind.EXCHANGE, old, new, replaced[finger]))
        elif shift and old is not None:
            out.append(FingerMove(finger, MoveKind.SHIFT, old, new))
        elif old != new:
            out.append(FingerMove(finger, kind_of(old, new), old, new))
        elif kind := _damping(before, after, finger):
            out.append(FingerMove(finger, kind, old, new))
    return tuple(out)


def exchanges(before: Shape, after: Shape) -> dict[Finger, Finger]:
    """Which finger takes the place of which: the one was up, the other is up, the press is the same."""
    arrived = [f for f in after.fingers if f not in before.fingers]
    left = [f for f in before.fingers if f not in after.fingers]
    out: dict[Finger, Finger] = {}
    for finger in arrived:
        new = after.press_of(finger)
        for other in left:
            old = before.press_of(other)
            if new and old and (new.fret, new.low, new.high) == (old.fret, old.low, old.high):
                out[finger] = other
    return out


def _damping(before: Shape, after: Shape, finger: Finger) -> MoveKind | None:
    old = {string for string, damper in before.damped if damper == finger}
    new = {string for string, damper in after.damped if damper == finger}
    if old == new:
        return None
    return MoveKind.MUTE if new - old else MoveKind.UNMUTE
