"""Lessons laid out from a plan: cut where chords are met, even in difficulty, with rests; ready for words."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from fingerpost.music.fretboard import Fretboard
from fingerpost.music.move import Move, Place, Strum, write_move
from fingerpost.music.shape import Shape
from fingerpost.music.shape_text import write_shape
from fingerpost.music.tuning import STANDARD

REST_AFTER = 6
"""A lesson of more steps than this has a rest on its way too (common practice; no standard says how many)."""


@dataclass(frozen=True, slots=True)
class PlannedStep:
    """One step of a plan: the move as a lesson writes it, the shape, the chord that is met, None where it is passing.

    points: how hard the change is.
    """

    move: str
    shape: Shape
    chord: str | None
    points: float


@dataclass(frozen=True, slots=True)
class Planned:
    """A plan to be laid out: the first shape, its chord, and the steps."""

    start: Shape
    chord: str
    steps: tuple[PlannedStep, ...]
    fretboard: Fretboard


@dataclass(frozen=True, slots=True)
class Draft:
    """One lesson: the name of its file, its text, its chords in order, how many steps it has, and their points."""

    file: str
    text: str
    chords: tuple[str, ...]
    steps: int
    points: float


def drafts(plan: Planned, most_steps: int, name: str) -> tuple[Draft, ...]:
    """The lessons of a plan, none of more than so many steps unless two chords are further apart than that.

    name: what files and blocks are called, with a number after it.
    """
    lessons = list(_cut(plan.steps, most_steps))
    taught: set[str] = set()
    out: list[Draft] = []
    shape, chord = plan.start, plan.chord
    for number, steps in enumerate(lessons or [()], 1):
        part = Planned(shape, chord, tuple(steps), plan.fretboard)
        ident = f"{name}-{number}"
        out.append(_draft(part, ident, taught))
        taught.update(out[-1].chords)
        if steps:
            shape, chord = steps[-1].shape, steps[-1].chord or chord
    return tuple(out)


def _cut(steps: Sequence[PlannedStep], most_steps: int) -> Iterator[Sequence[PlannedStep]]:
    """As few lessons as the length allows, cut where a chord is met; of these the ones most even in points."""
    ends = [0, *(place for place, step in enumerate(steps, 1) if step.chord is not None)]
    best: dict[int, tuple[tuple[int, float], list[int]]] = {0: ((0, 0.0), [0])}
    for place, end in enumerate(ends[1:], 1):
        fits = [start for start in ends[:place] if end - start <= most_steps] or [ends[place - 1]]
        ways = []
        for start in fits:
            (lessons, uneven), cuts = best[start]
            points = sum(step.points for step in steps[start:end])
            ways.append(((lessons + 1, uneven + points**2), [*cuts, end]))
        best[end] = min(ways)
    return (steps[start:end] for start, end in pairwise(best[ends[-1]][1]))


def _draft(part: Planned, ident: str, taught: set[str]) -> Draft:
    chords = tuple(dict.fromkeys([part.chord, *(step.chord for step in part.steps if step.chord)]))
    title = _listed(chords)
    new = [chord for chord in chords if chord not in taught]
    keys = [f"id: {ident}", *_instrument(part.fretboard), f"start: {_start(part.start, part.fretboard)} = {part.chord}"]
    keys += [f"teaches: [{', '.join(new)}]"] if new else []
    lines = ["```moves", *keys, "steps:", *_lines(part), "```"]
    text = "\n".join(
        [
            f"# {title}", "", "<!-- Your words: what this lesson is about. -->", "",
            *lines, "", "<!-- Your words: what to listen for. -->", "",
        ]
    )  # fmt: skip
    return Draft(f"{ident}.md", text, chords, len(part.steps), round(sum(step.points for step in part.steps), 3))


def _start(shape: Shape, board: Fretboard) -> str:
    """A shape as fingers that are put down, from the lowest fret; as text where no finger is down."""
    if not shape.presses or not shape.has_fingers:
        return write_shape(shape)
    down = sorted(shape.presses, key=lambda press: (press.fret, -press.low))
    moves: list[Move] = [Place(p.finger, p.fret, p.low, p.high) for p in down if p.finger is not None]
    if shape.unstruck:
        moves.append(Strum(frozenset(shape.sounding_strings)))
    return ", ".join(write_move(move, board.tuning).replace(" to ", " ", 1) for move in moves)


def _instrument(board: Fretboard) -> Iterator[str]:
    if board.tuning != STANDARD:
        yield f"tuning: {board.tuning.name}"
    if board.capo:
        yield f"capo: {board.capo}"


def _lines(part: Planned) -> Iterator[str]:
    """The steps; in a long lesson a rest where the chord is met that is nearest its middle, and one at the end."""
    half = _resting_place(part.steps)
    for place, step in enumerate(part.steps):
        yield f"- {step.move} passing" if step.chord is None else f"- {step.move} = {step.chord}"
        if place == half:
            yield from ("- rest", f"- back = {step.chord}")
    yield "- rest" if part.steps else "- hold"


def _resting_place(steps: Sequence[PlannedStep]) -> int | None:
    if len(steps) <= REST_AFTER:
        return None
    met = [place for place, step in enumerate(steps[:-1]) if step.chord is not None]
    return min(met, key=lambda place: (abs(2 * (place + 1) - len(steps)), place), default=None)


def _listed(chords: Sequence[str]) -> str:
    return chords[0] if len(chords) == 1 else f"{', '.join(chords[:-1])} and {chords[-1]}"


def is_name(text: str) -> bool:
    """Whether files and blocks can be called so."""
    return re.fullmatch(r"[a-z][a-z0-9]*(-[a-z0-9]+)*", text) is not None and len(text) <= 60
