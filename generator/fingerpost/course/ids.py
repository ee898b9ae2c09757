"""Ids of steps: they follow from the block and the change of shape, so renumbering and renaming keep them."""

from __future__ import annotations

import hashlib
from dataclasses import dataclass, field

from fingerpost.music.shape import Shape
from fingerpost.music.shape_text import write_shape

MARK_LENGTH = 6
REST = "rest"


def change_id(block: str, before: Shape | None, after: Shape | None) -> str:
    """The id of a step by its change; before is None for a start, either is None for a hand off the neck.

    The frets are there to be read by people, the mark at the end tells fingerings of the same frets apart.
    """
    ends = f"{_frets(before)}-to-{_frets(after)}"
    mark = hashlib.sha256(f"{_whole(before)} {_whole(after)}".encode()).hexdigest()[:MARK_LENGTH]
    return f"{block}--{ends}-{mark}"


def start_id(block: str, shape: Shape) -> str:
    """The id of a start by its shape."""
    mark = hashlib.sha256(_whole(shape).encode()).hexdigest()[:MARK_LENGTH]
    return f"{block}--start-{_frets(shape)}-{mark}"


def _frets(shape: Shape | None) -> str:
    return REST if shape is None else write_shape(shape, fingers=False)


def _whole(shape: Shape | None) -> str:
    """All that makes the shape, the strings not struck included, in a fixed form."""
    return REST if shape is None else f"{write_shape(shape)}~{','.join(map(str, sorted(shape.unstruck)))}"


@dataclass
class Occurrences:
    """Hands out ids within one block: the second step with the same change gets `-2` at its end."""

    given: dict[str, int] = field(default_factory=dict)

    def id(self, wanted: str) -> str:
        """The id itself at first, later with its number."""
        count = self.given[wanted] = self.given.get(wanted, 0) + 1
        return wanted if count == 1 else f"{wanted}-{count}"
