"""The practice checklist of a block: computed from each change of shapes and what makes it hard.

The kinds of its items, in their order: `warm_up`; `change` for each change, with `change_back` where going back takes
more than one finger; `round` from the last shape to the first; `whole`, the whole round slowly; `rest`; `stop`.
Counting clean changes out of tries follows Duke, Simmons & Cash 2009; the minutes are common practice.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from fingerpost.course.ground import Ground
from fingerpost.course.model import PracticeItem, Step, Watch, WayBack
from fingerpost.music.difficulty import difficulty
from fingerpost.music.fretboard import Fretboard
from fingerpost.music.shape import Finger, Press, Shape
from fingerpost.music.transition import FingerMove, MoveKind, Transition, transition

MOST_WATCHED = 3
MOST_RINGING = 3
HARD_PART = 0.35
"""A part of a difficulty of at least so many points is worth a word. By judgement, on the scale of ChangeCosts."""


def practice(
    steps: Sequence[Step], back: Sequence[WayBack], wrap: WayBack | None, ground: Ground
) -> tuple[PracticeItem, ...]:
    """The checklist, empty for a block in which no shape changes."""
    changes = list(_changes(steps, ground.fretboard))
    if not changes:
        return ()
    flagged = {(way.to_step, way.from_step): way for way in back if way.fingers > 1}
    items = [PracticeItem("warm_up", minutes=ground.warm_up_minutes)]
    for change in changes:
        items.append(_item("change", *change, ground))
        way = flagged.get((change[0], change[1]))
        if way is not None:
            items.append(_item("change_back", way.from_step, way.to_step, way.transition, ground))
    if wrap is not None and wrap.transition.moves and len(changes) > 1:
        items.append(_item("round", wrap.from_step, wrap.to_step, wrap.transition, ground))
    if len(changes) > 1:
        items.append(PracticeItem("whole", changes[0][0], changes[-1][1], clean=1, tries=2))
    return (*items, PracticeItem("rest", minutes=ground.rest_minutes), PracticeItem("stop"))


def _changes(steps: Sequence[Step], fretboard: Fretboard) -> Iterator[tuple[int, int, Transition]]:
    """Each change from one shape that is struck to the next; way-points and rests are passed over."""
    before: Step | None = None
    for step in steps:
        if step.rest or step.passing:
            continue
        if before is not None and before.shape != step.shape:
            plain = step.transition is not None and step.transition.before == before.shape
            change = step.transition if plain else None
            yield before.ordinal, step.ordinal, change or transition(before.shape, step.shape, fretboard)
        before = step


def _item(kind: str, from_step: int, to_step: int, change: Transition, ground: Ground) -> PracticeItem:
    return PracticeItem(
        kind,
        from_step,
        to_step,
        keep=tuple(finger.mark for finger in change.stays),
        ring=_must_ring(change),
        watch=tuple(_watch(change, ground))[:MOST_WATCHED],
        clean=ground.clean,
        tries=ground.tries,
    )


def _must_ring(change: Transition) -> tuple[int, ...]:
    """Strings that change and sound, then those beside a finger that arrives, for there a note is lost most easily."""
    after = change.after
    changed = [string for string in change.strings_changed if after.fret(string) is not None]
    beside = [string for move in change.moves if move.after for string, _ in _neighbours(after, move.after)]
    chosen = list(dict.fromkeys((*changed, *beside)))[:MOST_RINGING]
    return tuple(sorted(chosen, reverse=True))


def _watch(change: Transition, ground: Ground) -> Iterator[Watch]:
    """What is likely to go wrong, the hardest first."""
    hard = difficulty(change, ground.fretboard, ground.hand)
    moves = change.moves
    yield from (bar for move in moves for bar in _bar(move, change.after))
    yield from (_guide(move) for move in moves if move.kind is MoveKind.SLIDE)
    if hard.part("weak finger") >= HARD_PART:
        yield from (Watch("landing", (move.finger.mark,)) for move in moves if move.after and _is_weak(move.finger))
    yield from (touch for move in moves for touch in _touching(move, change.after))
    if hard.part("stretch") >= HARD_PART and _frets_apart(change.after) > max(1, _frets_apart(change.before)):
        yield Watch("stretch")
    if hard.part("together") > 0 and len(moves) > 1:
        yield Watch("together", tuple(move.finger.mark for move in moves))


def _frets_apart(shape: Shape) -> int:
    """How many frets lie between the lowest and the highest that are pressed."""
    frets = [press.fret for press in shape.presses]
    return max(frets, default=0) - min(frets, default=0)


def _is_weak(finger: Finger) -> bool:
    return finger in (Finger.RING, Finger.LITTLE, Finger.THUMB)


def _bar(move: FingerMove, after: Shape) -> Iterator[Watch]:
    if move.kind in (MoveKind.BAR, MoveKind.HINGE) and move.after is not None:
        under = tuple(string for string in move.after.strings if after.sounding_press(string) == move.after)
        if under:
            yield Watch("bar" if move.kind is MoveKind.BAR else "rest_of_bar", (move.finger.mark,), under)


def _guide(move: FingerMove) -> Watch:
    assert move.before is not None
    return Watch("guide", (move.finger.mark,), tuple(move.before.strings))


def _touching(move: FingerMove, after: Shape) -> Iterator[Watch]:
    """Strings beside an arriving finger that sound at a lower fret: it must not touch them."""
    if move.after is not None and move.kind is not MoveKind.HINGE:
        near = tuple(string for string, fret in _neighbours(after, move.after) if fret < move.after.fret)
        if near:
            yield Watch("clear", (move.finger.mark,), near)


def _neighbours(shape: Shape, press: Press) -> list[tuple[int, int]]:
    """The strings on either side of a press that sound, with their frets, highest-numbered first."""
    beside = (string for string in (press.low + 1, press.high - 1) if 1 <= string <= shape.strings)
    return [(string, fret) for string in beside if (fret := shape.fret(string)) is not None]
