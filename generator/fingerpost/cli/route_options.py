"""The options of `route`: read, and checked against the instrument and each other."""

from __future__ import annotations

import argparse
import re
from pathlib import Path
from typing import TYPE_CHECKING

from fingerpost.cli import instrument, key_option
from fingerpost.cli.answer import QuestionError, complain
from fingerpost.cli.route_question import Asked, reads, taught_shapes
from fingerpost.music.fretboard import Fretboard
from fingerpost.music.hand import Hand
from fingerpost.music.routes.conditions import Conditions
from fingerpost.music.routes.question import OPEN_POSITION
from fingerpost.music.routes.search import MOST_MOVES

if TYPE_CHECKING:
    from fingerpost.course.model import Course

MOST_ALTERNATIVES = 12


def read(args: argparse.Namespace) -> Asked:
    """Everything that the options ask for. Raises QuestionError where one can't be read, or two contradict."""
    course, fretboard, hand = None, instrument.fretboard(args), Hand()
    if args.taught is not None or args.only_taught:
        course, fretboard, hand = _course(args, fretboard)
    only = frozenset(shape for _, shape in taught_shapes(course, fretboard)) if course and args.only_taught else None
    conditions = Conditions(
        position=_position(args.position, fretboard),
        named=args.named,
        no_bar=args.no_bar,
        no_muted_inner=args.no_muted_inner,
        keep_ringing=frozenset(_string(word, fretboard) for word in args.keep_ringing),
        key=key_option.read(args.key),
        avoid=tuple(instrument.shape(text, fretboard) for text in args.avoid),
        only=only,
        at_most=None if args.at_most is None else _count("--at-most", args.at_most, 0, MOST_MOVES),
    )
    return Asked(fretboard, hand, conditions, _count("--alternatives", args.alternatives, 1, MOST_ALTERNATIVES), course)


def _course(args: argparse.Namespace, fretboard: Fretboard) -> tuple[Course, Fretboard, Hand]:
    from fingerpost.workspace.checked import check
    from fingerpost.workspace.course_folder import CourseUnreadableError, load

    path = args.taught or "."
    try:
        checked = check(load(Path(path)))
    except CourseUnreadableError as problem:
        after = f"; --taught takes {path!r} for the course's folder, so write it after the chords"
        raise QuestionError(problem.message + (after if reads(path) else ""), problem.fix) from problem
    if any(finding.severity == "error" for finding in checked.findings):
        complain(
            f"The course in {path} has errors, so what it teaches may be read wrongly", f"`fingerpost check {path}`"
        )
    own = args.tuning is None and args.strings is None and args.capo == "0"
    return checked.course, checked.settings.fretboard if own else fretboard, checked.settings.hand


def _position(text: str | None, fretboard: Fretboard) -> tuple[int, int] | None:
    if text is None:
        return None
    if text.casefold() == "open":
        return OPEN_POSITION
    found = re.fullmatch(r"([0-9]{1,2})(?:-([0-9]{1,2}))?", text)
    if found is None:
        raise QuestionError(f"--position is {text!r}; expected `open` or two frets", "--position 5-9")
    low, high = int(found[1]), int(found[2] or found[1])
    if low > high:
        raise QuestionError(f"--position {text} begins above where it ends", f"--position {high}-{low}")
    if not 1 <= low <= high <= fretboard.highest_fret:
        top = fretboard.highest_fret
        near = f"--position {min(max(low, 1), top)}-{min(max(high, 1), top)}"
        raise QuestionError(f"--position is {text!r}; expected frets from 1 to {top}", near)
    return low, high


def _string(word: str, fretboard: Fretboard) -> int:
    string = fretboard.tuning.string_called(word)
    if string is None and word.isascii() and word.isdigit() and 1 <= int(word) <= fretboard.strings:
        string = int(word)
    if string is None:
        letters = ", ".join(letter for letter in reversed(fretboard.tuning.letters) if letter)
        raise QuestionError(
            f"--keep-ringing is {word!r}; expected a string from 1 to {fretboard.strings}"
            + (f", or its letter ({letters})" if letters else "")
        )
    return string


def _count(option: str, text: str, least: int, most: int) -> int:
    if not (text.isascii() and text.isdigit() and len(text) < 4 and least <= int(text) <= most):
        raise QuestionError(f"{option} is {text!r}; expected a number from {least} to {most}")
    return int(text)
