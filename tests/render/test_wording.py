"""The two lines of words: read from wording_cases.md, and held to what they must say for any change at all."""

from __future__ import annotations

from itertools import product
from pathlib import Path

import pytest
from fingerpost.course.table import table
from fingerpost.music.chord import Chord
from fingerpost.music.chord_symbol import read
from fingerpost.music.fretboard import Fretboard
from fingerpost.music.kind import KINDS
from fingerpost.music.pitch import Note
from fingerpost.music.shape import Finger, Press, Shape
from fingerpost.music.shape_text import read_shape
from fingerpost.music.transition import MoveKind, transition
from fingerpost.music.tuning import parse_tuning
from fingerpost.render import wording, wording_sound
from fingerpost.render.voice import Voice
from hypothesis import given, settings

from .hands import changes

NECK = Fretboard()


def _cases() -> list[list[str]]:
    lines = (Path(__file__).parent / "wording_cases.md").read_text(encoding="utf-8").splitlines()
    rows = [line.strip().strip("|").split("|") for line in lines if line.startswith("| ")]
    return [[cell.strip() for cell in row] for row in rows[2:]]


@pytest.mark.parametrize("case", _cases(), ids=lambda case: f"{case[0]} to {case[2]}")
def test_a_change_is_told_as_the_table_says(case: list[str]) -> None:
    before, chord, after, new_chord, stays, move, sound = case
    old, new = read_shape(before), read_shape(after)
    change, voice = transition(old, new, NECK), Voice()
    assert stays in ("", wording.stays(change, voice))
    assert move in ("", wording.moves(change, voice))
    tables = (table(old, None, read(chord), None, NECK), table(new, old, read(new_chord), None, NECK))
    assert sound in ("", wording_sound.sound(*tables, voice))


@settings(max_examples=300, deadline=None)
@given(changes())
def test_every_finger_is_named_in_what_stays_or_what_moves(change: tuple[Shape, Shape, Fretboard]) -> None:
    before, after, neck = change
    told = transition(before, after, neck)
    voice = Voice(tuning=neck.tuning)
    text = (wording.stays(told, voice) + " " + wording.moves(told, voice)).casefold()
    moved = {move.finger for move in told.moves} | {move.replaced for move in told.moves if move.replaced is not None}
    if told.shift:
        return
    for finger in moved:
        assert voice.finger(finger) in text
    for finger in told.stays:
        assert finger.mark in text or voice.finger(finger) in text
    assert "{" not in text


@settings(max_examples=200, deadline=None)
@given(changes())
def test_each_place_a_finger_leaves_or_reaches_is_said(change: tuple[Shape, Shape, Fretboard]) -> None:
    before, after, neck = change
    told = transition(before, after, neck)
    voice = Voice(tuning=neck.tuning)
    for move in told.moves:
        text = wording.finger_move(move, told, voice)
        if move.kind in (MoveKind.MUTE, MoveKind.UNMUTE):
            continue
        reached = move.after or move.before
        assert reached is not None
        if move.kind is not MoveKind.HINGE:
            assert voice.fret(reached.fret) in text
            assert voice.strings(reached.strings) in text


def test_a_damped_string_is_leaned_on_and_let_go() -> None:
    low = Press(Finger.MIDDLE, 3, 6, 6)
    plain, damped = Shape(6, (low,)), Shape(6, (low,), damped=((5, Finger.MIDDLE),))
    there, back = transition(plain, damped, NECK), transition(damped, plain, NECK)
    assert wording.moves(there, Voice()) == "Finger 2 leans against the A string (5) and damps it."
    assert wording.moves(back, Voice()) == "Finger 2 lets go of the A string (5), which it damped, and keeps its place."


def test_the_thumb_is_no_numbered_finger() -> None:
    voice = Voice()
    assert voice.fingers((Finger.THUMB, Finger.INDEX, Finger.RING)) == "the thumb, finger 1 and finger 3"
    assert voice.fingers((Finger.INDEX, Finger.RING)) == "fingers 1 and 3"


def test_strings_go_by_letter_where_one_serves_and_by_number_where_none_does() -> None:
    standard, dadgad = Voice(), Voice(tuning=parse_tuning("DADGAD"))
    assert [standard.string(n) for n in (6, 5, 1)] == [
        "the low E string (6)",
        "the A string (5)",
        "the high e string (1)",
    ]
    assert [dadgad.string(n) for n in (6, 5, 3)] == ["string 6", "string 5", "the G string (3)"]


def test_nothing_but_the_strum_changing_says_so() -> None:
    told = transition(read_shape("x02210/--231-"), read_shape("002210/--231-"), NECK)
    assert wording.moves(told, Voice()) == "Strike strings 6 to 1."
    assert wording.stays(told, Voice()) == "Fingers 1, 2 and 3 stay."


def test_every_note_that_any_chord_can_ask_for_is_written_and_said() -> None:
    voice = Voice()
    for letter, alter, kind in product("ABCDEFG", range(-2, 3), KINDS):
        chord = Chord(Note(letter, alter), kind)
        assert voice.chord(chord)
        assert voice.chord_aloud(chord)
        for pitch_class in range(12):
            note = chord.note_of(pitch_class)
            assert voice.note(str(note)) == voice.note(note)
            assert voice.note_aloud(str(note)).startswith(note.letter)
            assert voice.interval(chord.interval_of(pitch_class)).startswith("the ")
    assert voice.note_aloud("Fbbbb") == "F with four flats"
    assert (voice.note("Bb"), voice.note_aloud("Bb"), voice.note_aloud("F##")) == ("B♭", "B flat", "F double sharp")


def test_an_unheard_of_interval_is_still_said() -> None:
    assert Voice().interval("b4") == "the lowered fourth"
    assert Voice().interval("#13") == "the raised thirteenth"
    assert Voice().interval("b3") == "the minor third"
