"""What `chain` is asked: where it begins, which strings are struck, and what every shape keeps to."""

from __future__ import annotations

import argparse
import re
from collections.abc import Sequence
from dataclasses import dataclass

from fingerpost.cli import route_options
from fingerpost.cli.answer import QuestionError
from fingerpost.cli.plan_options import points
from fingerpost.music.chord_symbol import read as read_chord
from fingerpost.music.fretboard import Fretboard
from fingerpost.music.plans.chord_graph import ChordGraph
from fingerpost.music.routes.hands import STRUCK, Grip, replace_struck
from fingerpost.music.routes.neck import Neck
from fingerpost.music.routes.question import End, Question

MOST_CHORDS = 100
_SEEDS = [
    root + kind for root in ("C", "C#", "D", "Eb", "E", "F", "F#", "G", "Ab", "A", "Bb", "B") for kind in ("", "m")
]
"""Where a chain may begin that is told nothing else: every major and minor chord."""


@dataclass(frozen=True, eq=False)
class Asked:
    """begins: whether the starts were asked for. no_beginning: what to say where none of them will do."""

    length: int
    graph: ChordGraph
    starts: Sequence[Grip]
    begins: bool
    no_beginning: tuple[str, str]


def read(args: argparse.Namespace) -> Asked:
    """Everything that the arguments ask for. Raises QuestionError."""
    length, asked = _length(args.length), route_options.read(args)
    ends = [asked.end(args.start)] if args.start else [End(name, (), read_chord(name)) for name in _SEEDS]
    question = Question(ends[0], ends[0], asked.fretboard, asked.hand, asked.conditions)
    neck = asked.atlas.neck(question)
    shapes = [shape for end in ends for shape in asked.atlas.shapes(end, question)]
    grips = [grip for shape in shapes if (grip := neck.grip(shape)) is not None]
    begins = args.start is not None
    unstruck = _unstruck(args.strum, asked.fretboard, _easiest(grips, neck) if begins and grips else 0)
    if begins:
        grips = [grip for grip in grips if grip[STRUCK] == unstruck]
    else:
        grips = [replace_struck(grip, unstruck) for grip in grips]
    graph = ChordGraph(neck, asked.conditions, unstruck, points("--hardest", args.hardest))
    return Asked(length, graph, grips, begins, _no_beginning(args))


def _no_beginning(args: argparse.Namespace) -> tuple[str, str]:
    if args.start is None:
        return "No plainly named shape keeps to what is asked", "fewer options"
    with_strings = " and strikes these strings" if args.strum else ""
    return f"{args.start} has no plainly named shape that keeps to what is asked{with_strings}", "another --start"


def _length(text: str) -> int:
    if not (text.isascii() and text.isdigit() and len(text) < 4 and 1 <= int(text) <= MOST_CHORDS):
        raise QuestionError(f"--length is {text!r}; expected a number of chords from 1 to {MOST_CHORDS}")
    return int(text)


def _easiest(grips: Sequence[Grip], neck: Neck) -> int:
    """The strings that the easiest of some grips leaves out."""
    return min(grips, key=lambda grip: (neck.hand.cost(neck.shape(grip), neck.fretboard), grip))[STRUCK]


def _unstruck(text: str | None, board: Fretboard, otherwise: int) -> int:
    """The strings that are not struck, bit 0 for string 1."""
    if text is None:
        return otherwise
    struck = 0
    for word in ("1-" + str(board.strings) if text == "all" else text).split():
        first, _, last = word.partition("-")
        ends = sorted((_string(first, text, board), _string(last or first, text, board)))
        struck |= sum(1 << string - 1 for string in range(ends[0], ends[1] + 1))
    return ((1 << board.strings) - 1) & ~struck


def _string(word: str, text: str, board: Fretboard) -> int:
    string = board.tuning.string_called(word)
    if string is None and re.fullmatch("[0-9]", word) and 1 <= int(word) <= board.strings:
        string = int(word)
    if string is None:
        raise QuestionError(
            f"--strum is {text!r}; expected strings from {board.strings} to 1 or their letters", "--strum 5-1"
        )
    return string
