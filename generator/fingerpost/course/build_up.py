"""The start of a block built finger by finger: as the author wrote them, else bars first, then index to little."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from fingerpost.course.model import Naming, Step
from fingerpost.course.table import table
from fingerpost.music.fretboard import Fretboard
from fingerpost.music.move import Move, Mute, Place, write_move
from fingerpost.music.shape import Press, Shape
from fingerpost.music.transition import transition


def build_up(start: Step, fretboard: Fretboard, written: Sequence[str] = ()) -> tuple[Step, ...]:
    """One step a finger, from the open strings to the start's shape, which the last one holds; none for open strings.

    written: the marks of the fingers in the order in which the author puts them down, empty where none is given. The
    steps have ids under that of the start. Only the last has a name: what sounds on the way is no chord to learn.
    """
    shape = Shape(start.shape.strings, (), start.shape.unstruck)
    presses = sorted(start.shape.presses, key=lambda press: (_written(press, written), _order(press)))
    out: list[Step] = []
    for number, press in enumerate(presses, start=1):
        after = _with(shape, press, start.shape)
        out.append(_step(start, shape, after, press, number, fretboard))
        shape = after
    return (*out[:-1], replace(out[-1], naming=start.naming)) if out else ()


def _written(press: Press, written: Sequence[str]) -> int:
    mark = "" if press.finger is None else press.finger.mark
    return written.index(mark) if mark in written else len(written)


def _order(press: Press) -> tuple[bool, int, int]:
    return (not press.is_bar, 9 if not press.finger else press.finger, -press.low)


def _with(shape: Shape, press: Press, whole: Shape) -> Shape:
    """The shape with one finger more, and what it damps."""
    damped = tuple(pair for pair in whole.damped if pair[1] == press.finger)
    return replace(shape, presses=(*shape.presses, press), damped=(*shape.damped, *damped))


def _step(start: Step, before: Shape, after: Shape, press: Press, number: int, fretboard: Fretboard) -> Step:
    assert press.finger is not None
    moves: list[Move] = [
        Place(press.finger, press.fret, press.low, press.high),
        *(Mute(string, finger) for string, finger in after.damped if finger == press.finger),
    ]
    return Step(
        id=f"{start.id}-build-{number}",
        ordinal=number,
        span=start.span,
        shape=after,
        naming=Naming(None),
        table=table(after, before, start.naming.shown, start.naming.sounding, fretboard),
        transition=transition(before, after, fretboard),
        move_text=", ".join(write_move(move, fretboard.tuning) for move in moves),
    )
