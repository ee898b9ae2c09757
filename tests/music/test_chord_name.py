"""Names: what is left out, what is offered, why, and what a key settles."""

from __future__ import annotations

import pytest
from fingerpost.music.chord_name import equal_names, names
from fingerpost.music.chord_symbol import read
from fingerpost.music.key import Key
from fingerpost.music.pitch import Note
from fingerpost.music.vocabulary import vocabulary
from hypothesis import given
from hypothesis import strategies as st


def _names(notes: str, key: str | None = None) -> list[str]:
    classes = [Note.parse(note).pitch_class for note in notes.split()]
    return [name.symbol for name in names(classes, classes[0], None if key is None else Key.parse(key))]


def test_a_missing_perfect_fifth_is_left_to_the_exact_form() -> None:
    name = names([0, 4, 10], 0)[0]
    assert (name.symbol, name.exact) == ("C7", "C7(no5)")
    assert name.spoken == "C dominant seventh, no fifth"
    assert (name.intervals, name.omitted) == (("1", "3", "b7"), ("5",))


def test_a_missing_third_is_said_in_the_symbol() -> None:
    name = names([0, 7, 10], 0)[0]
    assert (name.symbol, name.exact, name.omitted) == ("C7(no3)", "C7(no3)", ("3",))


def test_a_thirteenth_goes_without_its_fifth_ninth_and_eleventh() -> None:
    name = names([0, 10, 4, 9], 0)[0]
    assert (name.symbol, name.exact, name.omitted) == ("C13", "C13(no5,no9,no11)", ("5", "9", "11"))


# One and two notes: common practice where there is one (power chords, a third for its triad).
@pytest.mark.parametrize(
    ("notes", "symbol", "exact"),
    [
        ("C", "C(no3,no5)", "C(no3,no5)"),
        ("C G", "C5", "C5"),
        ("G C", "C5/G", "C5/G"),
        ("C E", "C", "C(no5)"),
        ("E C", "C/E", "C(no5)/E"),
        ("C Eb", "Cm", "Cm(no5)"),
        ("C Bb", "C7(no3,no5)", "C7(no3,no5)"),
        ("C B", "Cmaj7(no3,no5)", "Cmaj7(no3,no5)"),
        ("C D", "Csus2", "Csus2(no5)"),
    ],
)
def test_one_and_two_notes(notes: str, symbol: str, exact: str) -> None:
    classes = [Note.parse(note).pitch_class for note in notes.split()]
    best = names(classes, classes[0])[0]
    assert (best.symbol, best.exact) == (symbol, exact)


def test_neither_c2_nor_c4_is_ever_a_name() -> None:
    """standards.md: do not produce "C2" or "C4"."""
    symbols = {
        name.symbol for rest in range(2048) for name in names([0, *(n for n in range(1, 12) if rest >> n - 1 & 1)], 0)
    }
    assert not [symbol for symbol in symbols if symbol[-1] in "24" and not symbol.endswith(("sus2", "sus4"))]


# Equal sets, standards.md: C6 = Am7; Csus2 = Gsus4; three augmented triads, four diminished sevenths. The bass decides.
@pytest.mark.parametrize(
    ("notes", "equal"),
    [
        ("C E G A", ["C6", "Am7/C"]),
        ("A C E G", ["Am7", "C6/A"]),
        ("C D G", ["Csus2", "Gsus4/C"]),
        ("G C D", ["Gsus4", "Csus2/G"]),
        ("C E G#", ["Caug", "Eaug/B#", "Abaug/C"]),
        ("C Eb Gb A", ["Cdim7", "D#dim7/C", "F#dim7/C", "Adim7/C"]),
        ("B D F A", ["Bm7b5", "Dm6/B"]),
    ],
)
def test_equal_names_are_all_offered_and_the_bass_decides(notes: str, equal: list[str]) -> None:
    classes = [Note.parse(note).pitch_class for note in notes.split()]
    assert [name.symbol for name in equal_names(classes, classes[0])] == equal
    assert set(equal) <= set(_names(notes))


# Spelling by key: common practice.
@pytest.mark.parametrize(
    ("notes", "key", "symbol"),
    [
        ("F# A# C#", "Db", "Gb"),
        ("F# A# C#", "B", "F#"),
        ("C# E G Bb", "C", "C#dim7"),
        ("Ab C Eb", "E", "G#"),
        ("Eb Gb Bb", "E", "D#m"),
        ("B D# F#", "Gb", "Cb"),
        ("Bb D F", "Am", "Bb"),
    ],
)
def test_a_key_spells_the_root(notes: str, key: str, symbol: str) -> None:
    assert _names(notes, key)[0] == symbol


def test_a_key_settles_what_is_all_but_equal() -> None:
    assert _names("A C D G")[:2] == ["Am7(add11)", "D7sus4/A"]
    assert _names("A C D G", "Eb")[0] == "D7sus4/A"
    assert "Its root belongs to the key of Eb. It comes first." in names([9, 0, 2, 7], 9, Key.parse("Eb"))[0].why


@given(st.sets(st.integers(0, 11), min_size=1), st.sampled_from("C G D A E B F# Db Ab Eb Bb F Am Em Cm F#m".split()))
def test_no_key_brings_three_accidentals_where_it_can_be_helped(classes: set[int], key: str) -> None:
    best = names(classes, min(classes), Key.parse(key))[0]
    assert all(abs(tone.note.alter) <= 2 for tone in best.chord.tones)


COMPLETE = "Every tone of it sounds, and its root, C, is the lowest note. It is an everyday chord. It comes first."
FOREIGN = (
    "Every tone of it sounds, and the lowest note, G, is not one of its own. It is an everyday chord. It comes first."
)
WHY = [
    (
        "C E G",
        0,
        "Every tone of it sounds, and its root, C, is the lowest note. It is an everyday chord. It comes first.",
    ),
    (
        "C E G A",
        1,
        "Every tone of it sounds, and its third, C, is the lowest note. It is an everyday chord. "
        "It ranks below C6, whose root is the lowest note.",
    ),
    ("G F A C", 0, FOREIGN),
    (
        "C E Bb",
        0,
        "It does without its fifth, G, as players often do, and its root, C, is the lowest note. "
        "It is an everyday chord. It comes first.",
    ),
    ("C", 0, "Only one note sounds, C, so the symbol says what is missing."),
]


@pytest.mark.parametrize(("notes", "place", "why"), WHY)
def test_each_name_has_its_reason(notes: str, place: int, why: str) -> None:
    classes = [Note.parse(note).pitch_class for note in notes.split()]
    assert names(classes, classes[0])[place].why == why


@given(st.sets(st.integers(0, 11), min_size=1), st.integers(0, 11))
def test_names_are_ranked_each_once_and_the_bass_sounds(classes: set[int], bass: int) -> None:
    found = names(classes, bass)
    costs = [name.ranked.cost for name in found]
    assert costs == sorted(costs)
    assert len({(name.chord, name.left_out) for name in found}) == len(found)
    assert all(name.chord.bass_pitch_class == bass for name in found)
    assert all(name.why.endswith(".") and read(name.symbol) == name.chord for name in found)


@pytest.mark.parametrize(("classes", "bass"), [([12], 0), ([0], 12), ([-1], 0), ([0], -1)])
def test_what_is_no_pitch_class_is_refused(classes: list[int], bass: int) -> None:
    with pytest.raises(ValueError, match="is no pitch class; expected a number from 0"):
        names(classes, bass)


def test_the_vocabulary_says_each_chord_once() -> None:
    for mask, readings in vocabulary().items():
        chords = [(one.kind, one.degrees, one.omitted) for one in readings]
        assert len(set(chords)) == len(chords), f"{mask:012b}"
