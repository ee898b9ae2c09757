"""The options that say which instrument a shape is on, and reading shapes by them."""

from __future__ import annotations

import argparse

from fingerpost.cli.answer import QuestionError
from fingerpost.music.fretboard import MOST_FRETS, Fretboard
from fingerpost.music.shape import Shape
from fingerpost.music.tuning import FEWEST_STRINGS, MOST_STRINGS, STANDARD, Tuning, parse_tuning

# The usual tuning by number of strings, where the question names only the number (common practice).
_USUAL = {4: "bass", 5: "B0 E1 A1 D2 G2", 6: "standard", 7: "seven strings", 8: "eight strings"}


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Adds --tuning, --strings and --capo."""
    parser.add_argument(
        "--tuning", metavar="TUNING", help="a name such as DADGAD, or pitches such as 'D2 A2 D3 G3 A3 D4'"
    )
    parser.add_argument(
        "--strings", metavar="N", help=f"{FEWEST_STRINGS} to {MOST_STRINGS} strings in their usual tuning"
    )
    parser.add_argument("--capo", metavar="FRET", default="0", help="the fret of the capo; shapes count from it")


def fretboard(args: argparse.Namespace) -> Fretboard:
    """The instrument that the options name. Raises QuestionError."""
    tuning = _tuning(args)
    if not (args.capo.isascii() and args.capo.isdigit() and int(args.capo) < MOST_FRETS // 2 + 1):
        raise QuestionError(f"--capo is {args.capo!r}; expected a fret from 0 to {MOST_FRETS // 2}")
    return Fretboard(tuning, int(args.capo))


def _tuning(args: argparse.Namespace) -> Tuning:
    if args.strings is not None and args.strings not in {str(count) for count in _USUAL}:
        raise QuestionError(f"--strings is {args.strings!r}; expected {FEWEST_STRINGS} to {MOST_STRINGS}")
    if args.tuning is None:
        return STANDARD if args.strings is None else parse_tuning(_USUAL[int(args.strings)])
    try:
        tuning = parse_tuning(args.tuning)
    except ValueError as problem:
        raise QuestionError(str(problem)) from problem
    if args.strings is not None and tuning.strings != int(args.strings):
        raise QuestionError(f"--tuning {args.tuning} has {tuning.strings} strings, but --strings says {args.strings}")
    return tuning


def shape(text: str, board: Fretboard) -> Shape:
    """Reads a shape for this instrument. Raises QuestionError."""
    from fingerpost.music.shape_text import ShapeError, read_shape

    try:
        read = read_shape(text, board.strings)
    except ShapeError as problem:
        raise QuestionError(f"{text!r} is no shape: {problem}", _nearest(text, board)) from problem
    if any(press.fret > board.highest_fret for press in read.presses):
        raise QuestionError(f"{text!r} needs more frets than the {board.highest_fret} this neck has")
    return read


def _nearest(text: str, board: Fretboard) -> str:
    """What to write instead of a shape that could not be read: it may be one of another number of strings."""
    from fingerpost.music.shape_text import ShapeError, read_shape

    for strings in _USUAL:
        if strings != board.strings:
            try:
                read_shape(text, strings)
            except ShapeError:
                continue
            return f"--strings {strings}, if it is for an instrument of {strings} strings"
    return f"a fret for each string, such as {'x32010'[-board.strings :].rjust(board.strings, 'x')}"
