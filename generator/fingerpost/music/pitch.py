"""Notes by letter and accidental, and pitches with their octave, MIDI number and frequency."""

from __future__ import annotations

import re
from dataclasses import dataclass

LETTERS = "CDEFGAB"
NATURAL = {"C": 0, "D": 2, "E": 4, "F": 5, "G": 7, "A": 9, "B": 11}
_ACCIDENTAL = {"": 0, "#": 1, "##": 2, "###": 3, "b": -1, "bb": -2, "bbb": -3, "x": 2}
_UNICODE = str.maketrans({"♯": "#", "♭": "b", "♮": "", "𝄪": "x"})
_NOTE = re.compile(r"([A-G])(#{1,3}|b{1,3}|x)?")


def plain_accidentals(text: str) -> str:
    """The text with real accidental signs written in ASCII."""
    return text.replace("𝄫", "bb").translate(_UNICODE)


@dataclass(frozen=True, slots=True)
class Note:
    """A spelled pitch class: a letter A-G and how many semitones it is raised (+) or lowered (-)."""

    letter: str
    alter: int = 0

    @property
    def pitch_class(self) -> int:
        """0 (C) to 11 (B)."""
        return (NATURAL[self.letter] + self.alter) % 12

    def __str__(self) -> str:
        return self.letter + ("#" * self.alter if self.alter > 0 else "b" * -self.alter)

    @classmethod
    def parse(cls, text: str) -> Note:
        """Reads `C`, `Bb`, `F##`, `Fx` or real accidentals; raises ValueError for anything else."""
        match = _NOTE.fullmatch(plain_accidentals(text))
        if match is None:
            raise ValueError(f"{text!r} is no note; expected a letter from A to G, then # or b")
        return cls(match[1], _ACCIDENTAL[match[2] or ""])


@dataclass(frozen=True, slots=True)
class Pitch:
    """A note in an octave of scientific pitch notation (C4 = MIDI 60)."""

    note: Note
    octave: int

    @property
    def midi(self) -> int:
        """MIDI note number; the octave goes by the letter, so Cb4 is 59."""
        return 12 * (self.octave + 1) + NATURAL[self.note.letter] + self.note.alter

    @property
    def pitch_class(self) -> int:
        """0 (C) to 11 (B)."""
        return self.note.pitch_class

    def frequency(self, a4: float = 440.0) -> float:
        """Hertz in equal temperament, A4 = 440 Hz by ISO 16:1975."""
        return float(a4 * 2 ** ((self.midi - 69) / 12))

    def __str__(self) -> str:
        return f"{self.note}{self.octave}"

    @classmethod
    def parse(cls, text: str) -> Pitch:
        """Reads `E2`, `Bb3`, `F#4`; raises ValueError for anything else."""
        match = re.fullmatch(r"(.+?)(-?\d)", text.strip())
        if match is None:
            raise ValueError(f"{text!r} is no pitch; expected a note and an octave, such as E2")
        return cls(Note.parse(match[1]), int(match[2]))

    @classmethod
    def from_midi(cls, midi: int, note: Note | None = None) -> Pitch:
        """The pitch of a MIDI number, spelled as `note` (of its pitch class) or by the commoner accidental."""
        spelled = note or COMMON_SPELLING[midi % 12]
        if spelled.pitch_class != midi % 12:
            raise ValueError(f"{spelled} does not spell MIDI {midi}")
        return cls(spelled, (midi - NATURAL[spelled.letter] - spelled.alter) // 12 - 1)


COMMON_SPELLING = tuple(Note.parse(n) for n in "C C# D Eb E F F# G Ab A Bb B".split())
