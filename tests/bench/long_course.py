"""A long course for the benches: lessons of blocks that wander from shape to shape, each step with its right name."""

from __future__ import annotations

import random
from functools import cache
from pathlib import Path

from fingerpost.cli.sound import names_of
from fingerpost.music.fretboard import Fretboard
from fingerpost.music.hand import Hand
from fingerpost.music.neighbours import neighbours
from fingerpost.music.shape_text import read_shape, write_shape

STEPS_A_BLOCK = 10
STARTS = ("x32010/-32-1-", "x02210/--231-", "320003/21---3", "xx0232/---132", "022000/-23---", "x02220/--123-")
PROSE = (
    "The kettle is on and the rain gauge is read. Play each shape slowly; listen to the one string that changes.\n\n"
    "Leave a finger down wherever you can. What stays needs no thought, and a hand that thinks little is quiet.\n"
)
SETTINGS = """\
site_name: Bench
theme: {name: fingerpost, search_index_only: true}
markdown_extensions: [fenced_code]
plugins: [search%s]
"""


def walk(rng: random.Random, steps: int) -> str:
    """The lines of a block that wanders from shape to shape, one finger at a time, each step with its right name."""
    board, hand = Fretboard(), Hand()
    shape = read_shape(rng.choice(STARTS))
    lines = [f"start: {write_shape(shape)}", "steps:"]
    for _ in range(steps):
        moves = [found for found in neighbours(shape, board, hand) if names_of(found.shape, board)]
        found = rng.choice(moves[:12])
        lines += [
            f"- move: {found.move_text} = {names_of(found.shape, board)[0].symbol}",
            "  say: Once more, and slowly.",
        ]
        shape = found.shape
    return "\n".join(lines)


@cache
def walks() -> tuple[str, ...]:
    """A hundred different blocks; a longer course goes through them again under other ids."""
    rng = random.Random(17)
    return tuple(walk(rng, STEPS_A_BLOCK) for _ in range(100))


def lesson(number: int, blocks: int) -> str:
    """A page of prose with blocks between."""
    parts = [f"# Lesson {number}\n\n{PROSE}"]
    for index in range(blocks):
        name = f"lesson-{number}-{index}"
        body = walks()[(number * blocks + index) % len(walks())]
        parts.append(f"```moves\nid: {name}\ntitle: Part {index + 1}\n{body}\n```\n\n{PROSE}")
    return "\n".join(parts)


def course(folder: Path, lessons: int, blocks: int) -> Path:
    """Writes a course of so many lessons; its mkdocs.yml."""
    (folder / "docs").mkdir(parents=True)
    (folder / "docs" / "index.md").write_text(f"# Bench\n\n{PROSE}", encoding="utf-8")
    for number in range(lessons):
        text = lesson(number, blocks)
        (folder / "docs" / f"lesson-{number:04}.md").write_text(text, encoding="utf-8")
    (folder / "mkdocs.yml").write_text(SETTINGS % ", fingerpost", encoding="utf-8")
    return folder / "mkdocs.yml"
