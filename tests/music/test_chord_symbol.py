"""Chord symbols: every common way to write one, every style, and what is said of text that is no symbol."""

from __future__ import annotations

from itertools import product

import pytest
from fingerpost.music.chord import Chord
from fingerpost.music.chord_name import names
from fingerpost.music.chord_symbol import (
    SymbolError,
    SymbolStyle,
    note_spoken,
    note_text,
    read,
    spoken,
    write,
    write_exact,
)
from fingerpost.music.pitch import Note
from hypothesis import example, given
from hypothesis import strategies as st

# Ways to write the same chord (common practice); the first is how it is written back; | stands for a blank.
SAME = """
C           CM Cmaj Cmajor
Cm          C- Cmin Cmi Cminor C−
C7          Cdom7 Cadd7
Cmaj7       CM7 CMaj7 Cma7 C^7 C^ CΔ7 CΔ C∆7 C7M C(maj7) CMAJ7 Cmaj|7
Cm7         C-7 Cmin7 Cmi7 C−7
CmMaj7      Cmmaj7 CmM7 Cm(maj7) Cmin(maj7) C-Δ7 CmΔ Cm/maj7 Cm7M
Cm7b5       Cø Cø7 C-7b5 Cm7(b5) Cm7-5 Cm7♭5 Cmin7b5
Cdim        C° Co Cm(b5) Cdiminished
Cdim7       C°7 Co7 Cº7
CdimMaj7    Cdim(maj7) C°M7 CmMaj7b5
Caug        C+ C(#5) Caugmented C+5
C7#5        C+7 Caug7 C7+ C7+5 C7(#5) C7♯5
C7b5        C7-5 C7(b5) C7♭5
Cmaj7#5     C+M7 Caugmaj7 C+maj7 Cmaj7(#5)
Csus4       Csus Csus4(no3)
C7sus4      C7sus C7(sus4)
C9sus4      C9sus C7sus4add9
Csus2sus4   Csus24 Csus4add9 Csus4sus2 Csus2(add11)
C6          CM6 Cmaj6 Cadd6 C(add6)
C6/9        C69 C6(9) C6add9 CM6/9
Cm6/9       Cm69 C-6/9
Cadd9       C(add9) Cadd2 C(9) Cadd9th
Cadd11      Cadd4 C(add11)
Cm(add9)    Cmadd9 C-add9 Cm(9)
C9          C7add9 C7/9 C7(9)
Cmaj9       CM9 CΔ9 Cmaj7(add9) C^9
CmMaj9      Cm(maj9) CmM9
C11         C9add11
C7b9        C7-9 C7(b9) C7♭9
C7#9        C7+9 C7(#9) C7♯9 C7b10
C9#5        C+9 Caug9 C9(#5)
C7(b9,#11)  C7b9#11 C7(b9)(#11) C7(b9|#11) C7b9(#11)
C7(#5,#9)   C7#5#9 C+7#9
Cm7(add11)  Cm7add11 Cm7(11) Cm7add4
C7(add13)   C7(13) C7/13 C7add6
Cm(addb13)  Cm(b6) Cmaddb6
C5          C(no3) Cno3 C(omit3) C5(no3)
C(no5)      Cno5 C(omit5) C(no5th)
C/G         CM/G C|/|G
C6/9/E      C69/E
C7sus4/G    C7sus/G
""".strip().splitlines()
PAIRS = [(line.split("  ")[0], other) for line in SAME for other in line[12:].split()]


@pytest.mark.parametrize(("plain", "other"), PAIRS)
def test_ways_to_write_one_chord(plain: str, other: str) -> None:
    other = other.replace("|", " ")
    assert write(read(plain)) == plain
    assert read(other) == read(plain)
    assert read("C#" + other[1:]) == read("C#" + plain[1:])


def test_a_small_m_is_minor_and_a_capital_one_major() -> None:
    assert read("CM7").kind == "major-seventh"
    assert read("Cm7").kind == "minor-seventh"


# Position and length count code points from 0.
WRONG = [
    ("", 0, 0, "there is no chord here; expected a chord that begins with a capital letter from A to G"),
    ("xyz", 0, 3, '"xyz" does not begin with a root; expected a chord that begins with a capital letter'),
    ("am7", 0, 3, '"am7" does not begin with a capital letter; expected the root as a capital: Am7'),
    ("H7", 0, 2, '"H7" is German: H is the note B; expected B, and Bb for the German B'),
    ("Cmja7", 2, 3, '"ja7" is not understood; expected what follows a root'),
    ("Am7b", 3, 1, '"b" is not understood'),
    ("C♯m7?", 4, 1, '"?" is not understood'),
    ("C7(b9", 2, 1, "this parenthesis is never closed; expected a closing parenthesis"),
    ("C7b9)", 4, 1, '")" is not understood'),
    ("C2", 1, 1, '"2" alone is read in two ways; expected Cadd9 or Csus2'),
    ("F#4", 2, 1, '"4" alone is read in two ways; expected F#add11 or F#sus4'),
    ("C7alt", 2, 3, '"alt" is not one set of notes; expected the altered notes themselves, such as C7(b9,#5)'),
    ("C/H", 2, 1, '"H" after the stroke is no bass note; expected a note from A to G, such as C/G'),
    ("C/", 2, 0, '"" after the stroke is no bass note'),
    ("C/G/E", 3, 1, '"/" is not understood'),
    ("Cm5", 2, 1, "a power chord (5) has no third; expected C5, or Cm without the 5"),
    ("C7#7", 2, 2, '"#7" is no change that a chord knows; expected a raised or lowered 5, 9, 11 or 13'),
    ("Cadd8", 1, 4, '"add8" adds no degree that a chord knows; expected add9, add11 or add13'),
    ("C(no1)", 2, 3, "a chord keeps its root; expected a degree to leave out, such as no3 or no5"),
    ("C7no9", 2, 3, '"no9" leaves out a tone that the chord does not have; expected a degree of the chord'),
    ("C7no5no5", 5, 3, '"no5" leaves out a tone that the chord does not have'),
    ("C5no9", 2, 3, '"no9" leaves out a tone that the chord does not have'),
    ("Cm7 11", 4, 2, '"11" stands alone; expected add, # or b before the number, or parentheses around it'),
    ("C" + "q" * 99, 1, 99, '"qqqqqqqqqqqqqqqqqqqqqqqq..." is not understood'),
]


@pytest.mark.parametrize(("text", "position", "length", "words"), WRONG)
def test_what_is_no_symbol_says_what_and_where(text: str, position: int, length: int, words: str) -> None:
    with pytest.raises(SymbolError) as caught:
        read(text)
    assert (caught.value.position, caught.value.length) == (position, length)
    assert str(caught.value).startswith(words)
    assert str(caught.value) == f"{caught.value.message}; expected {caught.value.expected}"


@given(st.text(alphabet="ABCDEFGHabcdefgmMjø°Δ+-#b♯♭/(),0123456789 suaddno", max_size=12))
@example("C" * 3000)
@example("C(((((")
@example("C7" + "b9" * 3000)
@example("C13" + "no5" * 3000)
def test_any_text_is_read_or_refused_with_a_place_inside_it(text: str) -> None:
    chord, start, end = _chord_or_place(text)
    assert 0 <= start <= end <= len(text)
    assert chord is None or read(write(chord)) == chord


def _chord_or_place(text: str) -> tuple[Chord | None, int, int]:
    try:
        return read(text), 0, 0
    except SymbolError as error:
        return None, error.position, error.position + error.length


STYLES = [
    SymbolStyle(*choice)
    for choice in product(("maj7", "triangle"), ("dim", "circle"), ("m", "-"), ("english",), ("ascii", "real"))
]
MASKS = st.integers(0, 2047).map(lambda rest: rest << 1 | 1)


@given(MASKS, st.integers(0, 11), st.sampled_from(STYLES))
def test_what_is_written_in_an_english_style_reads_back(mask: int, bass: int, style: SymbolStyle) -> None:
    for name in names([(bass + step) % 12 for step in range(12) if mask >> step & 1], bass):
        for chord in (name.chord, name.exact_chord):
            assert read(write(chord, style)) == chord


# The styles are those of the project's design page; the German and solfege names those of standards.md.
STYLED = [
    (SymbolStyle(major_seventh="triangle"), "CΔ7 CmΔ7 FΔ9 CΔ7#11 CdimΔ7", "Cmaj7 CmMaj7 Fmaj9 Cmaj7#11 CdimMaj7"),
    (SymbolStyle(diminished="circle"), "C° C°7 Cø7 C°Maj7", "Cdim Cdim7 Cm7b5 CdimMaj7"),
    (SymbolStyle(minor="-"), "C- C-7 C-7b5 C-Maj7 C-6/9", "Cm Cm7 Cm7b5 CmMaj7 Cm6/9"),
    (SymbolStyle(notes="german"), "B H Hm7b5 As Es Fis Cism Des/As Ges Eses", "Bb B Bm7b5 Ab Eb F# C#m Db/Ab Gb Ebb"),
    (SymbolStyle(notes="solfege"), "Do Rem Mi7 Fa#m Solmaj7 Lab Sib/Re", "C Dm E7 F#m Gmaj7 Ab Bb/D"),
    (SymbolStyle(accidentals="real"), "B♭ F♯m7♭5 C7♯9 C7♯5 D/F♯ C7(♭9,♯11)", "Bb F#m7b5 C7#9 C7#5 D/F# C7(b9,#11)"),
]


@pytest.mark.parametrize(("style", "written", "symbols"), STYLED)
def test_styles(style: SymbolStyle, written: str, symbols: str) -> None:
    assert [write(read(symbol), style) for symbol in symbols.split()] == written.split()


def test_note_names() -> None:
    assert note_text(Note.parse("Bbb"), SymbolStyle(notes="german")) == "Heses"
    assert note_text(Note.parse("F##"), SymbolStyle(notes="german")) == "Fisis"
    assert note_text(Note.parse("Bb"), SymbolStyle(notes="solfege", accidentals="real")) == "Si♭"


@pytest.mark.parametrize(
    ("symbol", "words"),
    [
        ("C7(no5)", "C dominant seventh, no fifth"),  # the example of the project's design page
        ("F#m/C#", "F sharp minor over C sharp"),
        ("C7(#5,#9)", "C dominant seventh, sharp fifth, sharp ninth"),
        ("C(addb13)", "C major, added flat thirteenth"),
        ("Ebm6/9", "E flat minor six nine"),
        ("C9sus4", "C dominant ninth, suspended fourth"),
    ],
)
def test_spoken(symbol: str, words: str) -> None:
    assert spoken(read(symbol)) == words


@given(st.integers(-6, 6), st.sampled_from("CDEFGAB"))
def test_any_note_is_spoken_and_named_in_every_style(alter: int, letter: str) -> None:
    note = Note(letter, alter)
    assert note_spoken(note).startswith(letter)
    assert note_spoken(note).endswith("sharp" if alter > 0 else "flat" if alter < 0 else letter)
    assert note_text(note, SymbolStyle(notes="german"))


def test_exact_says_what_is_left_out() -> None:
    assert write_exact(read("C13/E"), ("5", "11")) == "C13(no5,no11)/E"


@given(st.sampled_from("C Db F# Bb Abb B##".split()), st.sampled_from("C7 Cm C6/9 Cmaj7#11".split()))
def test_the_root_may_be_any_note(root: str, symbol: str) -> None:
    chord = read(root + symbol[1:])
    assert chord == Chord(Note.parse(root), read(symbol).kind, read(symbol).degrees)
