"""All shapes of a chord on a window of frets, each in the fingerings that a hand would think of."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import product

from fingerpost.music.chord import Chord
from fingerpost.music.chord_fit import fit
from fingerpost.music.fingering import fingerings
from fingerpost.music.fretboard import Fretboard
from fingerpost.music.hand import Hand
from fingerpost.music.shape import Press, Shape

FEWEST_STRUCK = 4
"""A chord that is struck needs this many strings, or all that there are (by judgement)."""
SPARE_POINTS = 1.0
"""A fingering that costs more points than this beyond the likeliest of the same frets is left out (by judgement)."""
Frets = tuple[int | None, ...]


def shapes_of(chord: Chord, fretboard: Fretboard, hand: Hand, low: int, high: int) -> tuple[Shape, ...]:
    """The shapes of a chord with frets from low to high and open strings, in a fixed order; empty where there is none.

    From the string of the lowest note on, every string is struck. The lowest note is the root, or the bass that a slash
    names; where the strings do not stand in the order of their pitch, any note of a chord without a slash. Every tone
    sounds; only where no shape has all of them, custom's omissions are allowed, and then any bass.
    """
    patterns = list(dict.fromkeys(_patterns(chord, fretboard, hand, low, high)))
    for keeps in (_whole, _whole_over_any_bass, _fits):
        found = [frets for frets in patterns if keeps(chord, frets, fretboard)]
        shapes = tuple(shape for frets in found for shape in _held(frets, fretboard, hand))
        if shapes:
            return shapes
    return ()


def _patterns(chord: Chord, fretboard: Fretboard, hand: Hand, low: int, high: int) -> Iterator[Frets]:
    """Every choice of a chord tone on each struck string, within the hand's span of frets."""
    high, span = min(high, fretboard.highest_fret), hand.limits.span_frets
    fewest = min(FEWEST_STRUCK, fretboard.strings)
    for base in range(low, max(low, high - span) + 1):
        window = (0, *range(base, min(high, base + span) + 1))
        tones = [
            [f for f in window if fretboard.shape_midi(string, f) % 12 in chord.pitch_classes]
            for string in range(1, fretboard.strings + 1)
        ]
        for struck in range(fretboard.strings, fewest - 1, -1):
            silent = (None,) * (fretboard.strings - struck)
            for frets in product(*tones[:struck]):
                yield (*frets, *silent)


def _sound(frets: Frets, fretboard: Fretboard) -> list[int]:
    return [fretboard.shape_midi(string, fret) for string, fret in enumerate(frets, 1) if fret is not None]


def _whole(chord: Chord, frets: Frets, fretboard: Fretboard) -> bool:
    heard = _sound(frets, fretboard)
    bass = chord.bass_pitch_class
    low_enough = min(heard) % 12 == bass or (chord.bass is None and _is_reentrant(fretboard))
    return low_enough and chord.pitch_classes <= {midi % 12 for midi in heard}


def _whole_over_any_bass(chord: Chord, frets: Frets, fretboard: Fretboard) -> bool:
    return chord.bass is None and chord.pitch_classes <= {midi % 12 for midi in _sound(frets, fretboard)}


def _fits(chord: Chord, frets: Frets, fretboard: Fretboard) -> bool:
    heard = _sound(frets, fretboard)
    return fit(chord, {midi % 12 for midi in heard}, min(heard) % 12).holds


def _is_reentrant(fretboard: Fretboard) -> bool:
    return list(fretboard.tuning.midi) != sorted(fretboard.tuning.midi, reverse=True)


def _held(frets: Frets, fretboard: Fretboard, hand: Hand) -> Iterator[Shape]:
    """The likeliest fingering and those that cost little more; the open strings need none."""
    silent = frozenset(string for string, fret in enumerate(frets, 1) if fret is None)
    asked = Shape(fretboard.strings, tuple(Press(None, fret, s, s) for s, fret in enumerate(frets, 1) if fret), silent)
    found = fingerings(asked, fretboard, hand)
    dearest = hand.cost(found[0], fretboard) + SPARE_POINTS if found else 0.0
    for shape in found:
        if hand.cost(shape, fretboard) > dearest:
            return
        yield shape
