"""Which frets a picture shows: at least four, more where a shape or the place a finger came from asks for it."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

FEWEST_ROWS = 4
MOST_ROWS = 6
NUT_UP_TO = 5


@dataclass(frozen=True, slots=True)
class Window:
    """Stretches of frets from first to last, both counted from the capo; two where the hand travels far."""

    parts: tuple[tuple[int, int], ...]

    @property
    def frets(self) -> tuple[int, ...]:
        """Every fret shown, in order."""
        return tuple(fret for first, last in self.parts for fret in range(first, last + 1))

    @property
    def at_nut(self) -> bool:
        """Whether the nut (or the capo) is in the picture."""
        return self.parts[0][0] == 1


def _stretch(first: int, last: int, rows: int, highest: int) -> tuple[int, int]:
    """At least `rows` frets that hold first to last; from the nut where they are close to it."""
    if last <= NUT_UP_TO:
        return 1, max(last, rows)
    first = max(1, min(first, highest - rows + 1))
    return first, max(last, first + rows - 1)


def window(frets: Iterable[int], highest: int = 24) -> Window:
    """The window for all these frets (open strings left out); far-apart frets give two stretches with a break."""
    used = sorted({fret for fret in frets if fret > 0})
    if not used:
        return Window(((1, FEWEST_ROWS),))
    first, last = _stretch(used[0], used[-1], FEWEST_ROWS, highest)
    if last - first < MOST_ROWS or len(used) == 1:
        return Window(((first, last),))
    gap = max(range(1, len(used)), key=lambda index: used[index] - used[index - 1])
    low = _stretch(used[0], used[gap - 1], 2, highest)
    high = _stretch(used[gap], used[-1], 2, highest)
    if high[0] <= low[1] + 2:
        return Window(((first, last),))
    return Window((low, high))
