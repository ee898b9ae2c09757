"""What `plan` and `lay-out` are asked: the chords, where to begin, and how hard a shape may be."""

from __future__ import annotations

import argparse
from typing import TYPE_CHECKING

from fingerpost.cli import route_options
from fingerpost.cli.answer import QuestionError, complain, each
from fingerpost.music.routes.question import Atlas, End, Question

if TYPE_CHECKING:
    from fingerpost.music.plans.plan import Planning

MOST_CHORDS = 400


def read(args: argparse.Namespace) -> Planning:
    """The search that is asked for, not yet begun. Raises QuestionError."""
    from fingerpost.music.plans.plan import Planning

    asked = route_options.read(args)
    start = [] if args.start is None else [asked.end(args.start)]
    wish = once([*start, *(asked.end(word) for line in each(args.chords) for word in line.split())], bool(start))
    if not wish:
        raise QuestionError("No chords were named", "`fingerpost plan C Am F`")
    if len(wish) > MOST_CHORDS:
        raise QuestionError(f"{len(wish)} chords are too many for one plan; expected {MOST_CHORDS} at most")
    ends = [end for end in wish if not end.chosen] or wish
    question = Question(ends[0], ends[-1], asked.fretboard, asked.hand, asked.conditions)
    return Planning(wish, question, Atlas(), bool(start), points("--hardest", args.hardest))


def once(wish: list[End], started: bool) -> list[End]:
    """Each chord once, in the order of the wish; one that is named twice is said so on standard error."""
    kept: list[End] = []
    for number, end in enumerate(wish):
        known = [other for other in kept if (other.chord or other.shapes) == (end.chord or end.shapes)]
        if not known:
            kept.append(end)
        elif not (started and known[0] is wish[0] and number):
            complain(f"{end.text} is named twice; it is met once")
    return kept


def points(option: str, text: str | None) -> float | None:
    """A number of points, None where none is given. Raises QuestionError."""
    if text is None:
        return None
    try:
        value = float(text)
    except ValueError:
        value = -1.0
    if not 0 <= value <= 1000:
        raise QuestionError(f"{option} is {text!r}; expected points from 0 to 1000", f"{option} 6")
    return value
