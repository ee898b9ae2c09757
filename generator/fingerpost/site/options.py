"""The options of the MkDocs plugin, typed; what each means and how it is read is said once, in course.settings."""

from __future__ import annotations

from typing import Any, Generic, TypeVar

from mkdocs.config.base import BaseConfigOption, Config, ValidationError

from fingerpost.course.option_values import SettingError
from fingerpost.course.settings import OPTIONS, explanations
from fingerpost.music.change_costs import ChangeCosts
from fingerpost.music.chord import Chord
from fingerpost.music.hand import Costs, Limits
from fingerpost.music.tuning import Tuning

T = TypeVar("T")


class CourseOption(BaseConfigOption[T], Generic[T]):
    """An option that is read as the course reads it; its value is what the course works with."""

    def __init__(self, name: str) -> None:
        """`name` is that of the field of course.settings.Settings."""
        super().__init__()
        self.name, self.explains = name, explanations()[name]
        self.default: Any = OPTIONS[name].default

    def run_validation(self, value: object) -> T:
        """The value as the course reads it; an option that can't be read ends the build with the reason."""
        if value is None or value is self.default:
            return self.default  # type: ignore[no-any-return]
        try:
            return OPTIONS[self.name].metadata["read"](value)  # type: ignore[no-any-return]
        except SettingError as error:
            problem = error.problem(self.name)
            near = f" The nearest is {problem.nearest}." if problem.nearest else ""
            raise ValidationError(f"{problem.sentence}; expected {problem.expected}.{near}") from error


class FingerpostOptions(Config):  # type: ignore[no-untyped-call]
    """Every option of the plugin, in the order of course.settings."""

    tuning = CourseOption[Tuning]("tuning")
    capo = CourseOption[int]("capo")
    scale_length = CourseOption[float]("scale_length")
    frets = CourseOption[int]("frets")
    handed = CourseOption[str]("handed")
    view = CourseOption[str]("view")
    key = CourseOption[str | None]("key")
    fingers_per_step = CourseOption[int]("fingers_per_step")
    hand_shifts = CourseOption[bool]("hand_shifts")
    major_seventh = CourseOption[str]("major_seventh")
    diminished = CourseOption[str]("diminished")
    minor = CourseOption[str]("minor")
    accidentals = CourseOption[str]("accidentals")
    note_names = CourseOption[str]("note_names")
    limits = CourseOption[Limits]("limits")
    costs = CourseOption[Costs]("costs")
    change_costs = CourseOption[ChangeCosts]("change_costs")
    ties = CourseOption[tuple[tuple[Chord, Chord], ...]]("ties")
    clean = CourseOption[int]("clean")
    tries = CourseOption[int]("tries")
    warm_up_minutes = CourseOption[int]("warm_up_minutes")
    practice_minutes = CourseOption[int]("practice_minutes")
    rest_minutes = CourseOption[int]("rest_minutes")
    harder_step = CourseOption[float]("harder_step")
    warm_up_steps = CourseOption[int]("warm_up_steps")
    rest_after_steps = CourseOption[int]("rest_after_steps")
    redirects = CourseOption[tuple[tuple[str, str], ...]]("redirects")
