"""What a step is called: claims, near names, ties, the capo, other tunings."""

from __future__ import annotations

import pytest
from fingerpost.course.model import Naming
from fingerpost.music.chord_symbol import read, write

from .read_course import block, course, names


def _naming(start: str, options: dict[str, object] | None = None, more: str = "") -> Naming:
    return block(f"id: a\n{more}start: {start}\nsteps:\n- hold", options).steps[0].naming


def test_a_claim_is_shown_with_the_strict_name_beside_it() -> None:
    # x32010 over its E string: C E G with E lowest (by hand).
    naming = _naming("032010/-32-1- = C")
    assert (naming.shown, naming.strict) == (read("C"), read("C/E"))


def test_a_name_that_is_strict_already_stands_alone() -> None:
    naming = _naming("x32010/-32-1- = C")
    assert (naming.shown, naming.strict, naming.sounding) == (read("C"), None, None)


def test_without_a_claim_the_best_name_is_taken_and_its_bass_set_beside_it() -> None:
    naming = _naming("032010/-32-1-")
    assert (naming.shown, naming.strict) == (read("C"), read("C/E"))
    assert naming.ranked[0].chord == read("C/E")


def test_a_customary_omission_is_told() -> None:
    # C E Bb C: C7 without its fifth, a customary omission (standards.md, Conventions).
    naming = _naming("x3231x/-3241- = C7")
    assert (naming.shown, naming.omitted, naming.lacks) == (read("C7"), ("5",), ())


def test_a_near_name_says_what_it_lacks_and_adds() -> None:
    # x21200 is B D# A B E: B7 is B D# F# A (standards.md), so the fifth lacks and E, the eleventh, is added.
    naming = _naming("x21200/-213-- ~ B7")
    assert naming.taught_as
    assert (naming.shown, naming.lacks, naming.adds, naming.omitted) == (read("B7"), (), ("11",), ("5",))


def test_with_a_capo_the_shape_and_the_sound_are_named() -> None:
    # A G shape three frets up sounds B flat: G + 3 semitones (one fret is one semitone, common practice).
    step = block("id: a\ncapo: 3\nstart: 320003/32---4 = G\nsteps:\n- hold").steps[0]
    assert (step.naming.shown, step.naming.sounding) == (read("G"), read("Bb"))
    assert [row.note for row in step.table] == ["G", "B", "D", "G", "B", "G"]
    assert [row.sounding for row in step.table] == ["Bb", "D", "F", "Bb", "D", "Bb"]
    assert [row.interval for row in step.table] == ["1", "3", "5", "1", "3", "1"]


def test_another_tuning_goes_by_numbers() -> None:
    # DADGAD, by hand: D A D G A D; string 3 at fret 2 is A; string 4 at fret 4 is F#.
    lesson = block("id: a\ntuning: DADGAD\nstart: open = Dsus4\nsteps:\n- 2 to 3:2 = D5\n- 4 to 4:4 = D")
    assert names(lesson) == ["Dsus4", "D5", "D"]
    assert [row.note for row in lesson.steps[2].table] == ["D", "A", "F#", "A", "A", "D"]
    assert [row.letter for row in lesson.steps[0].table] == [None, None, None, "G", None, None]


def test_the_bass_is_the_lowest_pitch_whatever_its_string() -> None:
    # Ukulele g c e a with a high g: all open is G4 C4 E4 A4, whose lowest is C, so C6 (C E G A).
    assert names(block("id: a\ntuning: ukulele\nstart: open = C6\nsteps:\n- hold")) == ["C6", "C6"]


def test_a_decided_tie_names_what_the_author_does_not() -> None:
    # C E G A over G is C6/G or Am7/G (standards.md, Equal sets).
    start = "302010/3-2-1-"
    assert write(_naming(start, {"ties": ["C6 not Am7"]}).shown or read("N")) == "C6"
    assert write(_naming(start, {"ties": ["Am7 not C6"]}).shown or read("N")) == "Am7"


@pytest.mark.parametrize("used", ["C6", "Am7"])
def test_a_name_used_before_settles_a_tie_that_the_bass_leaves_open(used: str) -> None:
    first = {"C6": "x35555/-13333 = C6", "Am7": "x02010/--2-1- = Am7"}[used]
    text = f"```moves\nid: a\nstart: {first}\nsteps:\n- hold\n```\n\n"
    text += "```moves\nid: b\nstart: 302010/3-2-1-\nsteps:\n- hold\n```\n"
    made, found = course(text)
    assert found == []
    assert names(made.lessons[0].blocks[1])[0] == used


def test_the_key_spells() -> None:
    # G# B# D# in C sharp minor, Ab C Eb in F minor: the same notes, spelled by the key.
    assert [row.note for row in _row_of("C#m")] == ["G#", "B#", "D#"]
    assert [row.note for row in _row_of("Fm")] == ["Ab", "C", "Eb"]


def _row_of(key: str) -> list[object]:
    step = block(f"id: a\nkey: {key}\nstart: xx654x/--321-\nsteps:\n- hold").steps[0]
    return [row for row in step.table if row.note is not None]


def test_a_rest_and_silence_have_no_name() -> None:
    lesson = block("id: a\nstart: x02210/--231- = Am\nsteps:\n- rest\n- back")
    assert names(lesson) == ["Am", None, "Am"]
    assert lesson.steps[1].rest
    assert lesson.steps[1].shape.presses == ()
    assert lesson.steps[2].back
    assert lesson.steps[2].shape == lesson.steps[0].shape
