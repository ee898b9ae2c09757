"""Shapes as text, read and written: `x32010`, `x-10-12-12-11-x`, `133211/134211`.

    shape   = frets [ "/" marks [ "/" hidden ] ]
    frets   = one character a string, 0 to 9 or x; or numbers and x joined by dashes, for frets over 9
    marks   = one character a string: 1 to 4, T for the thumb, - or x for none
    hidden  = item { "," item }
    item    = finger "=" string ":" fret [ "-" string ":" fret ]  |  "x=" string

The highest-numbered string comes first; x is not struck. A finger marked on several strings is a bar over all between.
A finger that presses elsewhere, marked on an x string, damps it. The third part is there only where the first two do
not show all: a finger behind another, on a string that is not struck, or a bar that reaches under other fingers;
`x=4` says that string 4, which a finger damps, is not struck either.
"""

from __future__ import annotations

from fingerpost.music.shape_reader import ShapeError, read_shape
from fingerpost.music.shape_writer import write_shape

__all__ = ["ShapeError", "read_shape", "write_shape"]
