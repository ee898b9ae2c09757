"""What a shape on an instrument sounds, or what some notes sound together, with its names."""

from __future__ import annotations

from dataclasses import dataclass

from fingerpost.cli import instrument
from fingerpost.cli.answer import QuestionError
from fingerpost.music.chord_name import ChordName, names
from fingerpost.music.fingering import fingerings
from fingerpost.music.fretboard import Fretboard
from fingerpost.music.hand import Hand
from fingerpost.music.key import Key
from fingerpost.music.pitch import Note, Pitch
from fingerpost.music.shape import Shape
from fingerpost.music.shape_text import write_shape


@dataclass(frozen=True)
class Sound:
    """What sounds: notes spelled by the best name (with octaves for a shape), lowest string first.

    asked: as the question put it. shape: as text, None for notes. without_capo: a sentence about the shape's own name
    where a capo makes it sound as another.
    """

    asked: str
    shape: str | None
    notes: tuple[str, ...]
    pitch_classes: frozenset[int]
    bass: str
    names: tuple[ChordName, ...]
    without_capo: str = ""


def fingered(text: str, board: Fretboard, hand: Hand | None = None) -> Shape:
    """The shape with a finger for every press, the likeliest where it says none. Raises QuestionError."""
    shape = instrument.shape(text, board)
    if shape.has_fingers:
        return shape
    found = fingerings(shape, board, hand or Hand())
    if not found:
        raise QuestionError(f"No hand can hold {text!r}", "a shape that four fingers reach")
    return found[0]


def names_of(shape: Shape, board: Fretboard) -> tuple[ChordName, ...]:
    """What a shape is called, the capo left out; nothing where nothing sounds."""
    heard = [board.shape_midi(string, shape.fret(string) or 0) for string in shape.sounding_strings]
    return names(frozenset(midi % 12 for midi in heard), min(heard) % 12) if heard else ()


def of_shape(text: str, board: Fretboard, key: Key | None = None) -> Sound:
    """The sound of a shape on an instrument, capo included. Raises QuestionError."""
    shape = instrument.shape(text, board)
    heard = [board.sounding_midi(string, shape.fret(string) or 0) for string in shape.sounding_strings]
    if not heard:
        raise QuestionError(f"In {text!r} no string sounds, so there is nothing to name")
    classes = frozenset(midi % 12 for midi in heard)
    found = names(classes, min(heard) % 12, key)
    spelled = [Pitch.from_midi(midi, found[0].chord.note_of(midi % 12)) for midi in heard]
    bass = min(spelled, key=lambda pitch: pitch.midi).note
    written = write_shape(shape)
    return Sound(
        text, written, tuple(map(str, spelled)), classes, str(bass), found, _shape_name(heard, board, found[0])
    )


def _shape_name(heard: list[int], board: Fretboard, sounding: ChordName) -> str:
    if not board.capo:
        return ""
    own = names(frozenset((midi - board.capo) % 12 for midi in heard), (min(heard) - board.capo) % 12)[0]
    return f"a {own.symbol} shape, sounding {sounding.symbol} with the capo at fret {board.capo}"


def of_notes(text: str, key: Key | None = None) -> Sound:
    """The sound of notes written bass first, such as `C,E,Bb`. Raises QuestionError."""
    try:
        notes = [Note.parse(word.strip()) for word in text.split(",")]
    except ValueError as problem:
        raise QuestionError(f"In {text!r}: {problem}", "notes with commas, the bass first, such as C,E,Bb") from problem
    classes = frozenset(note.pitch_class for note in notes)
    found = names(classes, notes[0].pitch_class, key)
    return Sound(text, None, tuple(map(str, notes)), classes, str(notes[0]), found)
