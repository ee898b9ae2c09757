"""Pictures as files: SVG that stands alone, and PNG by an optional library."""

from __future__ import annotations

import io
import sys
from xml.etree import ElementTree

import pytest
from fingerpost.course.model import Naming
from fingerpost.export.picture import PngUnavailable, png
from fingerpost.music.chord_symbol import read
from fingerpost.music.fretboard import Fretboard
from fingerpost.music.shape_text import read_shape
from fingerpost.render.layout import Facing
from fingerpost.render.look import Look
from fingerpost.render.standalone import shape_file, step_file
from PIL import Image

from .examples import loosening

NAMESPACE = "{http://www.w3.org/2000/svg}"


def texts(svg: str) -> list[str]:
    return [element.text or "" for element in ElementTree.fromstring(svg).iter(f"{NAMESPACE}text")]


def test_a_step_has_its_name_above_and_its_notes_below() -> None:
    made = loosening()
    shown = texts(step_file(made.steps[1], made.fretboard, Look()))
    assert shown[0] == "Gadd9"
    assert shown[-14:] == ["note", *"GADGBG", "interval", *"R95R3R"]


def test_names_notes_and_paper_can_be_left_out() -> None:
    made = loosening()
    svg = step_file(made.steps[1], made.fretboard, Look(), rows=False, named=False, paper=False)
    assert not {"Gadd9", "note"} & set(texts(svg))
    assert ElementTree.fromstring(svg).find(f"{NAMESPACE}rect") is None


def test_what_is_new_is_underlined_in_the_rows() -> None:
    made = loosening()
    lines = [
        element
        for element in ElementTree.fromstring(step_file(made.steps[1], made.fretboard, Look())).iter()
        if element.get("class") == "fp-row-line"
    ]
    assert len(lines) == 2


def test_a_shape_alone_can_be_drawn_too() -> None:
    svg = shape_file(read_shape("x32010"), Fretboard(), Look(facing=Facing(True, True)), Naming(read("C")))
    assert texts(svg)[0] == "C"
    assert "note" not in texts(svg)  # the rows stand side by side there, and their names have no room
    unnamed = shape_file(read_shape("x32010"), Fretboard(), Look(), Naming(None))
    assert ElementTree.fromstring(unnamed).findtext(f"{NAMESPACE}title") == "A shape without a name"


def test_a_png_has_the_width_asked_for_and_shows_ink_paper_and_turn() -> None:
    made = loosening()
    data = png(step_file(made.steps[2], made.fretboard, Look()), 330)
    assert data.startswith(b"\x89PNG\r\n\x1a\n")
    picture = Image.open(io.BytesIO(data)).convert("RGB")
    assert picture.width == 330
    colours = {colour for _, colour in picture.getcolors(1 << 20) or []}
    assert {(0x20, 0x30, 0x2F), (0xFF, 0xFD, 0xF8), (0xB3, 0x46, 0x1B)} <= colours


@pytest.mark.parametrize("width", [0, -5, 100_000])
def test_a_width_out_of_bounds_is_refused(width: int) -> None:
    with pytest.raises(ValueError, match="expected 1 to 8000"):
        png("<svg/>", width)


def test_without_the_library_the_error_names_the_extra(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(sys.modules, "resvg_py", None)
    with pytest.raises(PngUnavailable, match=r"fingerpost\[png\]"):
        png("<svg/>")
