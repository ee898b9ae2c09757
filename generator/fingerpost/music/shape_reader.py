"""Reads a shape from text, in the form that `shape_text` describes, and says where text is no shape."""

from __future__ import annotations

import re
from dataclasses import dataclass

from fingerpost.music.fretboard import MOST_FRETS
from fingerpost.music.shape import Finger, Press, Shape
from fingerpost.music.tuning import FEWEST_STRINGS, MOST_STRINGS

_NONE = "-xX"
_HIDDEN = re.compile(r"([1-4Tt])=(\d{1,2}):(\d{1,2})(?:-(\d{1,2}):(\d{1,2}))?|[xX]=(\d{1,2})")


class ShapeError(ValueError):
    """Text that is no shape: position and length (code points, from 0) of what is wrong, and what was expected."""

    def __init__(self, message: str, position: int, length: int, expected: str) -> None:
        super().__init__(f"{message}; expected {expected}")
        self.message, self.position, self.length, self.expected = message, position, length, expected


@dataclass(frozen=True, slots=True)
class _Cell:
    """One string's entry in a part of the text: where it stands and what it says."""

    text: str
    position: int

    def error(self, message: str, expected: str) -> ShapeError:
        return ShapeError(message, self.position, max(1, len(self.text)), expected)


def read_shape(text: str, strings: int = 6) -> Shape:
    """Reads a shape on so many strings (4 to 8); without marks its presses have no fingers. Raises ShapeError."""
    if not FEWEST_STRINGS <= strings <= MOST_STRINGS:
        raise ValueError(f"{strings} strings; expected {FEWEST_STRINGS} to {MOST_STRINGS}")
    parts = _parts(text)
    cells = _fret_cells(parts[0], strings)
    frets = {strings - index: _fret(cell) for index, cell in enumerate(cells)}
    unstruck = frozenset(string for string, fret in frets.items() if fret is None)
    if len(parts) == 1:
        presses = tuple(Press(None, fret, string, string) for string, fret in frets.items() if fret)
        return Shape(strings, presses, unstruck)
    marks = _marks(parts[1], strings)
    held = _presses(frets, marks)
    held, not_struck = _hidden(parts[2], held, strings) if len(parts) == 3 else (held, frozenset[int]())
    damped = _damped(frets, marks, held)
    unstruck = unstruck - {string for string, _ in damped} | not_struck
    shape = Shape(strings, tuple(held.values()), unstruck, damped)
    _check_sound(shape, frets, parts[-1])
    return shape


def _parts(text: str) -> list[_Cell]:
    """The text cut at its slashes, without blanks around it."""
    start = len(text) - len(text.lstrip())
    cells: list[_Cell] = []
    for piece in text.strip().split("/"):
        cells.append(_Cell(piece, start))
        start += len(piece) + 1
    if len(cells) > 3:
        raise cells[3].error("a shape has no fourth part", "frets, then fingers after a slash")
    return cells


def _fret_cells(part: _Cell, strings: int) -> list[_Cell]:
    sample = "x32010" if strings == 6 else f"one of {strings} entries"
    if not part.text:
        raise part.error("there are no frets", f"a fret or x for each of {strings} strings, such as {sample}")
    cells: list[_Cell] = []
    position = part.position
    for piece in part.text.split("-") if "-" in part.text else part.text:
        cells.append(_Cell(piece, position))
        position += len(piece) + ("-" in part.text)
    for cell in cells:
        _fret(cell)
    _check_count(cells, part, strings, "fret or x")
    return cells


def _check_count(cells: list[_Cell], part: _Cell, strings: int, what: str) -> None:
    if len(cells) > strings:
        first = cells[strings]
        length = part.position + len(part.text) - first.position
        message = f"{len(cells)} strings are given"
        raise ShapeError(message, first.position, max(1, length), f"{strings}, one {what} a string")
    if len(cells) < strings:
        message = f"only {len(cells)} of {strings} strings are given"
        raise ShapeError(message, part.position, max(1, len(part.text)), f"{strings}, one {what} a string")


def _fret(cell: _Cell) -> int | None:
    if cell.text in ("x", "X"):
        return None
    if not (cell.text.isascii() and cell.text.isdigit()):
        said = f"{cell.text!r} is no fret" if cell.text else "a fret is missing"
        raise cell.error(said, f"a number from 0 to {MOST_FRETS}, or x for a string that is not struck")
    if len(cell.text) > 2 or int(cell.text) > MOST_FRETS:
        raise cell.error(f"there is no fret {cell.text}", f"0 to {MOST_FRETS}")
    return int(cell.text)


def _marks(part: _Cell, strings: int) -> dict[int, tuple[Finger | None, _Cell]]:
    cells = [_Cell(mark, part.position + index) for index, mark in enumerate(part.text)]
    for cell in cells:
        if cell.text not in _NONE and cell.text not in "1234Tt":
            raise cell.error(f"{cell.text!r} is no finger", "1, 2, 3, 4, T for the thumb, or - for none")
    _check_count(cells, part, strings, "finger or -")
    return {
        strings - index: (None if cell.text in _NONE else Finger.from_mark(cell.text), cell)
        for index, cell in enumerate(cells)
    }


def _presses(frets: dict[int, int | None], marks: dict[int, tuple[Finger | None, _Cell]]) -> dict[Finger, Press]:
    held: dict[Finger, Press] = {}
    for string, (finger, cell) in marks.items():
        fret = frets[string]
        if finger is None and fret:
            raise cell.error(f"string {string} at fret {fret} has no finger", "1, 2, 3, 4 or T")
        if finger is None or fret is None:
            continue
        if fret == 0:
            raise cell.error(f"string {string} is open, so no finger is on it", "-")
        first = held.get(finger, Press(finger, fret, string, string))
        if first.fret != fret:
            message = f"{finger.called} is at fret {first.fret} already"
            raise cell.error(message, f"another finger for string {string} at fret {fret}")
        held[finger] = Press(finger, fret, first.low, string)
    for press in held.values():
        _check_bar(press, frets, marks)
    return held


def _check_bar(press: Press, frets: dict[int, int | None], marks: dict[int, tuple[Finger | None, _Cell]]) -> None:
    assert press.finger is not None
    for string in press.strings:
        fret, (finger, cell) = frets[string], marks[string]
        bar = f"the bar of {press.finger.called} at fret {press.fret}"
        if fret is not None and fret < press.fret:
            what = "open" if fret == 0 else f"at fret {fret}"
            raise cell.error(f"string {string} is {what} inside {bar}", f"fret {press.fret} or higher")
        if fret == press.fret and finger != press.finger:
            raise cell.error(f"string {string} is pressed by {bar} already", press.finger.mark)


def _damped(
    frets: dict[int, int | None], marks: dict[int, tuple[Finger | None, _Cell]], held: dict[Finger, Press]
) -> tuple[tuple[int, Finger], ...]:
    out: list[tuple[int, Finger]] = []
    for string, (finger, cell) in marks.items():
        if finger is None or frets[string] is not None:
            continue
        press = held.get(finger)
        if press is None:
            message = f"string {string} does not sound and {finger.called} presses nothing that could damp it"
            raise cell.error(message, "-, or a finger that presses another string")
        if not press.covers(string):
            out.append((string, finger))
    return tuple(out)


def _hidden(part: _Cell, held: dict[Finger, Press], strings: int) -> tuple[dict[Finger, Press], frozenset[int]]:
    out, unstruck, position = dict(held), set[int](), part.position
    for piece in part.text.split(","):
        cell = _Cell(piece, position)
        position += len(piece) + 1
        match = _HIDDEN.fullmatch(piece)
        if match is None:
            raise cell.error(f"{piece!r} does not say where a finger is", "such as 1=6:1-1:1, or x=4")
        if match[6]:
            unstruck.add(_string(cell, match[6], strings))
            continue
        press = _hidden_press(cell, match, strings)
        assert press.finger is not None
        for finger, other in out.items():
            if finger != press.finger and press.clashes(other):
                raise cell.error(f"{finger.called} is there already", "a place that is free")
        out[press.finger] = press
    return out, frozenset(unstruck)


def _string(cell: _Cell, number: str, strings: int) -> int:
    if not 1 <= int(number) <= strings:
        raise cell.error(f"there is no string {number}", f"1 to {strings}")
    return int(number)


def _hidden_press(cell: _Cell, match: re.Match[str], strings: int) -> Press:
    low = _string(cell, match[2], strings)
    high = _string(cell, match[4] or match[2], strings)
    fret = int(match[3])
    if not 1 <= fret <= MOST_FRETS:
        raise cell.error(f"there is no fret {fret} to press", f"1 to {MOST_FRETS}")
    if match[5] and int(match[5]) != fret:
        raise cell.error("a bar lies at one fret", f"{match[4]}:{fret}")
    return Press(Finger.from_mark(match[1]), fret, max(low, high), min(low, high))


def _check_sound(shape: Shape, frets: dict[int, int | None], part: _Cell) -> None:
    """What the fingers make must be what the frets say."""
    for string, fret in frets.items():
        if shape.fret(string) != fret:
            made = "silent" if shape.fret(string) is None else f"at fret {shape.fret(string)}"
            raise part.error(f"the fingers make string {string} {made}", "silent" if fret is None else f"fret {fret}")
