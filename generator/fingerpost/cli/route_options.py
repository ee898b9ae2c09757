"""The options of `route`: read, checked against each other, and made into questions."""

from __future__ import annotations

import argparse
import re
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import TYPE_CHECKING

from fingerpost.cli import instrument
from fingerpost.cli.answer import QuestionError, complain
from fingerpost.music.chord import Chord
from fingerpost.music.chord_symbol import SymbolError, write
from fingerpost.music.chord_symbol import read as read_chord
from fingerpost.music.fretboard import Fretboard
from fingerpost.music.hand import Hand
from fingerpost.music.key import Key
from fingerpost.music.routes.conditions import Conditions
from fingerpost.music.routes.question import OPEN_POSITION, Atlas, End, Question
from fingerpost.music.routes.search import MOST_MOVES
from fingerpost.music.shape import Shape

if TYPE_CHECKING:
    from fingerpost.course.model import Course

MOST_ALTERNATIVES = 12


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Adds what a route can be asked to keep to."""
    low, high = OPEN_POSITION
    parser.add_argument("--position", metavar="FRETS", help=f"`open` (frets {low} to {high}), or LOW-HIGH such as 5-9")
    parser.add_argument("--named", action="store_true", help="every shape on the way has a plain name")
    parser.add_argument("--no-bar", action="store_true", help="no finger bars")
    parser.add_argument("--no-muted-inner", action="store_true", help="no silent string between struck ones")
    parser.add_argument(
        "--keep-ringing", metavar="STRING", action="append", default=[],
        help="a string, by number or letter, that sounds all the way",
    )  # fmt: skip
    parser.add_argument("--key", metavar="KEY", help="only notes of this key sound, such as G or Em")
    parser.add_argument(
        "--avoid", metavar="SHAPE", nargs="+", action="extend", default=[],
        help="shapes not to be met; with fingers, only so",
    )  # fmt: skip
    parser.add_argument("--at-most", metavar="N", help="at most so many moves")
    parser.add_argument("--alternatives", metavar="K", default="1", help="so many routes that really differ")
    parser.add_argument(
        "--taught", metavar="PATH", nargs="?", const=".",
        help="a chord means the shapes that this course teaches; its tuning and its hand are used (write it last)",
    )  # fmt: skip
    parser.add_argument("--only-taught", action="store_true", help="so do all shapes on the way")


@dataclass(frozen=True)
class Asked:
    """What the options ask for; ends are read by it. course: the course whose shapes the chords stand for."""

    fretboard: Fretboard
    hand: Hand
    conditions: Conditions
    alternatives: int
    course: Course | None = None
    atlas: Atlas = field(default_factory=Atlas)

    def question(self, start: str, end: str) -> Question:
        """The question for a route from start to end. Raises QuestionError."""
        ends = (self._end(start), self._end(end))
        for place, one in zip(("starts", "ends"), ends, strict=True):
            if not one.chosen and "avoid" in self.conditions.broken_by(one.shapes[0], self.fretboard):
                raise QuestionError(f"--avoid names {one.text}, where the route {place}", "leave it out of --avoid")
        return Question(*ends, self.fretboard, self.hand, self.conditions)

    def _end(self, text: str) -> End:
        return self._chord(text) if re.match(r"[A-WYZa-wyz]", text) else self._shape(text)

    def _shape(self, text: str) -> End:
        from fingerpost.cli.sound import fingered

        shape = fingered(text, self.fretboard, self.hand)
        if not shape.sounding_strings:
            raise QuestionError(f"In {text!r} no string sounds, so a route can neither start nor end there")
        if shape.damped:
            plain = replace(shape, damped=(), unstruck=shape.unstruck | {string for string, _ in shape.damped})
            raise QuestionError(f"In {text!r} a finger damps a string; a route cannot count on that", _written(plain))
        for fault in self.hand.faults(shape, self.fretboard):
            if fault.limit in ("one_fret", "one_spot", "neck"):
                raise QuestionError(f"Nobody can hold {text!r}: {fault.message}")
        return End(text, (shape,))

    def _chord(self, text: str) -> End:
        chord = chord_called(text)
        if self.course is None:
            return End(text, (), chord)
        taught = taught_shapes(self.course, self.fretboard)
        shapes = tuple(dict.fromkeys(shape for known, shape in taught if known == chord))
        if not shapes:
            names = ", ".join(dict.fromkeys(write(known) for known, _ in taught)) or "none on this neck"
            raise QuestionError(f"This course teaches no {text}; the chords that it teaches: {names}")
        return End(text, shapes, chord)


def _written(shape: Shape) -> str:
    from fingerpost.music.shape_text import write_shape

    return write_shape(shape)


def chord_called(text: str) -> Chord:
    """The chord of a symbol. Raises QuestionError with the nearest way to write it."""
    try:
        return read_chord(text)
    except SymbolError as problem:
        near = text[:1].upper() + text[1:]
        fix = (
            f"{near}, or a shape such as x32010"
            if near != text and _reads(near)
            else "a chord such as Am, or a shape such as x32010"
        )
        raise QuestionError(
            f"{text!r} is neither a shape nor a chord: {problem.message}; expected {problem.expected}", fix
        ) from problem


def _reads(text: str) -> bool:
    try:
        read_chord(text)
    except SymbolError:
        return False
    return True


def taught_shapes(course: Course, fretboard: Fretboard) -> list[tuple[Chord, Shape]]:
    """The shapes that a course teaches on this neck, each with its chord, in the course's order."""
    return [
        (entry.chord, met.shape)
        for entry in course.chords
        for met in entry.shapes
        if met.fretboard == fretboard and met.shape.has_fingers and not met.shape.damped
    ]


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
        key=_key(args.key),
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
        raise QuestionError(problem.message + (after if _reads(path) else ""), problem.fix) from problem
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


def _key(text: str | None) -> Key | None:
    if text is None:
        return None
    try:
        return Key.parse(text)
    except ValueError as problem:
        raise QuestionError(f"--key is {text!r}: {problem}", "a key such as G, Em or Bb") from problem


def _count(option: str, text: str, least: int, most: int) -> int:
    if not (text.isascii() and text.isdigit() and len(text) < 4 and least <= int(text) <= most):
        raise QuestionError(f"{option} is {text!r}; expected a number from {least} to {most}")
    return int(text)
