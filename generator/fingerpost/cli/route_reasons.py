"""Why there is no route, in sentences: what the ends break, what a chord lacks, and what would have to give."""

from __future__ import annotations

from collections.abc import Iterator

from fingerpost.music.chord_symbol import write
from fingerpost.music.fretboard import Fretboard
from fingerpost.music.routes.nearest_chord import nearest_with_shape
from fingerpost.music.routes.question import Atlas, End, Question
from fingerpost.music.routes.relaxed import LOOSE, UNHEARD, Loosening, Relaxed, loosenable
from fingerpost.music.routes.search import MOST_GRIPS
from fingerpost.music.shape_text import write_shape

_OPTIONS = {
    "position": "--position",
    "named": "--named",
    "no_bar": "--no-bar",
    "no_muted_inner": "--no-muted-inner",
    "keep_ringing": "--keep-ringing",
    "key": "--key",
    "avoid": "--avoid",
    "only": "--only-taught",
    "at_most": "--at-most",
}
_HAND = {
    "finger_order": "finger order",
    "span_frets": "the span in frets",
    "span_mm": "the span in millimetres",
    "fingers": "the choice of fingers",
    "bar_strings": "the width of bars",
    "thumb_strings": "the reach of the thumb",
    UNHEARD: "the rule that each move is heard",
}
_BREAKS = {
    "position": "presses a fret outside --position {low}-{high}",
    "named": "has no plain name",
    "no_bar": "has a bar",
    "no_muted_inner": "has a silent string between struck ones",
    "keep_ringing": "does not let every string of --keep-ringing sound",
    "key": "sounds a note outside {key}",
    "only": "is not taught in the course",
    "avoid": "is to be avoided",
}


def because(question: Question, loosening: Loosening, settled: bool) -> list[str]:
    """The reasons, the nearest ways out last. settled: whether it is known that there is no route."""
    said = [*_of_end(question.start, question), *_of_end(question.end, question)]
    if not settled:
        said.append(f"after {MOST_GRIPS:,} hands the search was ended, so there may be a long route after all")
    elif not said:
        asked = [_OPTIONS[name] for name in question.conditions.asked]
        keep = f"{', '.join(asked)} and the limits of the hand" if asked else "the limits of the hand"
        said.append(f"no chain of one finger's moves keeps to {keep}")
    said += [_way_out(one, question, " ".join(said)) for one in loosening.sets]
    if not loosening.sets and settled:
        said.append(f"nor is there one if up to three of these give: {_list(loosenable(question))}")
    if not loosening.settled:
        said.append("some of these searches were ended early, so something smaller may do as well")
    return list(dict.fromkeys(said))


def given_up(names: tuple[str, ...], question: Question) -> str:
    """A set of limits that give, as the beginning of a sentence."""
    options = [_OPTIONS[name] for name in names if name in _OPTIONS]
    hand = [_HAND[name] for name in names if name in _HAND]
    said = [f"without {_and(options)}"] * bool(options) + [f"if {_and(hand)} gave way"] * bool(hand)
    return " and ".join(said)


def _way_out(one: Relaxed, question: Question, told: str) -> str:
    moves = "1 move" if one.route.length == 1 else f"{one.route.length} moves"
    needs = [need for need in dict.fromkeys(_needs(one, question)) if need not in told]
    return f"{given_up(one.given_up, question)}, it would take {moves}" + "".join(f"; {need}" for need in needs)


def _needs(one: Relaxed, question: Question) -> Iterator[str]:
    """How far the hand's limits would have to give."""
    for name in one.given_up:
        if name in LOOSE:
            faults = [f for shape in one.route.shapes for f in question.hand.faults(shape, question.fretboard)]
            worst = max((f for f in faults if f.limit == name), key=lambda f: f.needed or 0, default=None)
            if worst is not None:
                yield worst.message


def _of_end(end: End, question: Question) -> Iterator[str]:
    if end.chosen:
        if not Atlas().shapes(end, question):
            yield no_shape(end, question)
        return
    shape, (low, high) = end.shapes[0], question.conditions.position or (0, 0)
    for name in question.conditions.broken_by(shape, question.fretboard):
        yield f"{write_shape(shape)} {_BREAKS[name].format(low=low, high=high, key=question.conditions.key)}"
    for fault in question.hand.faults(shape, question.fretboard):
        yield f"in {write_shape(shape)} {fault.message}"


def no_shape(end: End, question: Question) -> str:
    """That a chord has no shape under the conditions, with the nearest one that has."""
    low, high = question.window
    asked = [_OPTIONS[name] for name in question.conditions.asked if name not in ("position", "at_most")]
    keeping = f" that keeps to {_and(asked)}" if asked else ""
    near = nearest_with_shape(end.chord, question) if end.chord is not None and not end.shapes else None
    nearest = f"; the nearest chord that has one is {write(near)}" if near else ""
    return f"{end.text} has no shape{keeping} on frets {low} to {high} of {_tuned(question.fretboard)}{nearest}"


def _tuned(board: Fretboard) -> str:
    return f"{board.tuning.name} tuning"


def _list(names: tuple[str, ...]) -> str:
    return ", ".join(_OPTIONS.get(name) or _HAND[name] for name in names)


def _and(words: list[str]) -> str:
    return " and ".join(words)
