"""Names for what sounds: pitch classes and a bass in, ranked names with their reasons out."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from functools import cached_property, lru_cache

from fingerpost.music.chord import Chord
from fingerpost.music.chord_fit import Fit, fit
from fingerpost.music.chord_spelling import spelled_root, tone_note
from fingerpost.music.chord_spoken import spoken
from fingerpost.music.chord_writer import without, write
from fingerpost.music.degree import Degree
from fingerpost.music.key import Key
from fingerpost.music.naming_reason import reason
from fingerpost.music.ranking import Ranked, ranked

__all__ = ["ChordName", "Fit", "equal_names", "fit", "names"]

# How much nearer a name comes to mind when its root belongs to the key: it only settles what is all but equal.
_IN_KEY = 0.15
# Up to here a complete chord is in common use (see the table of vocabulary.py).
_COMMON = 1.5


@dataclass(frozen=True)
class ChordName:
    """A name for a set of sounding notes over a bass; its words are worked out when they are asked for.

    ranked: the reading, its root above the bass, and its cost; best: the same of the name that came first.
    bass: the pitch class of the lowest note.
    """

    ranked: Ranked
    best: Ranked
    bass: int
    key: Key | None = None

    @cached_property
    def chord(self) -> Chord:
        """What the short symbol says: nothing is taken out that custom leaves out."""
        return _chord(self.ranked, self.bass, self.key)

    @cached_property
    def symbol(self) -> str:
        """The short form, such as `C7`."""
        return write(self.chord)

    @cached_property
    def left_out(self) -> tuple[str, ...]:
        """The tones that custom leaves out and that do not sound, as intervals from the root."""
        return tuple(map(str, self.ranked.reading.omitted))

    @cached_property
    def exact_chord(self) -> Chord:
        """The chord with everything subtracted that does not sound: exactly the sounding notes and bass."""
        return without(self.chord, self.left_out)

    @property
    def exact(self) -> str:
        """The form that says everything left out, such as `C7(no5)`; it reads back to the same notes and bass."""
        return write(self.exact_chord)

    @property
    def spoken(self) -> str:
        """The exact form in words, such as `C dominant seventh, no fifth`."""
        return spoken(self.exact_chord)

    @property
    def degrees(self) -> tuple[Degree, ...]:
        """The degrees of the exact form."""
        return self.exact_chord.degrees

    @cached_property
    def intervals(self) -> tuple[str, ...]:
        """The intervals that sound, from the root."""
        return tuple(tone.interval for tone in self.exact_chord.tones)

    @cached_property
    def omitted(self) -> tuple[str, ...]:
        """The intervals left out: by custom, or said so in the symbol."""
        said = tuple(str(degree.value) for degree in self.chord.degrees if degree.type == "subtract")
        return tuple(sorted(self.left_out + said, key=lambda interval: int(interval.lstrip("#b"))))

    @property
    def why(self) -> str:
        """Why it is named so and ranks where it does, in a sentence or two."""
        return reason(self.chord, self.ranked, _chord(self.best, self.bass, self.key), self.best, self.key)


def names(pitch_classes: Iterable[int], bass: int, key: Key | None = None) -> tuple[ChordName, ...]:
    """The names of pitch classes (0 to 11) that sound over a bass, best first, at least one.

    The key spells the names, and settles what is all but equal in favour of roots that belong to it. The bass counts
    as sounding. Raises ValueError for a number that is no pitch class.
    """
    mask = 0
    for pitch_class in (bass, *pitch_classes):
        if not 0 <= pitch_class < 12:
            raise ValueError(f"{pitch_class} is no pitch class; expected a number from 0 (C) to 11 (B)")
        mask |= 1 << pitch_class
    return _names(mask, bass, key)


@lru_cache(maxsize=65536)
def _names(mask: int, bass: int, key: Key | None) -> tuple[ChordName, ...]:
    above = (mask >> bass | mask << 12 - bass) & 0xFFF
    order = ranked(above)
    if key is not None:
        order = tuple(sorted(order, key=lambda one: one.cost - _IN_KEY * key.has(one.root + bass)))
    return tuple(ChordName(one, order[0], bass, key) for one in order)


def _chord(one: Ranked, bass: int, key: Key | None) -> Chord:
    reading = one.reading
    root = spelled_root(reading.kind, reading.degrees, (one.root + bass) % 12, key)
    low = tone_note(root, reading.kind, reading.degrees, bass) if one.root else None
    return Chord(root, reading.kind, reading.degrees, low)


def equal_names(pitch_classes: Iterable[int], bass: int, key: Key | None = None) -> tuple[ChordName, ...]:
    """The names in common use for the very same tones, none left out, over the same bass: C6 and Am7/C. Best first."""
    return tuple(name for name in names(pitch_classes, bass, key) if _is_common(name.ranked))


def _is_common(one: Ranked) -> bool:
    return not one.foreign and not one.reading.omitted and one.reading.usual <= _COMMON
