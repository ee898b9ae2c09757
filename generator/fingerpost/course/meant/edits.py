"""The edits by which a block is read again: a word, the start, a step too few or too many, two the wrong way round."""

from __future__ import annotations

from dataclasses import dataclass

from fingerpost.music.move import Move
from fingerpost.music.shape import Press, Shape


@dataclass(frozen=True)
class Word:
    """Another move in place of an action of a line."""

    at: int
    action: int
    move: Move


@dataclass(frozen=True)
class Began:
    """Another start; old and new are the press that differs."""

    old: Press
    new: Press
    shape: Shape


@dataclass(frozen=True)
class Turned:
    """A start in which two fingers stand each in the place of the other."""

    one: Press
    other: Press
    shape: Shape


@dataclass(frozen=True)
class PutToo:
    """A start that leaves out a finger: the press that it does not write."""

    press: Press
    shape: Shape


@dataclass(frozen=True)
class Struck:
    """Other strings struck from the start on."""

    shape: Shape


@dataclass(frozen=True)
class Redundant:
    """An action of a line is one too many."""

    at: int
    action: int


@dataclass(frozen=True)
class Missing:
    """A step that stands before the line at `at`: the moves of its line."""

    at: int
    moves: tuple[Move, ...]


@dataclass(frozen=True)
class Swapped:
    """The line at `at` belongs below the next."""

    at: int


@dataclass(frozen=True)
class Surplus:
    """The line at `at` is one too many."""

    at: int


OfLine = Word | Redundant | Missing | Swapped | Surplus
OfStart = Began | Turned | PutToo | Struck
OneEdit = OfLine | OfStart
