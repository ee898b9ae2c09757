"""The demo course's blocks, each able to stand by itself, with a few characters, words, lines or sentences changed."""

from __future__ import annotations

import re
from pathlib import Path
from random import Random

from fingerpost.course.build import build
from fingerpost.course.settings import Settings
from fingerpost.music.shape_text import write_shape
from fingerpost.source.page import read_page

from . import generated
from .hostile import text

COURSE = Path(__file__).parents[2] / "course"
GOES_ON = re.compile(r"^start: (?:previous|as taught).*$", re.MULTILINE)
SENTENCE = re.compile(r"^(?:title|  say): ")


def seeds() -> list[list[str]]:
    """The lines of every block of the demo course; one that goes on from another starts from its shape in full."""
    names = re.findall(r": ([a-z0-9-]+\.md)$", (COURSE.parent / "mkdocs.yml").read_text("utf-8"), re.MULTILINE)
    made, _ = build([read_page(name, (COURSE / name).read_text("utf-8")) for name in names], Settings(), None, False)
    blocks = ((lesson.file, block) for lesson in made.lessons for block in lesson.blocks)
    return [_alone(COURSE / file, block.span.line, block.span.end_line, write_shape(block.steps[0].shape))
            for file, block in blocks]  # fmt: skip


def _alone(page: Path, first: int, last: int, shape: str) -> list[str]:
    body = "\n".join(page.read_text("utf-8").split("\n")[first : last - 1])
    return GOES_ON.sub(f"start: {shape}", body).split("\n")


def _character(lines: list[str], rng: Random) -> None:
    at = rng.randrange(len(lines))
    line = lines[at]
    place = rng.randrange(len(line) + 1)
    lines[at] = line[:place] + rng.choice((text(rng)[:1], "", " ", "2")) + line[place + rng.randrange(2) :]


def _word(lines: list[str], rng: Random) -> None:
    at = rng.randrange(len(lines))
    words = lines[at].split(" ")
    pieces = (generated.symbol(rng), generated.place(rng), text(rng), rng.choice(generated.FINGERS), "off", "to")
    words[rng.randrange(len(words))] = rng.choice(pieces)
    lines[at] = " ".join(words)


def _cut(lines: list[str], rng: Random) -> None:
    del lines[rng.randrange(len(lines))]


def _double(lines: list[str], rng: Random) -> None:
    lines.insert(rng.randrange(len(lines) + 1), rng.choice(lines))


def _swap(lines: list[str], rng: Random) -> None:
    one, two = rng.randrange(len(lines)), rng.randrange(len(lines))
    lines[one], lines[two] = lines[two], lines[one]


def _step(lines: list[str], rng: Random) -> None:
    lines.insert(rng.randrange(len(lines) + 1), "\n".join(generated.step(rng)))


CHANGES = (_character, _word, _word, _cut, _double, _swap, _step)


def changed(rng: Random, seed: list[str]) -> list[str]:
    """A block of the demo with one to four changes."""
    lines = list(seed)
    for _ in range(rng.choice((1, 1, 2, 4))):
        if len(lines) > 1:
            rng.choice(CHANGES)(lines, rng)
    return lines


def worded(rng: Random, seed: list[str]) -> list[str]:
    """A sound block of the demo whose sentences say what nobody should: it is drawn, so they reach the page."""
    lines = [f"{found[0]}x{text(rng)}" if (found := SENTENCE.match(line)) else line for line in seed]
    extra = f"  {rng.choice(('image: barometer.svg x', 'beats: ', 'id: ', 'pattern: ', 'cue: ', 'or: '))}{text(rng)}"
    return [*lines, extra] if rng.random() < 0.2 else lines
