"""What a shape costs the hand that holds it: documented, adjustable points, term by term."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from itertools import pairwise

from fingerpost.music.fretboard import Fretboard
from fingerpost.music.shape import Finger, Press


@dataclass(frozen=True)
class Costs:
    """Points a shape costs. One point is about one more finger; they rank, they measure nothing.

    That fingers, bars, spread and unstruck inner strings make a chord harder is the rubric of Velez Vasquez et al.
    (ISMIR 2023); that cost along the neck and across it are separate terms, and that fingers differ in independence,
    is Sayegh 1989, Heijink & Meulenbroek 2002, Radicioni & Lombardo 2005. The sizes are by judgement, calibrated so
    that the usual fingerings of common shapes come first (tests/music/test_fingering.py).
    """

    finger: float = field(default=1.0, metadata={"about": "each finger that is down (Velez Vasquez 2023)"})
    weak: tuple[float, float, float, float] = field(
        default=(0.0, 0.05, 0.25, 0.6),
        metadata={"about": "finger 1, 2, 3 and 4 when down; little and ring are the weak ones (common practice)"},
    )
    thumb: float = field(default=2.0, metadata={"about": "the thumb over the top (by judgement)"})
    bar: tuple[float, float, float, float] = field(
        default=(1.35, 1.95, 1.95, 1.95),
        metadata={
            "about": "a bar of finger 1, 2, 3 or 4 (Velez Vasquez 2023; that the index bars best: common practice)"
        },
    )
    bar_string: float = field(
        default=0.35, metadata={"about": "each string under a bar after the second (by judgement)"}
    )
    arch_open: float = field(
        default=1.0,
        metadata={"about": "a bar that must let the string beside its base ring open (by judgement)"},
    )
    arch_finger: float = field(
        default=1.45,
        metadata={"about": "the same where a single finger presses that string at a lower fret (by judgement)"},
    )
    arch_bar: float = field(
        default=0.1,
        metadata={
            "about": "the same where a bar at a lower fret lies under it (common practice: the A shape moved up)"
        },
    )
    ahead: float = field(
        default=0.8,
        metadata={"about": "each fret that a finger reaches beyond its own, one finger a fret (common practice)"},
    )
    gap: float = field(
        default=0.55,
        metadata={"about": "each fret by which two neighbouring fingers are further apart than their numbers "
                  "(by judgement)"},
    )  # fmt: skip
    position: float = field(
        default=0.3,
        metadata={"about": "each fret that the hand stands above the first while open strings ring (by judgement)"},
    )
    reversed_order: float = field(
        default=1.0,
        metadata={"about": "each pair on one fret whose lower finger is on the higher-pitched side: 5 of 2,069 "
                  "published fingerings do so (standards.md, The hand)"},
    )  # fmt: skip
    comfortable_mm: float = field(
        default=70.0, metadata={"about": "the span in millimetres that costs nothing, about two frets (by judgement)"}
    )
    stretch_mm: float = field(
        default=0.03, metadata={"about": "each millimetre of span beyond that, at the true frets (Sayegh 1989)"}
    )
    across: float = field(default=0.05, metadata={"about": "each string between the outermost fingers (Sayegh 1989)"})
    inner_silent: float = field(
        default=0.5, metadata={"about": "each unstruck string between struck ones (Velez Vasquez 2023)"}
    )


@dataclass(frozen=True, slots=True)
class Held:
    """A hand to be costed: its presses, what each string sounds (index 0 = string 1), the neck and the points."""

    presses: Sequence[Press]
    frets: Sequence[int | None]
    fretboard: Fretboard
    costs: Costs


def _fingers(held: Held) -> float:
    return held.costs.finger * len(held.presses)


def _weak(held: Held) -> float:
    return sum(held.costs.weak[p.finger - 1] for p in held.presses if p.finger)


def _thumb(held: Held) -> float:
    return held.costs.thumb * sum(p.finger is Finger.THUMB for p in held.presses)


def _bar(held: Held) -> float:
    costs = held.costs
    return sum(
        costs.bar[p.finger - 1] + costs.bar_string * (p.low - p.high - 1) for p in held.presses if p.finger and p.is_bar
    )


def _arch(held: Held) -> float:
    """A bar that must not touch the string beside its base, on the side of string 1."""
    costs, points = held.costs, 0.0
    for bar in held.presses:
        beside = held.frets[bar.high - 2] if bar.is_bar and bar.high > 1 else None
        if beside == 0:
            points += costs.arch_open
        elif beside is not None and beside < bar.fret:
            under = any(p.is_bar and p.fret == beside and p.covers(bar.high - 1) for p in held.presses)
            points += costs.arch_bar if under else costs.arch_finger
    return points


def _position(held: Held) -> float:
    """One finger a fret, counted from where the fingers reach least, but never from beyond the index."""
    known = [(p.finger, p.fret) for p in held.presses if p.finger]
    if not known:
        return 0.0
    above = held.costs.position * (0 in held.frets)
    top = max(fret for _, fret in known)
    index = next((fret for finger, fret in known if finger == 1), top)
    reach = [fret - finger + 1 for finger, fret in known]
    return min(
        [
            above * (home - 1) + held.costs.ahead * sum([fret - home for fret in reach if fret > home])
            for home in range(max(1, min(top - 3, index)), index + 1)
        ]
    )


def _gap(held: Held) -> float:
    known = sorted((p.finger, p.fret) for p in held.presses if p.finger)
    apart = ((b[1] - a[1]) - (b[0] - a[0]) for a, b in pairwise(known))
    return held.costs.gap * sum(frets for frets in apart if frets > 0)


def _reversed_order(held: Held) -> float:
    presses = [p for p in held.presses if p.finger]
    pairs = sum(
        p.fret == q.fret and (p.finger or 0) < (q.finger or 0) and p.low < q.low for p in presses for q in presses
    )
    return held.costs.reversed_order * pairs


def _stretch(held: Held) -> float:
    if len(held.presses) < 2:
        return 0.0
    frets = [p.fret for p in held.presses]
    return held.costs.stretch_mm * max(0.0, held.fretboard.span(min(frets), max(frets)) - held.costs.comfortable_mm)


def _across(held: Held) -> float:
    strings = [s for p in held.presses if p.finger is not Finger.THUMB for s in (p.low, p.high)]
    return held.costs.across * (max(strings) - min(strings)) if strings else 0.0


def _inner_silent(held: Held) -> float:
    struck = [index for index, fret in enumerate(held.frets) if fret is not None]
    return held.costs.inner_silent * (struck[-1] - struck[0] + 1 - len(struck)) if struck else 0.0


TERMS: Mapping[str, Callable[[Held], float]] = {
    "fingers": _fingers,
    "weak fingers": _weak,
    "thumb": _thumb,
    "bar": _bar,
    "arch": _arch,
    "position": _position,
    "gap": _gap,
    "reversed order": _reversed_order,
    "stretch": _stretch,
    "across": _across,
    "silent inner strings": _inner_silent,
}

FINGER_TERMS = tuple(term for name, term in TERMS.items() if name not in ("stretch", "silent inner strings"))
"""The terms that differ between two fingerings of the same frets."""

REACH_TERMS = tuple(TERMS[name] for name in ("position", "gap", "stretch", "across"))
"""The terms that say how far the hand reaches."""
