"""What an editor offers to write in a move: what the grammar says is due, out of what the hand holds there."""

from __future__ import annotations

import re
from collections.abc import Iterator

from fingerpost.course.model import Block, Step
from fingerpost.course.perform import Held, Stuck, perform
from fingerpost.course.slip import Slip
from fingerpost.course.spots import string_of
from fingerpost.editor import offers
from fingerpost.editor.offered import NAME, NOTHING, PLACE_BEGUN, WORD, Offered, token, without_name
from fingerpost.editor.offers import Offer
from fingerpost.editor.sheet import BlockHere
from fingerpost.music.shape import Shape, open_shape
from fingerpost.source.actions import A_FINGER, A_PLACE, A_STRING, ACTIONS, AN_ACTION, DASHES
from fingerpost.source.grammar import read_move
from fingerpost.source.syntax import MoveLine, PlaceFinger, Token

BAR_BEGUN = re.compile(rf"[^\s,]+[{DASHES}](?P<word>[^\s,-]*)$")
AFTER_FINGER = "`to` and a place, `off`, or `for` and another finger"
ABOUT_ACTIONS = {
    "shift": "the whole hand slides: shift +2",
    "mute": "a string is damped: mute D by 2",
    "strum": "which strings are struck: strum A-e",
    "hold": "no change",
    "rest": "the hand leaves the neck",
    "back": "the shape before the rest",
}
TAILS = {
    "=": "and a chord: this is its name",
    "~": "and a chord: taught by this name",
    "@": "and a time: the place in your recording",
    "passing": "a way-point, not struck",
    "silent": "no sound changes",
    "and": "one more move in the same moment",
}


def in_move(words: Token, held: Held, here: BlockHere) -> Offered:
    """What may follow the words of a move. held: what the hand holds before them."""
    text = words.text
    if name := NAME.search(text):
        line = read_move(token(without_name(text))).value
        found = () if line is None else tuple(offers.names_after(held, line, here.ground))
        return Offered(found, len(name["word"]))
    if bar := BAR_BEGUN.search(text):
        return _bar(text, bar, here)
    word = WORD.search(text)
    typed = word.group() if word else ""
    before = text[: len(text) - len(typed)]
    read = read_move(token(before))
    if read.value is not None:
        return Offered(tuple(Offer(tail, says) for tail, says in TAILS.items()), len(typed))
    shape = _after_earlier(before, held, here)
    found = tuple(_expected(read.findings[0].expected, before, typed, shape, here))
    return Offered(found, len(typed))


def held_before(here: BlockHere, line: int) -> Held:
    """What the hand holds before a line."""
    step = here.step_before(line)
    if step is None or here.block is None:
        return Held(open_shape(here.ground.fretboard.strings))
    if step.rest and step.ordinal:
        return Held(step.shape, _before_rest(step, here.block))
    return Held(step.shape)


def _before_rest(step: Step, block: Block) -> Shape:
    return block.steps[step.ordinal - 1].shape


def _after_earlier(before: str, held: Held, here: BlockHere) -> Shape:
    """What the hand holds after the moves before the last comma or `and` of a line."""
    done = re.split(r"(?:,|\band)\s+[^,]*$", before)
    line = read_move(token(done[0])).value if len(done) > 1 else None
    try:
        return perform(held, line, here.ground).held.shape if line is not None else held.shape
    except Stuck:
        return held.shape


def _expected(expected: str, before: str, typed: str, shape: Shape, here: BlockHere) -> Iterator[Offer]:
    """What the grammar says is due, as things to write."""
    ground, numbers = here.ground, typed[:1].isdigit()
    if expected == AN_ACTION:
        yield from offers.fingers(shape, ground)
        yield from (Offer(word, ABOUT_ACTIONS.get(word, "")) for word in ACTIONS)
    elif expected == AFTER_FINGER:
        finger = before.split()[-1] if before.split() else ""
        yield Offer("to", "and a place, such as `G2`")
        if finger in {one.mark for one in shape.fingers}:
            yield Offer("off", "the finger leaves the strings")
        elif shape.fingers:
            yield Offer("for", "and a finger, whose place it takes")
    elif expected == A_FINGER:
        but = before.split()[-2] if before.rstrip().endswith("for") and len(before.split()) > 1 else ""
        yield from offers.fingers_down(shape, ground, but)
    elif expected == A_PLACE:
        found = PLACE_BEGUN.search(before)
        if found is not None:
            yield from offers.places(shape, found["finger"], ground, numbers)
    elif expected == A_STRING:
        yield from offers.strings(ground, numbers)


def _bar(text: str, bar: re.Match[str], here: BlockHere) -> Offered:
    """The other end of a bar, or of a range of strings."""
    line = read_move(token(text[: bar.start("word") - 1])).value
    last = line.actions[-1] if line is not None else None
    if isinstance(last, PlaceFinger) and not line_has_name(line):
        try:
            low = string_of(last.place.low, here.ground.fretboard.tuning)
        except Slip:
            return NOTHING
        numbers = last.place.low.text.isdigit()
        found = offers.ends_of_bar(low, int(last.place.fret.text), here.ground, numbers)
        return Offered(tuple(found), len(bar["word"]))
    return Offered(tuple(offers.strings(here.ground, bar["word"][:1].isdigit())), len(bar["word"]))


def line_has_name(line: MoveLine | None) -> bool:
    """Whether a line says a name."""
    return line is not None and line.name is not None
