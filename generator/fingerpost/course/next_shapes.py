"""What is one finger away from the shapes of a course: others that it teaches, and easy ones that it does not."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import combinations, islice

from fingerpost.course.model import Course
from fingerpost.course.way_map import Known, ways_of
from fingerpost.music.chord import Chord
from fingerpost.music.chord_name import ChordName
from fingerpost.music.fretboard import Fretboard
from fingerpost.music.hand import Hand
from fingerpost.music.plain_name import plain_name
from fingerpost.music.routes.hands import Grip
from fingerpost.music.routes.neck import Neck
from fingerpost.music.shape import Finger, Shape
from fingerpost.music.transition import exchanges

OPEN_FRETS = 4
"""Untaught shapes are looked for on the frets of the open position, or as far up as the course goes on that neck."""


READY = 1.0
"""Up to here a kind of chord comes readily to mind (the table of music/vocabulary.py); by our own choice."""


EASY = 1.4
"""Changes of up to so many points are looked at: about what it takes to set one finger down. By our own choice."""


MOST_LOOKED_AT = 200
"""For so many shapes of a course untaught ones are looked for: beyond that it would be felt in every build."""
FEW = 2
"""How many are looked for at each shape."""


@dataclass(frozen=True, slots=True)
class Untaught:
    """A chord that the course does not teach, in a shape one finger away; points: how hard the change is."""

    chord: Chord
    shape: Shape
    points: float


def taught_shapes(course: Course) -> dict[Known, Chord]:
    """Every shape of the index of chords with the chord it is shown as, in the order of the course."""
    out: dict[Known, Chord] = {}
    for entry in course.chords:
        for met in entry.shapes:
            if met.shape.has_fingers:
                out.setdefault((met.shape, met.fretboard), entry.chord)
    return out


def one_finger_apart(shapes: Iterable[Known]) -> dict[Known, tuple[Known, ...]]:
    """For each shape those of the others that one finger's move leads to, in their order.

    Two such shapes agree in all fingers but one, or in all places but not in who presses one of them; so only shapes
    that agree so far are compared, and a long course costs little.
    """
    known = list(dict.fromkeys(shapes))
    alike: dict[object, list[Known]] = {}
    for one in known:
        for left in _left_over(one):
            alike.setdefault(left, []).append(one)
    order = {one: number for number, one in enumerate(known)}
    pairs = {pair for group in alike.values() for pair in combinations(sorted(group, key=order.__getitem__), 2)}
    found: dict[Known, list[Known]] = {one: [] for one in known}
    for one, other in pairs:
        if _is_one_finger(one[0], other[0]):
            found[one].append(other)
            found[other].append(one)
    return {one: tuple(sorted(others, key=order.__getitem__)) for one, others in found.items()}


def _left_over(known: Known) -> Iterator[object]:
    """What a shape presses without each of its fingers in turn; and for an exchange, with one finger left unnamed."""
    shape, fretboard = known
    for finger in Finger:
        press = shape.press_of(finger)
        rest = frozenset([other for other in shape.presses if other is not press])
        yield fretboard, finger, rest
        if press is not None:
            yield fretboard, press.fret, press.low, press.high, rest


def _is_one_finger(one: Shape, other: Shape) -> bool:
    """Whether exactly one finger moves, an exchange included; damping is left alone, since it moves no press."""
    if one.damped != other.damped:
        return False
    moved = sum(one.press_of(finger) != other.press_of(finger) for finger in Finger)
    return moved == 1 or (moved == 2 and len(exchanges(one, other)) == 1)


def untaught_of(course: Course, hand: Hand) -> tuple[dict[Known, tuple[Untaught, ...]], int]:
    """For each of the first shapes of a course some untaught chords; and for how many others none were looked for."""
    taught = frozenset(taught_shapes(course).values())
    stops = dict.fromkeys(stop.known for one in ways_of(course) for stop in one.way.stops)
    looked = list(islice(stops, MOST_LOOKED_AT))
    return untaught_near(looked, taught, hand, FEW), len(stops) - len(looked)


def untaught_near(
    shapes: Sequence[Known], taught: Collection[Chord], hand: Hand, most: int
) -> dict[Known, tuple[Untaught, ...]]:
    """For each shape up to `most` chords that are not taught, the easiest to reach first.

    Only chords whose name comes readily to mind, with the root as the lowest note: they stand on a page as an
    invitation.
    """
    highest: dict[Fretboard, int] = {}
    for shape, fretboard in shapes:
        highest[fretboard] = max([highest.get(fretboard, OPEN_FRETS), *(press.fret for press in shape.presses)])
    known = frozenset(taught)
    return {(shape, board): _near(shape, board, hand, highest[board], known, most) for shape, board in shapes}


@lru_cache(maxsize=8)
def _neck(fretboard: Fretboard, hand: Hand, highest: int) -> Neck:
    return Neck(fretboard, hand, 1, highest)


# Two pages of a course ask for the same, and in `serve` every build asks again.
@lru_cache(maxsize=2048)
def _near(
    shape: Shape, fretboard: Fretboard, hand: Hand, highest: int, taught: frozenset[Chord], most: int
) -> tuple[Untaught, ...]:
    neck = _neck(fretboard, hand, highest)
    grip = None if shape.damped or not shape.has_fingers else neck.grip(shape)
    if grip is None:
        return ()
    # What further reach adds is reckoned only for those looked at: a move never costs less than without it.
    found: dict[Chord, tuple[int, Grip]] = {}
    for after, least in sorted(neck.bare_moves(grip), key=lambda move: (move[1], move[0])):
        if least > 1000 * EASY or (len(found) >= most and least >= sorted(found.values())[most - 1][0]):
            break
        name = plain_name(neck.frets(after), neck.fretboard)
        if name is not None and _is_inviting(name) and name.chord not in taught:
            reached = (least + neck.added(grip, after), after)
            if reached[0] <= 1000 * EASY:
                found[name.chord] = min(reached, found.get(name.chord, reached))
    easiest = sorted(found.items(), key=lambda item: item[1])[:most]
    return tuple(Untaught(chord, neck.shape(after), cost / 1000) for chord, (cost, after) in easiest)


def _is_inviting(name: ChordName) -> bool:
    return name.ranked.reading.usual <= READY and name.chord.bass is None
