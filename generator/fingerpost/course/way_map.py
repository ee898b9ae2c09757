"""The way through a lesson: its different shapes in the order in which they are met, and the changes between them."""

from __future__ import annotations

from collections.abc import Hashable, Iterator
from dataclasses import dataclass
from itertools import pairwise

from fingerpost.course.model import Course, Lesson, Naming, Step
from fingerpost.music.chord import Chord
from fingerpost.music.fretboard import Fretboard
from fingerpost.music.shape import Shape

Place = tuple[str, str, str]
Known = tuple[Shape, Fretboard]


@dataclass(frozen=True, slots=True)
class Stop:
    """A shape that a lesson comes by.

    place: lesson file, block id and step id of where it is first met. version: 1 for the first shape that carries its
    name, 2 for the next. met_before: an earlier lesson has it already.
    """

    place: Place
    shape: Shape
    fretboard: Fretboard
    naming: Naming
    version: int = 1
    met_before: bool = False

    @property
    def known(self) -> Known:
        """What makes it the same stop wherever it is met."""
        return self.shape, self.fretboard


@dataclass(frozen=True, slots=True)
class Leg:
    """A change between two stops by their numbers, the earlier first, whichever way it is played.

    fingers: how many move, the most where it is played both ways.
    """

    one: int
    other: int
    fingers: int


@dataclass(frozen=True, slots=True)
class WayMap:
    """The stops of a lesson in the order of their first appearance, and the legs between them in theirs."""

    stops: tuple[Stop, ...] = ()
    legs: tuple[Leg, ...] = ()


@dataclass(frozen=True, slots=True)
class LessonWay:
    """A lesson with its way, as the map of the whole course has it."""

    lesson: Lesson
    way: WayMap


def way_of(lesson: Lesson) -> WayMap:
    """The way through one lesson by itself."""
    return _Walk().through(lesson)


def ways_of(course: Course) -> tuple[LessonWay, ...]:
    """The ways through all lessons that have shapes; a shape met before leads to where it is met first."""
    walk = _Walk()
    ways = (LessonWay(lesson, walk.through(lesson)) for lesson in course.lessons)
    return tuple(found for found in ways if found.way.stops)


class _Walk:
    """Goes through lessons in their order and remembers what was met."""

    def __init__(self) -> None:
        self.met: dict[Known, Stop] = {}
        self.versions: dict[Hashable, int] = {}

    def through(self, lesson: Lesson) -> WayMap:
        numbers: dict[Known, int] = {}
        stops: list[Stop] = []
        for block in lesson.blocks:
            for step in block.steps:
                known = (step.shape, block.fretboard)
                if not step.rest and known not in numbers:
                    numbers[known] = len(stops)
                    stops.append(self._stop((lesson.file, block.id, step.id), step, block.fretboard))
        self.met = {**{stop.known: stop for stop in stops}, **self.met}
        return WayMap(tuple(stops), tuple(_legs(lesson, numbers)))

    def _stop(self, place: Place, step: Step, fretboard: Fretboard) -> Stop:
        first = self.met.get((step.shape, fretboard))
        if first is not None:
            return Stop(first.place, step.shape, fretboard, step.naming, first.version, met_before=True)
        name: Chord | None = step.naming.shown
        self.versions[name] = self.versions.get(name, 0) + 1
        return Stop(place, step.shape, fretboard, step.naming, self.versions[name])


def _legs(lesson: Lesson, numbers: dict[Known, int]) -> Iterator[Leg]:
    """Each pair of stops once. Coming back from a rest is no change: the hand then starts anew."""
    most: dict[tuple[int, int], int] = {}
    for block in lesson.blocks:
        for before, step in pairwise(block.steps):
            if step.transition is None or step.rest or before.rest or step.shape == before.shape:
                continue
            one, other = sorted((numbers[before.shape, block.fretboard], numbers[step.shape, block.fretboard]))
            most[one, other] = max(most.get((one, other), 0), step.transition.finger_count)
    return (Leg(one, other, fingers) for (one, other), fingers in most.items())
