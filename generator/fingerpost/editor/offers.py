"""What can be written next in a move, out of what the hand holds: fingers, places in reach, and the names they make."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from fingerpost.course.ground import Ground
from fingerpost.course.heard import heard_of
from fingerpost.course.name_book import NameBook
from fingerpost.course.naming import computed
from fingerpost.course.perform import Held, Stuck, perform
from fingerpost.music import chord_symbol
from fingerpost.music.difficulty import difficulty
from fingerpost.music.move import ImpossibleMove, Place, apply
from fingerpost.music.shape import Finger, Press, Shape
from fingerpost.music.transition import transition
from fingerpost.source.syntax import MoveLine


@dataclass(frozen=True)
class Offer:
    """One thing to write, a few words about it, and what may be typed to find it (the text itself if "")."""

    text: str
    about: str = ""
    found_by: str = ""


def fingers(shape: Shape, ground: Ground) -> Iterator[Offer]:
    """The fingers of this course: those that are down with where they are, then those that are free."""
    usable = [*(Finger(number) for number in ground.hand.limits.fingers), Finger.THUMB]
    down = [finger for finger in usable if finger in shape.fingers]
    for finger in down:
        yield Offer(finger.mark, f"down, {_where(shape.press_of(finger), ground)}")
    for finger in usable:
        if finger not in down and (finger is not Finger.THUMB or ground.hand.limits.thumb_strings):
            yield Offer(finger.mark, "free")


def fingers_down(shape: Shape, ground: Ground, but: str = "") -> Iterator[Offer]:
    """The fingers that are down, apart from one."""
    yield from (offer for offer in fingers(shape, ground) if offer.about != "free" and offer.text != but)


def strings(ground: Ground, numbers: bool = False) -> Iterator[Offer]:
    """The strings of the tuning, by letter where one serves, else by number."""
    for string in range(ground.fretboard.strings, 0, -1):
        pitch = ground.fretboard.tuning.pitch(string)
        yield Offer(_called(string, ground, numbers), f"string {string}, open {pitch}")


def places(shape: Shape, finger: str, ground: Ground, numbers: bool = False) -> Iterator[Offer]:
    """The places that a finger reaches from here, the easiest first, each with the name that it makes."""
    mover = Finger.from_mark(finger)
    found = sorted(_reached(shape, mover, ground), key=lambda one: one[0])
    for _, string, fret, after in found:
        name = name_of(after, ground)
        yield Offer(
            spot(string, fret, ground, numbers), f"string {string}, fret {fret}" + (f": {name}" if name else "")
        )


def _reached(shape: Shape, finger: Finger, ground: Ground) -> Iterator[tuple[float, int, int, Shape]]:
    board, hand = ground.fretboard, ground.hand
    broken = set(hand.faults(shape, board))
    for string in range(board.strings, 0, -1):
        for fret in range(1, board.highest_fret + 1):
            try:
                after = apply(shape, Place(finger, fret, string, string), board.highest_fret)
            except ImpossibleMove:
                continue
            if broken.issuperset(hand.faults(after, board)):
                yield difficulty(transition(shape, after, board), board, hand).total, string, fret, after


def ends_of_bar(low: int, fret: int, ground: Ground, numbers: bool = False) -> Iterator[Offer]:
    """Where a bar that begins on a string may end."""
    for string in range(low - 1, 0, -1):
        yield Offer(spot(string, fret, ground, numbers), f"a bar over {low - string + 1} strings")


def names_after(held: Held, line: MoveLine, ground: Ground) -> Iterator[Offer]:
    """The names that hold after a line, the likeliest first; none where the line can't be done."""
    try:
        after = perform(held, line, ground).held
    except Stuck:
        return
    if not after.resting:
        yield from names(after.shape, ground)


def names(shape: Shape, ground: Ground) -> Iterator[Offer]:
    """The names of a shape, the likeliest first."""
    heard = heard_of(shape, ground.fretboard)
    if heard is None:
        return
    naming = computed(heard, ground, NameBook())
    best = [] if naming.shown is None else [chord_symbol.write(naming.shown)]
    why = {name.symbol: name.why for name in naming.ranked}
    for symbol in dict.fromkeys([*best, *why]):
        yield Offer(symbol, why.get(symbol, "the usual name; the lowest note is left to the footnote"))


def name_of(shape: Shape, ground: Ground) -> str:
    """The likeliest name of a shape, "" where nothing sounds."""
    return next((offer.text for offer in names(shape, ground)), "")


def spot(string: int, fret: int, ground: Ground, numbers: bool = False) -> str:
    """A place as a move writes it: `G2`, or `3:2`."""
    letter = ground.fretboard.tuning.letter(string)
    return f"{letter}{fret}" if letter and not numbers else f"{string}:{fret}"


def _called(string: int, ground: Ground, numbers: bool) -> str:
    letter = ground.fretboard.tuning.letter(string)
    return letter if letter and not numbers else str(string)


def _where(press: Press | None, ground: Ground) -> str:
    if press is None:
        return ""
    ends = dict.fromkeys((press.low, press.high))
    return "on " + "-".join(spot(string, press.fret, ground) for string in ends)
