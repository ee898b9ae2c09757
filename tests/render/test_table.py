"""The table that hangs on the strings."""

from __future__ import annotations

from fingerpost.course.table import table
from fingerpost.music.chord_symbol import read
from fingerpost.music.fretboard import Fretboard
from fingerpost.music.shape_text import read_shape
from fingerpost.music.tuning import parse_tuning
from fingerpost.render.layout import COLUMN, GUTTER, Layout
from fingerpost.render.table import string_table
from fingerpost.render.voice import Voice
from fingerpost.render.window import window

from .markup import Markup


def rows(after: str, before: str | None = None, chord: str = "G", neck: Fretboard | None = None) -> str:
    neck = neck or Fretboard()
    old = read_shape(before, neck.strings) if before else None
    name = read(chord)
    sounding = name.transposed(neck.capo) if neck.capo else None
    made = table(read_shape(after, neck.strings), old, name, sounding, neck)
    return string_table(made, Voice(tuning=neck.tuning), capo=neck.capo > 0)


def cells(text: str, kind: str) -> list[str]:
    body = text[text.index(f'<tr class="fp-row-{kind}">') :]
    row = Markup(body[: body.index("</tr>") + 5])
    return [word for word in row.words if word.strip()][1:]


def test_it_is_a_real_table_with_a_caption_and_scopes() -> None:
    page = Markup(rows("320003/21---3"))
    assert len(page.named("caption")) == 1
    heads = page.named("th")
    assert [head["scope"] for head in heads] == ["row", *["col"] * 6, *["row"] * 4]
    assert heads[1]["aria-label"] == "string 6, E"
    assert heads[6]["aria-label"] == "string 1, e"


def test_fret_finger_note_and_interval_are_read_straight_down() -> None:
    text = rows("320003/21---3")
    assert cells(text, "fret") == ["3", "2", "0", "0", "0", "3"]
    assert cells(text, "finger") == ["2", "1", "–", "–", "–", "3"]
    assert cells(text, "note") == ["G", "B", "D", "G", "B", "G"]
    assert cells(text, "interval") == ["R", "3", "5", "R", "3", "R"]


def test_what_changed_is_underlined_and_said() -> None:
    text = rows("300003/2----3", "320003/21---3")
    page = Markup(text)
    assert len(page.classed("fp-new")) == 3
    assert len(page.named("ins")) == 3
    assert cells(text, "note") == ["G", "A", " changed", "D", "G", "B", "G"]


def test_accidentals_are_true_signs_and_read_as_words() -> None:
    text = rows("x13331/-12341", chord="Bb")
    assert '<span role="img" aria-label="B flat">B♭</span>' in text
    assert '<span role="img" aria-label="the third">3</span>' in text


def test_a_string_without_a_letter_goes_by_its_number() -> None:
    neck = Fretboard(parse_tuning("DADGAD"))
    heads = Markup(rows("000000", chord="Dsus4", neck=neck)).named("th")
    assert [head["aria-label"] for head in heads[1:7]] == [
        "string 6", "string 5", "string 4", "string 3, G", "string 2", "string 1",
    ]  # fmt: skip


def test_with_a_capo_both_notes_are_given() -> None:
    text = rows("320003/21---3", neck=Fretboard(capo=3))
    assert cells(text, "note")[0] == "G"
    assert cells(text, "sounds")[0] == "B♭"


def test_a_row_a_string_for_the_players_view() -> None:
    made = table(read_shape("320003/21---3"), None, read("G"), None, Fretboard())
    page = Markup(string_table(made, Voice(), transposed=True))
    heads = page.named("th")
    assert [head["scope"] for head in heads] == ["col"] * 5 + ["row"] * 6
    assert heads[5]["aria-label"] == "string 1, e"


def test_columns_stand_under_their_strings() -> None:
    # The head of a row is as wide as the gutter, so that equal columns in what is left stand under the strings.
    for strings, share in ((4, 22.3), (5, 18.8), (6, 16.2), (7, 14.2), (8, 12.7)):
        layout = Layout(strings, window((1,)))
        left, width = share / 100 * layout.across, layout.across * (1 - share / 100) / strings
        for column in range(strings):
            assert abs(left + width * (column + 0.5) - layout.string(strings - column)) < COLUMN / 8
        assert abs(left - GUTTER) < 3
