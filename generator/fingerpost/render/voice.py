"""Says fingers, strings, frets, notes and chords in the words of the catalogue and the style of the course."""

from __future__ import annotations

from collections.abc import Collection, Iterable
from dataclasses import dataclass, replace
from functools import lru_cache

from fingerpost.music.chord import Chord
from fingerpost.music.chord_symbol import SymbolStyle, note_text, spoken, write
from fingerpost.music.interval import Interval
from fingerpost.music.pitch import Note
from fingerpost.music.shape import Finger, Press
from fingerpost.music.tuning import STANDARD, Tuning
from fingerpost.render.catalogue import Words, words
from fingerpost.render.named import marked

FEWEST_FOR_A_RANGE = 3
ENGLISH = words("en")
PLAIN = SymbolStyle()
REAL_SIGNS = SymbolStyle(accidentals="real")


@dataclass(frozen=True)
class Voice:
    """The catalogue, the tuning that names the strings, and the style that writes notes and symbols.

    marks: the names of notes, strings and chords are marked (render/named.py), for sentences that become markup.
    """

    words: Words = ENGLISH
    tuning: Tuning = STANDARD
    style: SymbolStyle = REAL_SIGNS
    marks: bool = False

    @property
    def plain(self) -> Voice:
        """The same voice for what is no markup: attributes, pictures, lists of words."""
        return replace(self, marks=False) if self.marks else self

    def finger(self, finger: Finger | None) -> str:
        """`finger 2`, `the thumb`, or `a finger` where it is not known which."""
        if finger is None:
            return self.words.say("hand.some_finger")
        if finger is Finger.THUMB:
            return self.words.say("hand.thumb")
        return self.words.say("hand.finger", mark=finger.mark)

    def fingers(self, fingers: Collection[Finger]) -> str:
        """`fingers 1 and 3`; the thumb is said apart."""
        numbered = [finger for finger in fingers if finger is not Finger.THUMB]
        thumb = [self.finger(Finger.THUMB)] if Finger.THUMB in fingers else []
        if len(numbered) < 2:
            return self.words.listed([*thumb, *map(self.finger, numbered)])
        if not thumb:
            return self.words.say("hand.fingers", marks=self.words.listed(finger.mark for finger in numbered))
        return self.words.listed([*thumb, *map(self.finger, numbered)])

    def fret(self, fret: int) -> str:
        """`third fret`."""
        return self.words.say("hand.fret", ordinal=self.words.ordinal(fret), number=fret)

    def letter(self, string: int) -> str | None:
        """The letter of a string as it is written: `E`, `B♭`."""
        letter = self.tuning.letter(string)
        if letter is None:
            return None
        shown = string_letter(letter, self.style)
        return marked(letter, shown) if self.marks else shown

    def string(self, string: int) -> str:
        """`the A string (5)`; low and high where two strings share a letter; `string 3` where none serves."""
        letter = self.letter(string)
        if letter is None:
            return self.words.say("hand.string_number", number=string)
        letters = [(name or "").casefold() for name in self.tuning.letters]
        doubled = letters.count((self.tuning.letter(string) or "").casefold()) > 1
        key = "hand.string_letter" if not doubled else "hand.string_high" if string == 1 else "hand.string_low"
        return self.words.say(key, letter=letter, number=string)

    def strings(self, strings: Iterable[int]) -> str:
        """One string by its letter, several by number: `strings 6 to 3`, `strings 6, 4 and 1`."""
        ordered = sorted(set(strings), reverse=True)
        if len(ordered) < 2:
            return "".join(map(self.string, ordered))
        if len(ordered) >= FEWEST_FOR_A_RANGE and ordered[0] - ordered[-1] == len(ordered) - 1:
            return self.words.say("hand.strings_from", low=ordered[0], high=ordered[-1])
        return self.words.say("hand.strings", numbers=self.words.listed(ordered))

    def place(self, press: Press) -> str:
        """`the A string (5), third fret`."""
        return self.words.say("hand.place", string=self.strings(press.strings), fret=self.fret(press.fret))

    def note(self, note: str | Note) -> str:
        """A note as it is written on the page: `B♭`."""
        shown = _note(note, self.style)
        return marked(str(_read(note)), shown) if self.marks else shown

    def note_aloud(self, note: str | Note) -> str:
        """A note in words: `B flat`."""
        return _note_aloud(note, self.words)

    def chord(self, chord: Chord | None) -> str:
        """A chord's symbol as it is written on the page, "" for none."""
        if chord is None:
            return ""
        shown = _symbol(chord, self.style)
        return marked(_symbol(chord, PLAIN), shown) if self.marks else shown

    def chord_aloud(self, chord: Chord) -> str:
        """A chord in words: `B flat minor seventh`."""
        return _symbol_aloud(chord)

    def interval(self, interval: str) -> str:
        """An interval in words: `the minor third`."""
        if self.words.has(f"interval.{interval}"):
            return self.words.say(f"interval.{interval}")
        read = Interval.parse(interval)
        key = "plain" if read.alter == 0 else "raised" if read.alter > 0 else "lowered"
        return self.words.say(f"interval.{key}", ordinal=self.words.ordinal(read.number))

    def interval_sign(self, interval: str) -> str:
        """An interval as the table shows it: `R` for the root, else `♭3`."""
        if interval == "1":
            return self.words.say("table.root")
        return interval if self.style.accidentals == "ascii" else interval.translate(_REAL)


_ALTERED = {
    -3: "triple_flat", -2: "double_flat", -1: "flat", 0: "natural", 1: "sharp", 2: "double_sharp", 3: "triple_sharp",
}  # fmt: skip
_REAL = str.maketrans({"#": "♯", "b": "♭"})


def string_letter(letter: str, style: SymbolStyle) -> str:
    """A string's letter in a style: small where the course writes it small, since a small letter tells e from E."""
    shown = note_text(Note(letter[0].upper(), letter.count("#") - letter[1:].count("b")), style)
    return shown[0].lower() + shown[1:] if letter[0].islower() else shown


# The same few notes and chords are said on every line of a page.
@lru_cache(maxsize=256)
def _note(note: str | Note, style: SymbolStyle) -> str:
    return note_text(_read(note), style)


@lru_cache(maxsize=256)
def _note_aloud(note: str | Note, words: Words) -> str:
    read = _read(note)
    if read.alter in _ALTERED:
        return words.say(f"spoken.{_ALTERED[read.alter]}", letter=read.letter)
    key = "spoken.many_sharps" if read.alter > 0 else "spoken.many_flats"
    return words.say(key, letter=read.letter, number=words.number_word(abs(read.alter)))


def _read(note: str | Note) -> Note:
    """A note as a table holds it: a letter and accidentals, of which a diminished seventh can ask for four."""
    if isinstance(note, Note):
        return note
    return Note(note[0], note.count("#") - note.count("b"))


@lru_cache(maxsize=1024)
def _symbol(chord: Chord, style: SymbolStyle) -> str:
    return write(chord, style)


@lru_cache(maxsize=1024)
def _symbol_aloud(chord: Chord) -> str:
    return spoken(chord)
