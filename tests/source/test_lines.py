"""One line at a time: what it says, and for one that can't be read the whole finding (issue 3, item 5)."""

from __future__ import annotations

import pytest
from fingerpost.diagnostics import Span
from fingerpost.music import chord_symbol
from fingerpost.music.chord_name import names
from fingerpost.source.block_lines import without_comment
from fingerpost.source.grammar import LONGEST_LINE, Reading, read_cue, read_move, read_start, read_strum
from fingerpost.source.syntax import Token
from hypothesis import given
from hypothesis import strategies as st

from . import telling
from .cases import rows

WORDS = (
    *(
        "1",
        "2",
        "3",
        "4",
        "T",
        "7",
        "to",
        "off",
        "for",
        "and",
        ",",
        "=",
        "~",
        "@0:41",
        "@",
        "G2",
        "4:2",
        "E1-e1",
        "4:2–1:2",
    ),
    *(
        "shift",
        "+2",
        "mute",
        "by",
        "strum",
        "all",
        "A-e",
        "D",
        "hold",
        "rest",
        "back",
        "passing",
        "silent",
        "Em7",
        "C7(b9,#11)",
    ),
    *(
        "open",
        "previous",
        "after",
        "as taught",
        "x32010",
        "/",
        "-",
        "#",
        "é",
        "🎸",
        "\t",
        "\u00a0",
        "(",
        ")",
        "%",
        "<b>",
    ),
)
LINES = st.one_of(
    st.text(max_size=60),
    st.lists(st.sampled_from(WORDS), max_size=12).flatmap(
        lambda words: st.sampled_from(["", " ", "  "]).map(lambda blank: blank.join(words))
    ),
)
READERS = (read_move, read_start, read_strum, read_cue)


def sounding(mask: int) -> list[int]:
    """The pitch classes of a set written as twelve bits."""
    return [pitch_class for pitch_class in range(12) if mask >> pitch_class & 1]


def token(line: str) -> Token:
    """The line as it might stand in a file."""
    return Token(line, Span("page.md", 7, 3, 7, 3 + len(line)))


@pytest.mark.parametrize(("line", "reads"), rows("lines-moves.md"))
def test_a_move_line_says_what_it_says(line: str, reads: str) -> None:
    reading = read_move(token(line))
    assert reading.findings == ()
    assert reading.value is not None
    assert telling.move(reading.value) == reads


@pytest.mark.parametrize(("line", "reads"), rows("lines-starts.md"))
def test_a_start_says_what_it_says(line: str, reads: str) -> None:
    reading = read_start(token(line))
    assert reading.findings == ()
    assert reading.value is not None
    assert telling.start(reading.value) == reads


@pytest.mark.parametrize(("line", "expected"), rows("lines-unread.md"))
def test_a_line_that_cant_be_read_has_one_finding(line: str, expected: str) -> None:
    reading = read_move(token(line))
    (found,) = reading.findings
    fix = f" → `{found.fix}`" if found.fix else ""
    where = f"{found.span.column - 2}-{found.span.end_column - 2}"
    assert reading.value is None
    assert f"{where} {found.code}: {found.message}; expected {found.expected}{fix}" == expected


@pytest.mark.parametrize(("line", "expected"), [row for row in rows("lines-unread.md") if "→ `" in row[1]])
def test_every_fix_can_be_read(line: str, expected: str) -> None:
    fix = expected.rpartition("→ `")[2].removesuffix("`")
    assert read_move(without_comment(token(fix))).findings == ()


NAMES = sorted({chord_symbol.write(name.chord) for mask in range(1, 4096, 2) for name in names(sounding(mask), 0)[:1]})


@pytest.mark.parametrize(
    ("written", "meant"),
    [
        ("1 offf", "1 off"),
        ("hodl", "hold"),
        ("3 on G2", "3 to G2"),
        ("1 to B 1", "1 to B1"),
        ("1 off, 2 fo 3", "1 off, 2 for 3"),
    ],
)
def test_a_claimed_name_keeps_every_letter_when_its_move_is_mended(written: str, meant: str) -> None:
    """The names of every set of notes over C, such as Csus2, in which a speller sees `as`."""
    for name in NAMES:
        for mark in "=~":
            (found,) = read_move(token(f"{written} {mark} {name}")).findings
            assert found.fix == f"{meant} {mark} {name}"


@given(LINES)
def test_any_line_is_read_or_found_fault_with_at_a_place_inside_it(line: str) -> None:
    for reader in READERS:
        reading = reader(token(line))
        assert (reading.value is None) == bool(reading.findings)
        for finding in reading.findings:
            assert 3 <= finding.span.column <= finding.span.end_column <= 3 + len(line)
            assert finding.message
            assert finding.expected


@given(LINES)
def test_every_token_says_what_stands_at_its_place(line: str) -> None:
    for reader in READERS:
        for found in telling.tokens(reader(token(line)).value):
            assert line[found.span.column - 3 : found.span.end_column - 3] == found.text


@given(st.sampled_from([row[0] for row in rows("lines-moves.md")]), st.data())
def test_a_slip_of_one_character_is_read_or_found_at_its_word(line: str, data: st.DataObject) -> None:
    at = data.draw(st.integers(0, len(line) - 1))
    slip = data.draw(st.sampled_from("xQ9é-:,#(") | st.just(""))
    reading: Reading[object] = read_move(token(line[:at] + slip + line[at + 1 :]))
    assert reading.value is not None or len(reading.findings) == 1


def test_a_line_of_any_length_is_refused_unread() -> None:
    line = "1 to G2 " * LONGEST_LINE
    (found,) = read_move(token(line)).findings
    assert found.message == "This is too long for one move"
    assert found.span == token(line).span


def test_the_strum_of_a_block_may_say_the_word_or_not() -> None:
    said, left_out = read_strum(token("strum A-e")).value, read_strum(token("A-e")).value
    assert said is not None
    assert left_out is not None
    assert telling.action(said) == telling.action(left_out) == "strum A..e"
    (found,) = read_strum(token("A-e, hold")).findings
    assert found.expected == "strings only, such as `A-e` or `A D B`"


@pytest.mark.parametrize("text", ["0:41", "@0:41", " @ 0:41 "])
def test_a_cue_is_the_time_alone(text: str) -> None:
    cue = read_cue(token(text)).value
    assert cue is not None
    assert cue.text == "0:41"


@pytest.mark.parametrize("text", ["", "41", "0:60", "1:60:00", "0:4", "now", "0:41 1:00"])
def test_a_cue_that_is_no_time_is_found(text: str) -> None:
    assert len(read_cue(token(text)).findings) == 1


def test_an_empty_move_is_missing() -> None:
    (found,) = read_move(token("")).findings
    assert found.message == "A move is missing here"
