"""What a fretting hand can hold at all: documented limits, and the faults of a hand that breaks them."""

from __future__ import annotations

import enum
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field

from fingerpost.music.fretboard import Fretboard
from fingerpost.music.shape import Finger, Press, Shape


class Limit(enum.StrEnum):
    """The limits by name: the options as their field in `Limits` is called; the last three cannot be relaxed."""

    FINGER_ORDER = "finger_order"
    SPAN_FRETS = "span_frets"
    SPAN_MM = "span_mm"
    FINGERS = "fingers"
    BAR_STRINGS = "bar_strings"
    THUMB_STRINGS = "thumb_strings"
    DAMPING_REACH = "damping_reach"
    ONE_FRET = "one_fret"
    ONE_SPOT = "one_spot"
    NECK = "neck"


@dataclass(frozen=True)
class Limits:
    """What a hand can hold. Strings are counted, frets are differences of fret numbers, lengths are millimetres."""

    finger_order: bool = field(
        default=True,
        metadata={"about": "a higher finger is never on a lower fret, the thumb apart: 99.6 % of 2,069 published "
                  "human fingerings (standards.md, The hand)"},
    )  # fmt: skip
    span_frets: int = field(
        default=3,
        metadata={"about": "most frets between the lowest and the highest fret pressed: no published fingering spans "
                  "more than 3 (standards.md, The hand)"},
    )  # fmt: skip
    span_mm: float = field(
        default=100.0,
        metadata={"about": "most millimetres between them at their true frets, the capo included: the widest published "
                  "is about 100 mm at a scale length of 648 mm (standards.md, The hand)"},
    )  # fmt: skip
    fingers: tuple[int, ...] = field(
        default=(1, 2, 3, 4),
        metadata={"about": "the fingers that the course uses; leave one out for a hand that lacks it (by judgement)"},
    )
    bar_strings: tuple[int, int, int, int] = field(
        default=(8, 3, 4, 4),
        metadata={"about": "most strings under a bar of finger 1, 2, 3 and 4; 1 forbids it. 59 % of published "
                  "fingerings use a bar (standards.md, The hand); the widths are common practice"},
    )  # fmt: skip
    thumb_strings: int = field(
        default=1,
        metadata={"about": "how many of the lowest strings the thumb can press over the top; 0 forbids it "
                  "(common practice)"},
    )  # fmt: skip
    damping_reach: int = field(
        default=2,
        metadata={
            "about": "most strings between a finger's press and a string that it damps by leaning (by judgement)"
        },
    )


@dataclass(frozen=True, slots=True)
class Fault:
    """One limit that a hand breaks: a plain sentence, and its data.

    needed and allowed are in the limit's own unit (frets, millimetres, strings), None where it has none. fingers and
    strings say where; strings highest-numbered first.
    """

    limit: Limit
    message: str
    needed: float | None = None
    allowed: float | None = None
    fingers: tuple[Finger, ...] = ()
    strings: tuple[int, ...] = ()


Check = Callable[[Sequence[Press], Fretboard, Limits], Iterator[Fault]]


def press_faults(presses: Sequence[Press], fretboard: Fretboard, limits: Limits) -> Iterator[Fault]:
    """Every limit that these presses break, worst kind first; lazily, so that the first one is cheap to ask for."""
    for check in CHECKS:
        yield from check(presses, fretboard, limits)


def shape_faults(shape: Shape, fretboard: Fretboard, limits: Limits) -> Iterator[Fault]:
    """Every limit that a shape breaks; presses without a finger are checked as far as can be."""
    yield from press_faults(shape.presses, fretboard, limits)
    for string, finger in shape.damped:
        yield from _damping(shape, string, finger, limits)


def _one_fret(presses: Sequence[Press], fretboard: Fretboard, limits: Limits) -> Iterator[Fault]:
    seen: set[Finger] = set()
    for press in presses:
        if press.finger is None:
            continue
        if press.finger in seen:
            strings = tuple(s for p in presses if p.finger == press.finger for s in p.strings)
            message = f"{press.finger.called} is asked to be in two places; one finger presses one fret"
            yield Fault(Limit.ONE_FRET, message, fingers=(press.finger,), strings=strings)
        seen.add(press.finger)


def _one_spot(presses: Sequence[Press], fretboard: Fretboard, limits: Limits) -> Iterator[Fault]:
    for index, press in enumerate(presses):
        for other in presses[index + 1 :]:
            if press.clashes(other):
                string = min(press.low, other.low)
                fingers = tuple(p.finger for p in (press, other) if p.finger is not None)
                message = f"two fingers are asked onto string {string} at fret {press.fret}; only one fits"
                yield Fault(Limit.ONE_SPOT, message, fingers=fingers, strings=(string,))


def _neck(presses: Sequence[Press], fretboard: Fretboard, limits: Limits) -> Iterator[Fault]:
    for press in presses:
        if press.fret > fretboard.highest_fret:
            above = f" above the capo at {fretboard.capo}" if fretboard.capo else ""
            message = f"fret {press.fret} is off the neck, which has {fretboard.highest_fret} frets{above}"
            fingers = () if press.finger is None else (press.finger,)
            yield Fault(Limit.NECK, message, press.fret, fretboard.highest_fret, fingers, tuple(press.strings))


def _fingers(presses: Sequence[Press], fretboard: Fretboard, limits: Limits) -> Iterator[Fault]:
    for press in presses:
        if press.finger and press.finger not in limits.fingers:
            used = ", ".join(map(str, limits.fingers)) or "none"
            message = f"{press.finger.called} is not among the fingers that this course uses ({used})"
            yield Fault(Limit.FINGERS, message, fingers=(press.finger,), strings=tuple(press.strings))


def _finger_order(presses: Sequence[Press], fretboard: Fretboard, limits: Limits) -> Iterator[Fault]:
    if not limits.finger_order:
        return
    known = sorted((p for p in presses if p.finger), key=lambda p: p.finger or 0)
    for index, press in enumerate(known):
        for other in known[index + 1 :]:
            if other.fret < press.fret and other.finger is not None and press.finger is not None:
                message = (
                    f"finger {other.finger.mark} at fret {other.fret} is behind finger {press.finger.mark} at fret "
                    f"{press.fret}; a higher finger cannot be on a lower fret"
                )
                strings = (press.low, other.low)
                yield Fault(Limit.FINGER_ORDER, message, fingers=(press.finger, other.finger), strings=strings)


def _span(presses: Sequence[Press], fretboard: Fretboard, limits: Limits) -> Iterator[Fault]:
    if len(presses) < 2:
        return
    low, high = min(presses, key=lambda p: p.fret), max(presses, key=lambda p: p.fret)
    fingers = tuple(p.finger for p in (low, high) if p.finger is not None)
    frets, strings = high.fret - low.fret, (low.low, high.low)
    if frets > limits.span_frets:
        message = f"frets {low.fret} to {high.fret} are {frets} frets apart; the hand spans {limits.span_frets}"
        yield Fault(Limit.SPAN_FRETS, message, frets, limits.span_frets, fingers, strings)
    wide = fretboard.span(low.fret, high.fret)
    if wide > limits.span_mm:
        message = f"frets {low.fret} to {high.fret} are {wide:.0f} mm apart; the hand spans {limits.span_mm:.0f} mm"
        yield Fault(Limit.SPAN_MM, message, round(wide, 2), limits.span_mm, fingers, strings)


def _bar_strings(presses: Sequence[Press], fretboard: Fretboard, limits: Limits) -> Iterator[Fault]:
    for press in presses:
        if press.finger and press.low - press.high >= (most := limits.bar_strings[press.finger - 1]):
            wide = len(press.strings)
            allowed = f"over {most} strings at most" if most > 1 else "not at all"
            message = f"{press.finger.called} is asked to bar {wide} strings; it bars {allowed}"
            yield Fault(Limit.BAR_STRINGS, message, wide, most, (press.finger,), tuple(press.strings))


def _thumb_strings(presses: Sequence[Press], fretboard: Fretboard, limits: Limits) -> Iterator[Fault]:
    for press in presses:
        if press.finger is Finger.THUMB and (needed := fretboard.strings - press.high + 1) > limits.thumb_strings:
            most = limits.thumb_strings
            over = f"only string {fretboard.strings}" if most == 1 else f"only the {most} lowest strings"
            message = f"the thumb is asked to press string {press.high}; it reaches {over if most else 'no string'}"
            yield Fault(Limit.THUMB_STRINGS, message, needed, most, (press.finger,), tuple(press.strings))


def _damping(shape: Shape, string: int, finger: Finger, limits: Limits) -> Iterator[Fault]:
    press = shape.press_of(finger)
    away = 0 if press is None else max(string - press.low, press.high - string)
    if press is not None and away > limits.damping_reach:
        message = f"{finger.called} is asked to damp string {string}, {away} strings from where it presses"
        message = f"{message}; it reaches {limits.damping_reach}"
        yield Fault(Limit.DAMPING_REACH, message, away, limits.damping_reach, (finger,), (string,))


CHECKS: tuple[Check, ...] = (
    _one_fret,
    _one_spot,
    _neck,
    _fingers,
    _finger_order,
    _span,
    _bar_strings,
    _thumb_strings,
)
