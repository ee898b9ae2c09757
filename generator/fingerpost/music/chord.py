"""A chord as structure: root, kind, degrees, bass; and its tones spelled by letter from the root."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cached_property

from fingerpost.music.chord_spelling import commoner_root, tone_note
from fingerpost.music.degree import DEGREE_TYPES, Degree, chord_intervals, degree_order, interval_at
from fingerpost.music.hashing import hashed_once
from fingerpost.music.interval import Interval
from fingerpost.music.kind import KINDS
from fingerpost.music.pitch import Note


@dataclass(frozen=True, slots=True)
class Tone:
    """A tone of a chord: its interval above the root (`1`, `b3`, `#9`, `bb7`) and its note."""

    interval: str
    note: Note


@hashed_once
@dataclass(frozen=True)
class Chord:
    """A chord: root, kind-value of MusicXML 4.0, degrees in a fixed order, and the bass where a slash names one.

    A bass that is the root is no slash: it is kept as None. Raises ValueError for an unknown kind or degree type.
    """

    root: Note
    kind: str
    degrees: tuple[Degree, ...] = ()
    bass: Note | None = None

    def __post_init__(self) -> None:
        if self.kind not in KINDS:
            raise ValueError(f"{self.kind!r} is no kind of chord; expected one of {', '.join(KINDS)}")
        for degree in self.degrees:
            if degree.type not in DEGREE_TYPES:
                raise ValueError(f"{degree.type!r} is no type of degree; expected one of {', '.join(DEGREE_TYPES)}")
        object.__setattr__(self, "degrees", tuple(sorted(self.degrees, key=degree_order)))
        if self.bass is not None and self.bass.pitch_class == self.root.pitch_class:
            object.__setattr__(self, "bass", None)

    @property
    def intervals(self) -> tuple[Interval, ...]:
        """The intervals above the root, without those of a foreign bass."""
        return chord_intervals(self.kind, self.degrees)

    @cached_property
    def tones(self) -> tuple[Tone, ...]:
        """The tones in order of their interval; a bass that is foreign to the chord stands last."""
        own = tuple(Tone(str(interval), interval.above(self.root)) for interval in self.intervals)
        if self.bass is None or any(tone.note.pitch_class == self.bass.pitch_class for tone in own):
            return own
        return (*own, Tone(self.interval_of(self.bass.pitch_class), self.bass))

    @cached_property
    def pitch_classes(self) -> frozenset[int]:
        """The pitch classes, that of the bass included."""
        return frozenset(tone.note.pitch_class for tone in self.tones)

    @property
    def bass_pitch_class(self) -> int:
        """The pitch class of the lowest note: the slash bass, else the root."""
        return (self.bass or self.root).pitch_class

    def interval_of(self, pitch_class: int) -> str:
        """The interval of a pitch class above the root, also for one outside the chord."""
        return str(interval_at(self.kind, self.degrees, (pitch_class - self.root.pitch_class) % 12))

    def note_of(self, pitch_class: int) -> Note:
        """The note of a pitch class, spelled by its interval from the root, also for one outside the chord."""
        if self.bass is not None and self.bass.pitch_class == pitch_class % 12:
            return self.bass
        return tone_note(self.root, self.kind, self.degrees, pitch_class)

    def with_bass(self, bass: Note | None) -> Chord:
        """The same chord over another bass; None or the root takes the slash away."""
        if bass == self.bass:
            return self
        return self._plain if bass is None else replace(self, bass=bass)

    @cached_property
    def _plain(self) -> Chord:
        return replace(self, bass=None)

    def transposed(self, semitones: int) -> Chord:
        """The chord that many semitones higher, its root spelled on the commoner side."""
        root = commoner_root(self.kind, self.degrees, self.root.pitch_class + semitones)
        bass = self.bass and tone_note(root, self.kind, self.degrees, self.bass.pitch_class + semitones)
        return Chord(root, self.kind, self.degrees, bass)
