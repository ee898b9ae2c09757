"""Tunings of four to eight strings, named or spelled, and the names that their strings go by."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cached_property

from fingerpost.music.hashing import hashed_once
from fingerpost.music.pitch import Note, Pitch, plain_accidentals

_BARE_NOTES = re.compile(r"[A-G](?:##?|bb?)?")
FEWEST_STRINGS, MOST_STRINGS = 4, 8


@hashed_once
@dataclass(frozen=True)
class Tuning:
    """Open strings from the highest-numbered (string 6 of a guitar) to string 1. Strings are counted from 1.

    Pitches need not descend in order: some instruments have a high string on the far side (re-entrant tuning).
    """

    name: str
    pitches: tuple[Pitch, ...]

    @property
    def strings(self) -> int:
        """How many strings there are."""
        return len(self.pitches)

    def pitch(self, string: int) -> Pitch:
        """The open pitch of a string, counted from 1."""
        return self.pitches[self.strings - string]

    @cached_property
    def midi(self) -> tuple[int, ...]:
        """The MIDI numbers of the open strings, index 0 = string 1."""
        return tuple(pitch.midi for pitch in reversed(self.pitches))

    @cached_property
    def letters(self) -> tuple[str | None, ...]:
        """What each string is called by letter, index 0 = string 1; None where only its number serves.

        A letter that the tuning repeats serves for none of its strings, except that where just the lowest and the
        first string share one (as in standard tuning), the first is written small: `E` and `e`. String 1 tuned to E
        is always `e`, so that a habit from standard tuning never points at the wrong string.
        """
        names = [str(self.pitch(string).note) for string in range(1, self.strings + 1)]
        out: list[str | None] = []
        for index, name in enumerate(names):
            if names.count(name) == 1:
                out.append("e" if index == 0 and name == "E" else name)
            elif names.count(name) == 2 and names[0] == names[-1] == name:
                out.append(name[0].lower() + name[1:] if index == 0 else name)
            else:
                out.append(None)
        return tuple(out)

    def letter(self, string: int) -> str | None:
        """The letter of a string, or None where only its number serves."""
        return self.letters[string - 1]

    def string_called(self, letter: str) -> int | None:
        """The string that goes by this letter in this tuning, or None."""
        return self.letters.index(letter) + 1 if letter in self.letters else None

    def __str__(self) -> str:
        return " ".join(str(pitch) for pitch in self.pitches)


def _spelled(name: str, pitches: str) -> Tuning:
    return Tuning(name, tuple(Pitch.parse(word) for word in pitches.split()))


STANDARD = _spelled("standard", "E2 A2 D3 G3 B3 E4")
NAMED = {
    tuning.name: tuning
    for tuning in (
        STANDARD,
        _spelled("half step down", "Eb2 Ab2 Db3 Gb3 Bb3 Eb4"),
        _spelled("whole step down", "D2 G2 C3 F3 A3 D4"),
        _spelled("drop D", "D2 A2 D3 G3 B3 E4"),
        _spelled("double drop D", "D2 A2 D3 G3 B3 D4"),
        _spelled("open D", "D2 A2 D3 F#3 A3 D4"),
        _spelled("open D minor", "D2 A2 D3 F3 A3 D4"),
        _spelled("open E", "E2 B2 E3 G#3 B3 E4"),
        _spelled("open G", "D2 G2 D3 G3 B3 D4"),
        _spelled("open A", "E2 A2 E3 A3 C#4 E4"),
        _spelled("open C", "C2 G2 C3 G3 C4 E4"),
        _spelled("DADGAD", "D2 A2 D3 G3 A3 D4"),
        _spelled("seven strings", "B1 E2 A2 D3 G3 B3 E4"),
        _spelled("eight strings", "F#1 B1 E2 A2 D3 G3 B3 E4"),
        _spelled("ukulele", "G4 C4 E4 A4"),
        _spelled("baritone ukulele", "D3 G3 B3 E4"),
        _spelled("bass", "E1 A1 D2 G2"),
    )
}


def _pitch_words(text: str) -> list[str]:
    """The pitches as words; six bare notes get the octave nearest to the standard tuning (a tritone goes down)."""
    words = plain_accidentals(text).replace(",", " ").split()
    notes = _BARE_NOTES.findall(words[0]) if len(words) == 1 and _BARE_NOTES.sub("", words[0]) == "" else words
    if len(notes) != STANDARD.strings or not all(_BARE_NOTES.fullmatch(note) for note in notes):
        return words
    return [str(_nearest(Note.parse(note), usual)) for note, usual in zip(notes, STANDARD.pitches, strict=True)]


def _nearest(note: Note, usual: Pitch) -> Pitch:
    return min(
        (Pitch(note, octave) for octave in range(usual.octave - 1, usual.octave + 2)),
        key=lambda pitch: (abs(pitch.midi - usual.midi), pitch.midi),
    )


def parse_tuning(text: str) -> Tuning:
    """Reads a name from NAMED (any case, hyphens for blanks) or four to eight pitches, lowest-pitched string first.

    Six notes without octaves, also run together (`DADGBE`), each take the octave nearest to the standard tuning.
    Raises ValueError with the reason and what was expected.
    """
    wanted = text.strip().replace("-", " ").replace("_", " ").casefold()
    for name, tuning in NAMED.items():
        if name.casefold() == wanted:
            return tuning
    words = _pitch_words(text)
    if not FEWEST_STRINGS <= len(words) <= MOST_STRINGS:
        raise ValueError(
            f"{text!r} is no tuning; expected one of {', '.join(NAMED)}, "
            f"or {FEWEST_STRINGS} to {MOST_STRINGS} pitches such as D2 A2 D3 G3 A3 D4"
        )
    pitches = tuple(Pitch.parse(word) for word in words)
    for tuning in NAMED.values():
        if tuning.pitches == pitches:
            return tuning
    return Tuning(" ".join(words), pitches)
