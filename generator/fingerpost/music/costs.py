"""What a shape costs the hand that holds it: documented, adjustable points, term by term."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field

from fingerpost.music.fretboard import Fretboard
from fingerpost.music.shape import Finger, Press


@dataclass(frozen=True)
class Costs:
    """Points a shape costs. One point is about one more finger; they rank, they measure nothing.

    That fingers, bars, spread and unstruck inner strings make a chord harder is the rubric of Velez Vasquez et al.
    (ISMIR 2023); that cost along the neck and across it are separate terms, and that fingers differ in independence,
    is Sayegh 1989, Heijink & Meulenbroek 2002, Radicioni & Lombardo 2005. The sizes are by judgement, calibrated so
    that the usual fingerings of common shapes come first (tests/music/test_fingering_calibration.py).
    """

    finger: float = field(default=1.0, metadata={"about": "each finger that is down (Velez Vasquez 2023)"})
    weak: tuple[float, float, float, float] = field(
        default=(0.0, 0.05, 0.2, 0.9),
        metadata={"about": "finger 1, 2, 3 and 4 when down; little and ring are the weak ones (common practice)"},
    )
    thumb: float = field(default=2.0, metadata={"about": "the thumb over the top (by judgement)"})
    bar: float = field(default=0.8, metadata={"about": "each bar (Velez Vasquez 2023)"})
    bar_string: float = field(
        default=0.35, metadata={"about": "each string under a bar after the second (by judgement)"}
    )
    bar_other: float = field(default=0.8, metadata={"about": "a bar by another finger than the index (by judgement)"})
    bar_arch: float = field(
        default=1.0,
        metadata={"about": "a bar beside a string that must ring open or at a lower fret under its end (by judgement)"},
    )
    ahead: float = field(
        default=0.6,
        metadata={"about": "each fret that a finger reaches beyond its own, one finger a fret (common practice)"},
    )
    behind: float = field(
        default=0.3, metadata={"about": "each fret that a finger is drawn in behind its own (common practice)"}
    )
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
        costs.bar
        + costs.bar_string * (p.low - p.high - 1)
        + costs.bar_other * (p.finger is not Finger.INDEX)
        + costs.bar_arch * _arched(p, held.frets)
        for p in held.presses
        if p.is_bar
    )


def _arched(bar: Press, frets: Sequence[int | None]) -> bool:
    """Whether the string beside the finger's base, just higher in pitch, sounds below the bar's fret."""
    beside = frets[bar.high - 2] if bar.high > 1 else None
    return beside is not None and beside < bar.fret


def _position(held: Held) -> float:
    """One finger a fret, counted from where the fingers are least out of place, but never from beyond the index."""
    known = [(p.finger, p.fret) for p in held.presses if p.finger]
    if not known:
        return 0.0
    costs, above = held.costs, held.costs.position * (0 in held.frets)
    top = max(fret for _, fret in known)
    index = next((fret for finger, fret in known if finger == 1), top)
    return min(
        above * (home - 1)
        + sum(
            costs.ahead * off if (off := fret - home - finger + 1) > 0 else -costs.behind * off
            for finger, fret in known
        )
        for home in range(max(1, min(top - 3, index)), index + 1)
    )


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
    "position": _position,
    "reversed order": _reversed_order,
    "stretch": _stretch,
    "across": _across,
    "silent inner strings": _inner_silent,
}
