"""Where things lie: from string and fret to a point of the picture, upright or as the player sees the neck.

Upright: the nut above, the highest-numbered string on the left. The player's view: who looks down at the neck sees the
highest-numbered (lowest) string nearest, so at the bottom, and the nut to the left; it is the upright picture
turned a quarter against the clock. For a left-handed player either one is mirrored from side to side.
"""

from __future__ import annotations

from dataclasses import dataclass

from fingerpost.render.picture import Point
from fingerpost.render.window import Window

COLUMN = 46.0
ROW = 46.0
GUTTER = 54.0
MARGIN = 4.0
HEAD = 45.0
FOOT = 6.0
SIGNS = 18.0
CAPO = 28.0
BREAK = 30.0
TEXT_ROW = 31.0


@dataclass(frozen=True, slots=True)
class Facing:
    """Which way the picture is turned: as the player sees the neck, and for which fretting hand."""

    player_view: bool = False
    left_handed: bool = False


UPRIGHT = Facing()


@dataclass(frozen=True, slots=True)
class Layout:
    """The measures of one picture in user units. `across` runs over the strings, `along` from the nut down the neck."""

    strings: int
    window: Window
    facing: Facing = UPRIGHT
    capo: int = 0
    capo_name: str = ""
    text_rows: int = 0

    @property
    def head(self) -> float:
        """Room before the first fret shown: open and silent marks, and a capo."""
        return HEAD + (CAPO if self.capo and self.window.at_nut else 0)

    @property
    def across(self) -> float:
        """Extent over the strings, the gutter with the fret numbers included."""
        return GUTTER + self.strings * COLUMN + MARGIN

    @property
    def neck_end(self) -> float:
        """Where the last fret shown ends."""
        return self.head + len(self.window.frets) * ROW + (len(self.window.parts) - 1) * BREAK

    @property
    def along(self) -> float:
        """Extent along the neck, with the rows of note names."""
        return self.neck_end + FOOT + self.text_rows * TEXT_ROW

    @property
    def size(self) -> tuple[float, float]:
        """Width and height of the picture."""
        return (self.along, self.across) if self.facing.player_view else (self.across, self.along)

    def at(self, across: float, along: float) -> Point:
        """The point of the picture for a place on the upright, right-handed one."""
        x, y = (along, self.across - across) if self.facing.player_view else (across, along)
        return (self.size[0] - x if self.facing.left_handed else x, y)

    def string(self, string: float) -> float:
        """How far across a string lies; a fraction lies between strings."""
        return GUTTER + COLUMN * (self.strings - string + 0.5)

    def fret(self, fret: int) -> float:
        """How far along the middle of a fret's space lies."""
        passed = 0.0
        for first, last in self.window.parts:
            if fret <= last:
                return self.head + passed + (fret - first + 0.5) * ROW
            passed += (last - first + 1) * ROW + BREAK
        raise ValueError(f"fret {fret} is not in the window {self.window.parts}")

    def place(self, string: float, fret: int) -> Point:
        """The point where a finger stands."""
        return self.at(self.string(string), self.fret(fret))

    def above(self, string: int) -> Point:
        """The point where a string's open or silent mark stands."""
        return self.at(self.string(string), SIGNS)
