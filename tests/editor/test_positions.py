"""Places between an editor and us: every encoding of the Language Server Protocol 3.17, any text."""

from __future__ import annotations

from fingerpost.editor.open_texts import changed, path_of, uri_of
from fingerpost.editor.positions import UNITS, Lines, whole
from hypothesis import given
from hypothesis import strategies as st
from lsprotocol import types

TEXTS = st.text(st.sampled_from("ab \r\n\u2028\u0085\u00e9\u266d\U0001d11e\U0001f3b8\ufeff\t"), max_size=30).map(whole)
ENCODINGS = st.sampled_from(sorted(UNITS))


def test_the_standards_own_example() -> None:
    """LSP 3.17, "Position": in `a𐐀b` the character b is at 3 in UTF-16 and at 5 in UTF-8; code points: 2."""
    for encoding, character in (("utf-16", 3), ("utf-8", 5), ("utf-32", 2)):
        lines = Lines("a\U00010400b", encoding)
        assert lines.to_client(1, 3) == (0, character)
        assert lines.from_client(0, character) == (1, 3)


@given(TEXTS, ENCODINGS, st.data())
def test_there_and_back_is_the_same_place(text: str, encoding: str, data: st.DataObject) -> None:
    lines = Lines(text, encoding)
    line = data.draw(st.integers(1, len(lines.starts)))
    column = data.draw(st.integers(1, len(lines.line(line)) + 1))
    assert lines.from_client(*lines.to_client(line, column)) == (line, column)


@given(TEXTS, ENCODINGS, st.integers(0, 50), st.integers(0, 200))
def test_a_place_that_is_not_there_is_cut_to_one_that_is(text: str, encoding: str, line: int, character: int) -> None:
    lines = Lines(text, encoding)
    found, column = lines.from_client(line, character)
    assert 1 <= found <= len(lines.starts)
    assert 1 <= column <= len(lines.line(found)) + 1
    assert 0 <= lines.offset(line, character) <= len(text)


@given(TEXTS, TEXTS, ENCODINGS, st.data())
def test_a_change_lands_where_it_was_made(text: str, new: str, encoding: str, data: st.DataObject) -> None:
    """Against Python's own slicing and codecs; a place between CR and LF is none."""
    places = [at for at in range(len(text) + 1) if text[at - 1 : at + 1] != "\r\n"]
    start, end = sorted((data.draw(st.sampled_from(places)), data.draw(st.sampled_from(places))))
    ranged = types.Range(_position(text, start, encoding), _position(text, end, encoding))
    change = types.TextDocumentContentChangePartial(ranged, new)
    assert changed(Lines(text, encoding), change) == text[:start] + new + text[end:]


def _position(text: str, at: int, encoding: str) -> types.Position:
    """The place as an editor would count it, by the codecs of Python."""
    before = text[:at].replace("\r\n", "\n").replace("\r", "\n").split("\n")
    wide = {"utf-8": ("utf-8", 1), "utf-16": ("utf-16-le", 2), "utf-32": ("utf-32-le", 4)}[encoding]
    return types.Position(len(before) - 1, len(before[-1].encode(wide[0])) // wide[1])


@given(st.text(max_size=20))
def test_no_half_character_gets_in(text: str) -> None:
    whole("\ud83d" + text + "\udc00").encode("utf-8")


def test_the_mark_at_the_beginning_is_no_column() -> None:
    lines = Lines("\ufeff# A")
    assert lines.to_client(1, 1) == (0, 1)
    assert lines.from_client(0, 1) == (1, 1)
    assert lines.plain == "# A"


def test_addresses(tmp_path) -> None:
    path = tmp_path / "Wind & fog, 50 % é.md"
    assert path_of(uri_of(path)) == path
    for other in ("untitled:Untitled-1", "file://[half", "file:///a%00b", "https://example.org/a.md", ""):
        assert path_of(other) is None
