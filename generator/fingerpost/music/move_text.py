"""Moves as a course writes them."""

from __future__ import annotations

from fingerpost.music.move_form import Exchange, Lift, Move, Mute, Place, Shift, Strum
from fingerpost.music.tuning import Tuning


def write_move(move: Move, tuning: Tuning) -> str:
    """The move as a course writes it (`3 to G2`, `1 to E1-e1`, `mute D by 2`), strings by letter where there is one."""
    match move:
        case Place(finger, fret, low, high) if low == high:
            return f"{finger.mark} to {_spot(tuning, fret, low)}"
        case Place(finger, fret, low, high):
            lettered = None not in (tuning.letter(low), tuning.letter(high))
            ends = (_spot(tuning, fret, string) if lettered else f"{string}:{fret}" for string in (low, high))
            return f"{finger.mark} to {'-'.join(ends)}"
        case Lift(finger):
            return f"{finger.mark} off"
        case Exchange(finger, replaced):
            return f"{finger.mark} for {replaced.mark}"
        case Shift(by):
            return f"shift {by:+d}"
        case Mute(string, finger):
            return f"mute {_called(tuning, string)}" + ("" if finger is None else f" by {finger.mark}")
        case Strum(strings):
            return "strum " + " ".join(_runs(tuning, strings))


def _called(tuning: Tuning, string: int) -> str:
    return tuning.letter(string) or str(string)


def _spot(tuning: Tuning, fret: int, string: int) -> str:
    letter = tuning.letter(string)
    return f"{letter}{fret}" if letter else f"{string}:{fret}"


def _runs(tuning: Tuning, strings: frozenset[int]) -> list[str]:
    """Neighbouring strings as `A-e` from three on, others one by one, highest-numbered first."""
    runs: list[list[int]] = []
    for string in sorted(strings, reverse=True):
        if runs and runs[-1][-1] == string + 1:
            runs[-1].append(string)
        else:
            runs.append([string])
    words: list[str] = []
    for run in runs:
        names = [_called(tuning, string) for string in run]
        words += [f"{names[0]}-{names[-1]}"] if len(run) > 2 else names
    return words
