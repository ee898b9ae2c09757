"""Why there is no route, in sentences: what the ends break, what a chord lacks, and what would have to give."""

from __future__ import annotations

from collections.abc import Iterator

from fingerpost.music.chord_symbol import write
from fingerpost.music.fretboard import Fretboard
from fingerpost.music.routes.nearest_chord import nearest_with_shape
from fingerpost.music.routes.question import Atlas, End, Question
from fingerpost.music.routes.relaxed import LOOSE, UNHEARD, Loosening, Relaxed, loosenable
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
    "finger_order": "a higher finger never on a lower fret",
    "span_frets": "the frets that the hand spans",
    "span_mm": "the millimetres that the hand spans",
    "fingers": "the fingers that are used",
    "bar_strings": "the strings that a finger bars",
    "thumb_strings": "the strings that the thumb reaches",
    UNHEARD: "that something is heard of each move",
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


def because(question: Question, loosening: Loosening) -> list[str]:
    """The reasons, the nearest ways out last."""
    said = [*_of_end(question.start, question), *_of_end(question.end, question)]
    if not said:
        asked = [_OPTIONS[name] for name in question.conditions.asked]
        keep = f"{', '.join(asked)} and the limits of the hand" if asked else "the limits of the hand"
        said.append(f"no chain of one finger's moves keeps to {keep}")
    said += [_way_out(one, question) for one in loosening.sets]
    if not loosening.sets:
        said.append(f"nor is there one if up to three of these give: {_list(loosenable(question))}")
    if not loosening.settled:
        said.append("the search was cut short, so it is not certain that nothing smaller would do")
    return list(dict.fromkeys(said))


def given_up(names: tuple[str, ...], question: Question) -> str:
    """A set of limits that give, as the beginning of a sentence."""
    options = [_OPTIONS[name] for name in names if name in _OPTIONS]
    hand = [_HAND[name] for name in names if name in _HAND]
    said = [f"without {_and(options)}"] * bool(options) + [f"if this limit gave: {_and(hand)}"] * bool(hand)
    return " and ".join(said)


def _way_out(one: Relaxed, question: Question) -> str:
    moves = "1 move" if one.route.length == 1 else f"{one.route.length} moves"
    needs = list(dict.fromkeys(_needs(one, question)))
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
            yield _no_shape(end, question)
        return
    shape, (low, high) = end.shapes[0], question.conditions.position or (0, 0)
    for name in question.conditions.broken_by(shape, question.fretboard):
        yield f"{write_shape(shape)} {_BREAKS[name].format(low=low, high=high, key=question.conditions.key)}"
    for fault in question.hand.faults(shape, question.fretboard):
        yield f"in {write_shape(shape)} {fault.message}"


def _no_shape(end: End, question: Question) -> str:
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
