"""The names that a course has used so far, and how a tie between equal names is settled."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

from fingerpost.course.heard import Heard
from fingerpost.music.chord import Chord
from fingerpost.music.chord_name import ChordName, names
from fingerpost.music.key import Key

PitchClasses = frozenset[int]


@dataclass
class NameBook:
    """Settles ties, and notes down what it was asked, so that a block can be kept as long as the answers stand.

    used: for a set of pitch classes, the chord by which the course first showed it. asked: the answers given.
    """

    used: dict[PitchClasses, Chord] = field(default_factory=dict)
    asked: dict[PitchClasses, Chord | None] = field(default_factory=dict)

    def names(self, heard: Heard, key: Key | None) -> tuple[ChordName, ...]:
        """All computed names, best first."""
        return names(heard.pitch_classes, heard.bass, key)

    def settled(self, heard: Heard, ranked: Sequence[ChordName], ties: Sequence[tuple[Chord, Chord]]) -> Chord:
        """The name to show: the one decided for these notes, else one the course uses where the bass leaves it open.

        The bass leaves it open where the best name is a slash chord, as C6/E and Am7/E both are.
        """
        for chosen, _ in ties:
            if chosen.pitch_classes == heard.pitch_classes:
                return over_bass(chosen, heard)
        best = ranked[0].chord
        if best.bass is None:
            return best
        known = self.asked[heard.pitch_classes] = self.used.get(heard.pitch_classes)
        return best if known is None else over_bass(known, heard)

    def note_use(self, chord: Chord) -> None:
        """Remembers the name by which its notes were first shown."""
        self.used.setdefault(chord.pitch_classes, chord)


def over_bass(chord: Chord, heard: Heard) -> Chord:
    """The chord with the bass that sounds."""
    plain = chord.with_bass(None)
    return plain.with_bass(plain.note_of(heard.bass))
