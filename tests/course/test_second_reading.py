"""The second reading claims nothing of a course that holds together, and little work of one that does not."""

from __future__ import annotations

import random

import pytest
from fingerpost.course.build import build
from fingerpost.course.ground import ground_of
from fingerpost.course.meant.edits_near import candidates
from fingerpost.course.meant.one_slip import searched
from fingerpost.course.meant.thread import Strand, Thread
from fingerpost.course.meant.trial import MOST_TRIED
from fingerpost.course.perform import Held
from fingerpost.course.settings import Settings
from fingerpost.diagnostics import Severity
from fingerpost.music.chord_name import names
from fingerpost.music.fretboard import Fretboard
from fingerpost.music.hand import Hand
from fingerpost.music.neighbours import neighbours
from fingerpost.music.shape import Shape
from fingerpost.music.shape_text import read_shape, write_shape
from fingerpost.source.page import read_page
from hypothesis import given
from hypothesis import strategies as st

from .read_course import course

BOARD, HAND = Fretboard(), Hand()
STARTS = ("x32010/-32-1-", "x02210/--231-", "320003/21---3", "xx0232/---132", "133211/134211", "022000/-23---")


def _name(shape: Shape) -> str:
    pitches = [midi + fret for midi, fret in zip(BOARD.tuning.midi, shape.frets, strict=True) if fret is not None]
    return names({pitch % 12 for pitch in pitches}, min(pitches) % 12)[0].symbol


def _walk(rng: random.Random, blocks: int, steps: int) -> str:
    """A page of blocks that go on one from the other, of moves that a hand can make, under the names that they have."""
    shape = read_shape(rng.choice(STARTS), 6)
    text = []
    for number in range(blocks):
        shown = [_name(shape)] if number == 0 else []
        start = f"{write_shape(shape)} = {shown[0]}" if number == 0 else "previous"
        lines = []
        for _ in range(steps):
            move = rng.choice(neighbours(shape, BOARD, HAND, 5)[:12])
            shape = move.shape
            named = rng.random() < 0.8
            lines.append(f"- {move.move_text}" + (f" = {_name(shape)}" if named else ""))
            shown += [_name(shape)] if named else []
        head = f"id: b{number}\nstart: {start}\nteaches: [{', '.join(dict.fromkeys(shown))}, bar, hinge, slide]\n"
        text.append(f"```moves\n{head}steps:\n" + "\n".join(lines) + "\n```\n")
    return "# A walk\n\n" + "\n".join(text)


OF_THE_HAND = {"name-is-wrong", "name-is-loose", "finger-not-down", "impossible-hand", "impossible-move"}


@given(st.integers(0, 2**32), st.integers(1, 3), st.integers(1, 8))
def test_a_course_that_holds_together_is_left_alone(seed: int, blocks: int, steps: int) -> None:
    _, found = course(_walk(random.Random(seed), blocks, steps))
    said = [finding for finding in found if finding.severity is not Severity.NOTE]
    # `bar` and the like may not occur, and two names may meet on the same notes; but no step is wrong or missing.
    assert [f.message for f in said if str(f.code) in OF_THE_HAND or "missing" in f.message] == []


@pytest.mark.parametrize("lines", [100, 400])
def test_a_hostile_block_costs_a_bounded_search(lines: int) -> None:
    cycle = ("- 3 to A3 = C", "- 3 to G2 = Am", "- 3 off = Am7", "- 3 to G2 = Am")
    steps = [cycle[at % 4] if at < 20 or at % 3 else "- 3 off = C" for at in range(lines)]
    page = read_page("p.md", "```moves\nid: a\nstart: x02210/--231- = Am\nsteps:\n" + "\n".join(steps) + "\n```\n")
    syntax = page.syntax.blocks[0]
    thread = Thread((Strand(syntax, held=Held(read_shape("x02210/--231-", 6))),))
    trial, search = searched(thread, ground_of(syntax, Settings()).ground)
    assert search is not None
    for candidate in candidates(search):
        trial.holds(candidate.held, candidate.first)
    assert trial.done <= 2 * MOST_TRIED


@pytest.mark.parametrize("at", [0, 48, 92])
def test_a_block_of_ordinary_length_is_read_again_in_full(at: int) -> None:
    """Finger 4 is put down where finger 3 is to lift three lines on; a hundred lines then hold to the last."""
    cycle = ["- 3 to G2 = Am", "- 1 off = Asus2", "- 1 to B1 = Am", "- 3 off = Am7"]
    steps = cycle * 25
    steps[at] = "- 4 to G2 = Am"
    text = "```moves\nid: a\nstart: 2 D2, 1 B1 = Am7\nsteps:\n" + "\n".join(steps) + "\n```\n"
    _, found = build([read_page("p.md", text)], Settings())
    errors = [finding for finding in found if finding.severity is Severity.ERROR]
    assert [(error.span.line, error.span.column, error.fix) for error in errors] == [(5 + at, 3, "3 to G2")]
