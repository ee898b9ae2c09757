"""Where there is no route: the smallest sets of limits that would have to give, and what the route would then be."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from itertools import combinations
from typing import Any

from fingerpost.music.fretboard import MOST_FRETS
from fingerpost.music.routes.answer import best_route
from fingerpost.music.routes.conditions import without
from fingerpost.music.routes.question import Atlas, Question
from fingerpost.music.routes.route import Route
from fingerpost.music.routes.search import Budget, SearchBoundError
from fingerpost.music.tuning import MOST_STRINGS

UNHEARD = "unheard"
"""The rule that something of each move is heard."""
LOOSE: Mapping[str, Any] = {
    "finger_order": False,
    "span_frets": MOST_FRETS,
    "span_mm": 10_000.0,
    "fingers": (1, 2, 3, 4),
    "bar_strings": (MOST_STRINGS,) * 4,
    "thumb_strings": MOST_STRINGS,
}
"""The limits of a hand that can be loosened, and as what."""
MOST_TOGETHER = 3
"""Up to so many limits are loosened at a time, beyond those that the ends themselves break."""
GRIPS_FOR_EACH, GRIPS_IN_ALL = 10_000, 60_000


@dataclass(frozen=True, slots=True)
class Relaxed:
    """Limits that have to give together, by name (fields of `Conditions` or `Limits`, or UNHEARD); the route then."""

    given_up: tuple[str, ...]
    route: Route


@dataclass(frozen=True, slots=True)
class Loosening:
    """All smallest sets; settled: whether all smaller ones are known not to do."""

    sets: tuple[Relaxed, ...]
    settled: bool = True


def loosen(question: Question, atlas: Atlas) -> Loosening:
    """Tries sets of limits by size, those that the ends break by themselves always among them, within bounds."""
    forced = forced_by_ends(question)
    others = [name for name in loosenable(question) if name not in forced]
    left, settled = GRIPS_IN_ALL, True
    for size in range(MOST_TOGETHER + 1):
        found: list[Relaxed] = []
        for more in combinations(others, size):
            names = (*forced, *more)
            if not names:
                continue
            budget = Budget(min(GRIPS_FOR_EACH, left))
            try:
                route = best_route(loosened(question, names), atlas, budget)
            except SearchBoundError:
                route, settled = None, False
            left -= min(GRIPS_FOR_EACH, left) - max(0, budget.grips)
            if route is not None:
                found.append(Relaxed(names, route))
        if found:
            return Loosening(tuple(sorted(found, key=_ease)), settled)
    return Loosening((), settled)


def _ease(relaxed: Relaxed) -> tuple[int, float, tuple[str, ...]]:
    return relaxed.route.length, relaxed.route.cost, relaxed.given_up


def loosenable(question: Question) -> tuple[str, ...]:
    """Everything that could give: the conditions asked for, then the hand's limits, then that moves are heard."""
    limits = question.hand.limits
    hand = (name for name, loose in LOOSE.items() if getattr(limits, name) != loose)
    return (*question.conditions.asked, *hand, *(() if question.unheard else (UNHEARD,)))


def loosened(question: Question, names: tuple[str, ...]) -> Question:
    """The question without these limits."""
    for name in names:
        if name == UNHEARD:
            question = replace(question, unheard=True)
        elif name in LOOSE:
            limits = replace(question.hand.limits, **{name: LOOSE[name]})
            question = replace(question, hand=replace(question.hand, limits=limits))
        else:
            asked = replace(question.conditions, **without(question.conditions, name))
            question = replace(question, conditions=asked)
    return question


def forced_by_ends(question: Question) -> tuple[str, ...]:
    """The limits that must give because a shape that was asked for breaks them."""
    return tuple(dict.fromkeys(_forced(question)))


def _forced(question: Question) -> Iterator[str]:
    for end in (question.start, question.end):
        for shape in end.shapes if not end.chosen else ():
            yield from question.conditions.broken_by(shape, question.fretboard)
            faults = question.hand.faults(shape, question.fretboard)
            yield from (fault.limit for fault in faults if fault.limit in LOOSE)
