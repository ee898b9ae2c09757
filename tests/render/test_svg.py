"""The SVG: well formed, without style attributes, each id its own, colours inline and legible."""

from __future__ import annotations

import re
from pathlib import Path
from xml.etree import ElementTree

import fingerpost.render.svg
from fingerpost.music.fretboard import Fretboard
from fingerpost.music.shape import Shape
from fingerpost.music.shape_text import read_shape
from fingerpost.music.transition import transition
from fingerpost.render import palette
from fingerpost.render.drawing import draw
from fingerpost.render.layout import Facing
from fingerpost.render.picture import Label, Picture, Role
from fingerpost.render.svg import number, svg, svg_file
from hypothesis import given, settings
from hypothesis import strategies as st

from .hands import changes

SHEET = (Path(fingerpost.render.svg.__file__).parent / "figures.css").read_text(encoding="utf-8")
NAMESPACE = "{http://www.w3.org/2000/svg}"


def picture(name: str = "", words: str = "") -> Picture:
    marks = (Label(Role.NUMERAL, 1, 2, name or "1", 20),)
    return Picture(100, 50, (), marks, name, words)


@settings(max_examples=200, deadline=None)
@given(st.text(), st.text(), st.text(min_size=1))
def test_any_text_gives_well_formed_xml_and_comes_back_as_text(name: str, words: str, ident: str) -> None:
    root = ElementTree.fromstring(svg(picture(name, words), ident))
    title = root.findtext(f"{NAMESPACE}title") or ""
    assert [child.tag for child in root] == [f"{NAMESPACE}{tag}" for tag in ("title", "desc", "g")]
    assert title == re.sub(r"[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f\ufffe\uffff\ud800-\udfff]", "", name).replace(
        "\r\n", "\n"
    ).replace("\r", "\n")


@settings(max_examples=150, deadline=None)
@given(changes(), st.booleans(), st.booleans())
def test_a_picture_needs_no_style_and_no_other_id(
    change: tuple[Shape, Shape, Fretboard], player: bool, left: bool
) -> None:
    before, after, neck = change
    text = svg(draw(after, neck, transition(before, after, neck), Facing(player, left)), "x")
    root = ElementTree.fromstring(text)
    assert " style=" not in text
    assert "<style" not in text
    assert [element.get("id") for element in root.iter() if element.get("id")] == ["x-t", "x-d"]
    assert root.get("role") == "img"
    assert root.get("aria-labelledby") == "x-t x-d"
    for element in root.iter():
        if element.get("class", "").startswith("fp-") and element.tag != f"{NAMESPACE}svg":
            dressed = {"fill", "stroke"} & set(element.attrib)
            assert dressed or element.get("class") == "fp-neck", ElementTree.tostring(element)


def test_coordinates_are_rounded() -> None:
    assert [number(value) for value in (1.0, 2.25, -0.04, 100.049, 1e-9)] == ["1", "2.2", "0", "100", "0"]
    assert not re.search(r"\d\.\d{3}", svg(draw(read_shape("x32010/-32-1-"), Fretboard()), "x"))


def test_how_a_picture_stands_is_written_so_that_a_page_can_turn_it() -> None:
    shape, neck = read_shape("x32010/-32-1-"), Fretboard()
    for player in (False, True):
        for left in (False, True):
            drawn = draw(shape, neck, facing=Facing(player, left))
            root = ElementTree.fromstring(svg(drawn, "x"))
            box = [float(part) for part in (root.get("data-turned") or "").split()]
            other = draw(shape, neck, facing=Facing(not player, left))
            assert box[2:] == [other.width, other.height]
            assert root.get("data-view") == ("player" if player else "upright")
            assert root.get("data-hand") == ("left" if left else "right")
            # Turned a quarter about the origin, the picture lies exactly in that view box.
            against = player == left
            corners = [(0.0, 0.0), (drawn.width, drawn.height)]
            turned = [(y, -x) if against else (-y, x) for x, y in corners]
            assert min(x for x, _ in turned) == box[0]
            assert min(y for _, y in turned) == box[1]


def test_a_file_stands_alone() -> None:
    drawn = draw(read_shape("x32010/-32-1-"), Fretboard())
    text = svg_file(drawn, "C<&>")
    assert text.startswith('<?xml version="1.0" encoding="UTF-8"?>\n<svg ')
    root = ElementTree.fromstring(text)
    assert root.get("width") == number(drawn.width)
    assert float(root.get("height") or 0) > drawn.height
    assert "C<&>" in [element.text for element in root.iter(f"{NAMESPACE}text")]
    assert root.find(f"{NAMESPACE}rect") is not None
    assert ElementTree.fromstring(svg_file(drawn, paper=False)).find(f"{NAMESPACE}rect") is None


def _luminance(colour: str) -> float:
    channels = [int(colour[start : start + 2], 16) / 255 for start in (1, 3, 5)]
    linear = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in channels]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(one: str, other: str) -> float:
    """The contrast ratio of two colours by WCAG 2.2's definition."""
    high, low = sorted((_luminance(one), _luminance(other)), reverse=True)
    return (high + 0.05) / (low + 0.05)


def test_marks_keep_three_to_one_and_words_four_and_a_half() -> None:
    paper = palette.PAPER
    assert round(contrast("#000000", "#ffffff"), 1) == 21.0  # WCAG 2.2, the largest ratio there is
    assert contrast(palette.FRET, paper) >= 3
    assert min(contrast(colour, paper) for colour in (palette.INK, palette.SOFT, palette.TURN)) >= 4.5


def test_the_style_sheet_for_other_themes_keeps_the_same_contrasts_in_light_and_dark() -> None:
    palettes = re.findall(r"\{ (--fp-paper:[^}]+)\}", SHEET)
    assert len(palettes) >= 3
    for written in palettes:
        colours = dict(re.findall(r"--fp-(\w+): (#[0-9a-f]{6})", written))
        assert contrast(colours["fret"], colours["paper"]) >= 3
        assert min(contrast(colours[name], colours["paper"]) for name in ("ink", "soft", "turn")) >= 4.5
        # In greyscale ink and turn are told apart by shape; the numeral on either must still be read.
        assert contrast(colours["paper"], colours["turn"]) >= 4.5


def test_every_role_has_a_look_and_a_rule_in_the_style_sheet() -> None:
    assert set(palette.ATTRIBUTES) == set(Role)
    only_in_files = {Role.ROW, Role.ROW_NEW, Role.ROW_LINE, Role.ROW_NAME, Role.HEADING}
    for role in set(Role) - only_in_files:
        assert re.search(rf"\.{role.value}\b(?!-)", SHEET), role


@given(changes(), st.text(max_size=6))
@settings(max_examples=25, deadline=None)
def test_an_element_is_written_as_the_library_would(change: tuple[Shape, Shape, Fretboard], text: str) -> None:
    before, after, neck = change
    drawn = draw(after, neck, transition(before, after, neck))
    labels = (Label(Role.ROW, 1, 2, text, 20), Label(Role.ROW, 1, 2, "a", 20, anchor="end", name=text, aloud="b & c"))
    for mark in (*drawn.neck, *drawn.marks, *labels):
        made = fingerpost.render.svg._ELEMENTS[type(mark)](mark)
        assert fingerpost.render.svg.element(mark) == made.tostring()
