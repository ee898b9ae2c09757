"""Pages to fuzz with: one block each between prose with a mention, its fence longer than any within."""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from random import Random

from . import generated, mutated
from .hostile import text


@dataclass
class Pages:
    """Makes page after page from one seed; the same seed makes the same pages."""

    seed: int
    rng: Random = field(init=False)
    seeds: list[list[str]] = field(default_factory=mutated.seeds)

    def __post_init__(self) -> None:
        self.rng = Random(self.seed)

    def next(self) -> str:
        """A page: a third each of generated blocks, of the demo's with changes, of sound ones with hostile words."""
        rng = self.rng
        kind = rng.randrange(3)
        seed = rng.choice(self.seeds)
        lines = generated.block(rng) if kind == 0 else (mutated.changed, mutated.worded)[kind - 1](rng, seed)
        return f"# Page\n\n{fenced(lines)}\n\n{mention(rng)}\n"


def fenced(lines: list[str]) -> str:
    """The lines in a fence that none of them can end: markup outside a block is the author's own affair."""
    body = "\n".join(lines)
    marks = "`" * max(3, *(len(run) + 1 for run in re.findall("`+", body)), 3)
    return f"{marks}moves\n{body}\n{marks}"


def mention(rng: Random) -> str:
    """A mention in prose; what would end its code span is left out."""
    words = rng.choice((generated.symbol(rng), text(rng), "a G", "one-door C")).replace("`", "").replace("\n", "")
    return f"Words `{rng.choice(('chord', 'now', 'step'))}: {words}` after."
