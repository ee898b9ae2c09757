"""Ids of steps: they follow from the block and the change of shape, so renumbering and renaming keep them."""

from __future__ import annotations

import hashlib
from dataclasses import dataclass, field
from functools import lru_cache

from fingerpost.music.shape import Shape
from fingerpost.music.shape_text import write_shape

MARK_LENGTH = 6
REST = "rest"


@dataclass
class StepIds:
    """Hands out the ids of one block; the second step with the same change gets `-2` at its end.

    The frets in an id are there to be read by people, the mark at its end tells fingerings of the same frets apart.
    """

    block: str
    given: dict[str, int] = field(default_factory=dict)

    def start(self, shape: Shape) -> str:
        """The id of a start by its shape."""
        frets, whole = self._texts(shape)
        return self._next(f"{self.block}--start-{frets}-{_mark(whole)}")

    def change(self, before: Shape | None, after: Shape | None) -> str:
        """The id of a step by its change; None stands for a hand off the neck."""
        (frets, whole), (frets_after, whole_after) = self._texts(before), self._texts(after)
        return self._next(f"{self.block}--{frets}-to-{frets_after}-{_mark(f'{whole} {whole_after}')}")

    def _next(self, wanted: str) -> str:
        count = self.given[wanted] = self.given.get(wanted, 0) + 1
        return wanted if count == 1 else f"{wanted}-{count}"

    def _texts(self, shape: Shape | None) -> tuple[str, str]:
        """The frets, and all that makes the shape, the strings not struck included, in a fixed form."""
        return (REST, REST) if shape is None else _texts(shape)


@lru_cache(maxsize=4096)
def _texts(shape: Shape) -> tuple[str, str]:
    whole = f"{write_shape(shape)}~{','.join(map(str, sorted(shape.unstruck)))}"
    return write_shape(shape, fingers=False), whole


def _mark(text: str) -> str:
    return hashlib.sha256(text.encode()).hexdigest()[:MARK_LENGTH]
