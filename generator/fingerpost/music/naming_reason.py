"""Why a name is the name and ranks where it does, in sentences for a player."""

from __future__ import annotations

from fingerpost.music.chord import Chord
from fingerpost.music.chord_spoken import ORDINALS
from fingerpost.music.chord_writer import write
from fingerpost.music.interval import Interval
from fingerpost.music.key import Key
from fingerpost.music.ranking import Ranked

# The cost of a reading up to which it is called so (see the table of vocabulary.py).
_FAMILIARITY = (
    (0.95, "It is an everyday chord."),
    (1.45, "It is a common chord."),
    (2.3, "It is a less common chord."),
    (3.1, "It is a rare chord."),
)
_LAST_RESORT = "Players have no everyday name for these notes from this root, so the symbol lists them."
_CLOSE = 0.2


def reason(chord: Chord, one: Ranked, first: Chord, best: Ranked, key: Key | None = None) -> str:
    """The reason for a name, in whole sentences: what sounds, how usual it is, how it stands to the first name."""
    if len(chord.tones) == 1:
        return f"Only one note sounds, {chord.root}, so the symbol says what is missing."
    place = "It comes first." if one == best else _below(one, first, best)
    return f"{_tones(chord, one)}, and {_bass(chord, one)}. {_familiarity(one)}{_in_key(chord, key)} {place}"


def _tone(chord: Chord, interval: Interval) -> str:
    return f"{ORDINALS[interval.number]}, {interval.above(chord.root)}"


def _tones(chord: Chord, one: Ranked) -> str:
    if one.reading.omitted:
        missing = " and its ".join(_tone(chord, interval) for interval in one.reading.omitted)
        return f"It does without its {missing}, as players often do"
    if any(degree.type == "subtract" for degree in chord.degrees):
        return "The symbol says which tones are missing"
    return "Every tone of it sounds"


def _bass(chord: Chord, one: Ranked) -> str:
    if one.foreign:
        return f"the lowest note, {chord.bass}, is not one of its own"
    if chord.bass is None:
        return f"its root, {chord.root}, is the lowest note"
    own = next(tone for tone in chord.intervals if tone.above(chord.root).pitch_class == chord.bass_pitch_class)
    return f"its {_tone(chord, own)}, is the lowest note"


def _familiarity(one: Ranked) -> str:
    return next((words for limit, words in _FAMILIARITY if one.reading.usual <= limit), _LAST_RESORT)


def _in_key(chord: Chord, key: Key | None) -> str:
    return "" if key is None or not key.has(chord.root.pitch_class) else f" Its root belongs to the key of {key}."


def _below(one: Ranked, first: Chord, best: Ranked) -> str:
    other = write(first)
    if one.cost - best.cost < _CLOSE:
        return f"It is nearly as good a name as {other}."
    return f"It ranks below {other}, {_difference(one, best)}."


def _difference(one: Ranked, best: Ranked) -> str:
    if one.bass_cost > best.bass_cost + _CLOSE:
        return "whose root is the lowest note" if best.root == 0 else "which the lowest note suits better"
    if one.reading.cost - one.reading.usual > best.reading.cost - best.reading.usual + _CLOSE:
        return "which leaves out less"
    return "which is more usual"
