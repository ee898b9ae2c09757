"""Rows of words under the strings, for a picture that stands alone: the notes and their intervals."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from fingerpost.render.layout import FOOT, GUTTER, TEXT_ROW, Layout
from fingerpost.render.picture import Label, Lines, Mark, Role

SIZE, NAME_SIZE = 21.0, 14.0
UNDER, HALF = 12.0, 11.0


@dataclass(frozen=True, slots=True)
class TextRow:
    """A row: its name, and for each string, highest-numbered first, what stands there and whether it is new."""

    name: str
    cells: tuple[tuple[str, bool], ...]


def row_marks(layout: Layout, rows: Sequence[TextRow]) -> list[Mark]:
    """The rows as marks, what is new underlined."""
    out: list[Mark] = []
    for number, row in enumerate(rows):
        along = layout.neck_end + FOOT + TEXT_ROW * (number + 0.45)
        if not layout.facing.player_view:  # where rows stand side by side their names have no room
            out.append(Label(Role.ROW_NAME, *layout.at(GUTTER / 2 + 2, along), row.name, NAME_SIZE))
        for column, (text, new) in enumerate(row.cells):
            x, y = layout.at(layout.string(layout.strings - column), along)
            out.append(Label(Role.ROW_NEW if new else Role.ROW, x, y, text, SIZE))
            if new:
                out.append(Lines(Role.ROW_LINE, ((x - HALF, y + UNDER, x + HALF, y + UNDER),)))
    return out
