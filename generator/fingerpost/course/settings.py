"""The options of a course, each with its default, how it is read, and what it means."""

from __future__ import annotations

import dataclasses
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import Any

from fingerpost.course.option_values import (
    Problem,
    SettingError,
    amounts,
    key_of_course,
    nearest,
    number,
    one_of,
    redirects,
    tied_names,
    tuning,
    yes_or_no,
)
from fingerpost.music.chord import Chord
from fingerpost.music.chord_symbol import SymbolStyle
from fingerpost.music.fretboard import MOST_FRETS, SCALE_LENGTH_MM, Fretboard
from fingerpost.music.hand import ChangeCosts, Costs, Hand, Limits
from fingerpost.music.tuning import STANDARD, Tuning


def _option(read: Callable[[object], object], explains: str) -> dict[str, Any]:
    return {"read": read, "explains": explains}


@dataclass(frozen=True)
class Settings:
    """What holds for a whole course unless a lesson or a block says otherwise."""

    tuning: Tuning = field(
        default=STANDARD,
        metadata=_option(tuning, "The tuning: a name such as `drop D`, or its pitches, `D2 A2 D3 G3 A3 D4`."),
    )
    capo: int = field(
        default=0,
        metadata=_option(number(0, 12), "The fret that the capo lies on; 0 is no capo. Frets then count from it."),
    )
    scale_length: float = field(
        default=SCALE_LENGTH_MM,
        metadata=_option(
            number(300, 900, whole=False),
            "Millimetres from nut to bridge. Reach counts in millimetres, so a short neck lets a hand span more frets.",
        ),
    )
    frets: int = field(default=MOST_FRETS, metadata=_option(number(5, 36), "How many frets the neck has."))
    handed: str = field(
        default="right",
        metadata=_option(one_of("right", "left"), "How pictures are drawn at first; a student can switch."),
    )
    view: str = field(
        default="upright",
        metadata=_option(
            one_of("upright", "player"),
            "`upright` draws the neck standing, nut on top; `player` as a player sees it, lying. A student can switch.",
        ),
    )
    key: str | None = field(
        default=None, metadata=_option(key_of_course, "The key, such as `G` or `Em`: it settles how notes are spelled.")
    )
    fingers_per_step: int = field(
        default=1, metadata=_option(number(1, 5), "How many fingers a step may move. More is an error.")
    )
    hand_shifts: bool = field(
        default=False, metadata=_option(yes_or_no, "Whether a step may slide the whole hand (`shift +2`).")
    )
    major_seventh: str = field(
        default="maj7", metadata=_option(one_of("maj7", "triangle"), "How a major seventh is written.")
    )
    diminished: str = field(
        default="dim", metadata=_option(one_of("dim", "circle"), "How a diminished chord is written.")
    )
    minor: str = field(default="m", metadata=_option(one_of("m", "-"), "How a minor chord is written."))
    accidentals: str = field(
        default="real",
        metadata=_option(one_of("real", "ascii"), "`real` prints the true signs, `ascii` prints b and #."),
    )
    note_names: str = field(
        default="english",
        metadata=_option(
            one_of("english", "german", "solfege"), "The names of notes: C D E, German (B and H), or Do Re Mi."
        ),
    )
    limits: Limits = field(
        default=Limits(), metadata=_option(amounts(Limits), "What no hand is asked to do: see the table of limits.")
    )
    costs: Costs = field(
        default=Costs(),
        metadata=_option(amounts(Costs), "What makes a shape hard to hold, and how much: see its table."),
    )
    change_costs: ChangeCosts = field(
        default=ChangeCosts(),
        metadata=_option(amounts(ChangeCosts), "What makes a change of shapes hard, and how much: see its table."),
    )
    ties: tuple[tuple[Chord, Chord], ...] = field(
        default=(),
        metadata=_option(
            tied_names, "Which of two names for the same notes is used, each as `C6 not Am7`. The check enforces it."
        ),
    )
    clean: int = field(
        default=5, metadata=_option(number(1, 20), "How many clean changes a practice item asks for. Common practice.")
    )
    tries: int = field(default=6, metadata=_option(number(1, 40), "Out of how many tries in a row. Common practice."))
    warm_up_minutes: int = field(
        default=3,
        metadata=_option(
            number(0, 60),
            "Minutes of warming up before a block's practice. Common practice; no standard gives a number.",
        ),
    )
    practice_minutes: int = field(
        default=20,
        metadata=_option(
            number(0, 240),
            "Minutes in the practice view after which it asks the hand to rest; 0: never. Common practice; no standard "
            "gives a number.",
        ),
    )
    rest_minutes: int = field(
        default=5,
        metadata=_option(
            number(0, 60), "Minutes of rest after a block's practice. Common practice; no standard gives a number."
        ),
    )

    harder_step: float = field(
        default=2,
        metadata=_option(
            number(0, 20, whole=False),
            "How many times as hard as the hardest step before it a step may be before a note says so; 0: never. By "
            "our own choice.",
        ),
    )
    warm_up_steps: int = field(
        default=0,
        metadata=_option(
            number(0, 50),
            "How many steps at the start of a lesson are to be light; 0 asks for none. Common practice; no standard "
            "gives a number.",
        ),
    )
    rest_after_steps: int = field(
        default=0,
        metadata=_option(
            number(0, 500),
            "After how many steps a `rest` is due; 0 asks for none. Common practice; no standard gives a number.",
        ),
    )
    redirects: tuple[tuple[str, str], ...] = field(
        default=(),
        metadata=_option(
            redirects, "Pages that have moved: the old file, and the page, perhaps with an anchor, that is there now."
        ),
    )

    @property
    def fretboard(self) -> Fretboard:
        """The neck that the course is played on."""
        return Fretboard(self.tuning, self.capo, self.frets, self.scale_length)

    @property
    def hand(self) -> Hand:
        """The hand that the course reckons with."""
        return Hand(self.limits, self.costs, self.change_costs)

    @property
    def symbol_style(self) -> SymbolStyle:
        """How chord symbols are written."""
        return SymbolStyle(self.major_seventh, self.diminished, self.minor, self.note_names, self.accidentals)  # type: ignore[arg-type]

    @classmethod
    def from_mapping(
        cls, mapping: Mapping[str, object], base: Settings | None = None
    ) -> tuple[Settings, tuple[Problem, ...]]:
        """Settings as written in a configuration, over `base`; what could not be read keeps its base value.

        Each problem says the key, what is wrong with it, what was expected, and the nearest that would do.
        """
        values: dict[str, Any] = {}
        problems: list[Problem] = []
        for key, value in mapping.items():
            if key not in OPTIONS:
                problems.append(unknown_option(str(key)))
                continue
            try:
                values[key] = OPTIONS[key].metadata["read"](value)
            except SettingError as error:
                problems.append(error.problem(key))
        settings = dataclasses.replace(base or cls(), **values)
        if settings.clean > settings.tries:
            problems.append(Problem("clean", "asks for more clean changes than there are tries", "at most `tries`"))
            settings = dataclasses.replace(settings, clean=settings.tries)
        return settings, tuple(problems)


OPTIONS = {option.name: option for option in dataclasses.fields(Settings)}


def unknown_option(key: str) -> Problem:
    """What to say about a key that is no option."""
    return Problem(key, "is no option", "one of " + ", ".join(OPTIONS), nearest(key, OPTIONS))


def explanations() -> dict[str, str]:
    """What each option means, in the order in which they are best read."""
    return {name: option.metadata["explains"] for name, option in OPTIONS.items()}
