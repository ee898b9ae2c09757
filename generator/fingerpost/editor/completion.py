"""What an editor offers to write at a cursor: in a block by its grammar, in a mention by what the course holds."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace

from lsprotocol import types

from fingerpost.course.ledger import TECHNIQUES
from fingerpost.course.model import Block, ChordEntry, Step
from fingerpost.course.perform import Held, Stuck, perform
from fingerpost.course.slip import Slip
from fingerpost.course.spots import string_of
from fingerpost.course.start import read_start as start_held
from fingerpost.course.trail import Trail
from fingerpost.diagnostics import Span
from fingerpost.editor import explained_keys, offers
from fingerpost.editor.block_text import Written, written
from fingerpost.editor.desk import Place
from fingerpost.editor.offers import Offer
from fingerpost.editor.sheet import BlockHere, Sheet, blocks_by_span
from fingerpost.music import chord_symbol
from fingerpost.music.shape import Shape, open_shape
from fingerpost.music.tuning import NAMED
from fingerpost.source.actions import A_FINGER, A_PLACE, A_STRING, ACTIONS, AN_ACTION, DASHES
from fingerpost.source.grammar import read_move, read_start
from fingerpost.source.syntax import (
    AfterStart,
    BlockSyntax,
    MoveLine,
    PlaceFinger,
    PreviousStart,
    ShapeStart,
    Token,
)

MENTION = re.compile(r"`+\s*(chord|step|now):\s+([^`]*)$")
NAME = re.compile(r"(?:^|\s)[=~]\s*(?P<word>[^\s,]*)$")
WORD = re.compile(r"[^\s,\[\]]*$")
PLACE_BEGUN = re.compile(r"(?P<finger>[1-4T])(?P<to>\s+to)?\s+$")
BAR_BEGUN = re.compile(rf"[^\s,]+[{DASHES}](?P<word>[^\s,-]*)$")
AFTER_FINGER = "`to` and a place, `off`, or `for` and another finger"
STARTS = {
    "open": "no finger down, every string struck",
    "previous": "where the last block of this page ended",
    "after": "and an id: where that block or step ended",
    "as taught": "and a chord: the shape in which it was taught",
}
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
SPOT_OF_CURSOR = Span("", 1, 1, 1, 1)


@dataclass(frozen=True)
class Offered:
    """What is offered, and how many code points before the cursor it replaces."""

    offers: tuple[Offer, ...]
    replaced: int
    kind: types.CompletionItemKind = types.CompletionItemKind.Value


NOTHING = Offered((), 0)


def completion(place: Place, line: int, column: int) -> types.CompletionList:
    """What may be written at a place, counted from 1; the likeliest first."""
    sheet = Sheet.of(place)
    offered = NOTHING if sheet is None else _offered(sheet, line, column)
    lines = place.text.lines
    start = types.Position(*lines.to_client(line, column - offered.replaced))
    where = types.Range(start, types.Position(*lines.to_client(line, column)))
    items = [_item(offer, index, where, offered.kind) for index, offer in enumerate(offered.offers)]
    # What is in reach depends on what was typed, so the editor has to ask again rather than keep the list.
    return types.CompletionList(is_incomplete=True, items=items)


def _item(offer: Offer, index: int, where: types.Range, kind: types.CompletionItemKind) -> types.CompletionItem:
    return types.CompletionItem(
        label=offer.text,
        kind=kind,
        detail=offer.about or None,
        sort_text=f"{index:04}",
        filter_text=offer.found_by or offer.text,
        text_edit=types.TextEdit(where, offer.text),
        preselect=index == 0 or None,
    )


def _offered(sheet: Sheet, line: int, column: int) -> Offered:
    here = sheet.block_at(line)
    if here is None:
        before = sheet.place.text.lines.line(line)[: column - 1]
        found = MENTION.search(before)
        return NOTHING if found is None else _mention(found[1], found[2], sheet, line)
    at = written(here, line, column)
    if at is None:
        return NOTHING
    if at.key is None:
        return _keys(at)
    return _value(at, here, sheet, line)


def _keys(at: Written) -> Offered:
    about = explained_keys.STEP if at.of_step else explained_keys.BLOCK
    typed = at.words.text
    if typed and not typed.replace("_", "").isalpha():
        return NOTHING
    found = tuple(Offer(f"{key}:", says) for key, says in about.items())
    return Offered(found, len(typed), types.CompletionItemKind.Property)


def _value(at: Written, here: BlockHere, sheet: Sheet, line: int) -> Offered:
    if at.key == "move":
        return _move(at.words, _held(here, line), here)
    if at.key == "start":
        return _start(at.words, here, sheet, line)
    if at.key in ("name", "taught_as"):
        step = here.step_at(line)
        return Offered(tuple(offers.names(step.shape, here.ground)) if step else (), len(at.words.text))
    if at.key == "strum":
        return _ending(at.words.text, offers.strings(here.ground, _by_number(at.words.text)))
    if at.key == "teaches":
        shown = (step for step in (here.block.steps if here.block else ()) if step.naming.shown is not None)
        chords = dict.fromkeys(chord_symbol.write(step.naming.shown) for step in shown if step.naming.shown)
        techniques = [Offer(technique, "technique") for technique in TECHNIQUES]
        return _ending(at.words.text, [*(Offer(chord, "shown in this block") for chord in chords), *techniques])
    if at.key == "tuning":
        found = tuple(Offer(name, str(tuning)) for name, tuning in NAMED.items())
        return Offered(found, len(at.words.text))
    return NOTHING


def _ending(text: str, found: Iterable[Offer]) -> Offered:
    """Offers for the last word of some text."""
    word = WORD.search(text)
    return Offered(tuple(found), len(word.group()) if word else 0)


def _by_number(text: str) -> bool:
    word = WORD.search(text)
    return word is not None and word.group()[:1].isdigit()


def _held(here: BlockHere, line: int) -> Held:
    """What the hand holds before a line."""
    step = here.step_before(line)
    if step is None or here.block is None:
        return Held(open_shape(here.ground.fretboard.strings))
    if step.rest and step.ordinal:
        return Held(step.shape, _before_rest(step, here.block))
    return Held(step.shape)


def _before_rest(step: Step, block: Block) -> Shape:
    return block.steps[step.ordinal - 1].shape


def _move(words: Token, held: Held, here: BlockHere) -> Offered:
    text = words.text
    if name := NAME.search(text):
        line = read_move(_token(_without_name(text))).value
        found = () if line is None else tuple(offers.names_after(held, line, here.ground))
        return Offered(found, len(name["word"]))
    if bar := BAR_BEGUN.search(text):
        return _bar(text, bar, here)
    word = WORD.search(text)
    typed = word.group() if word else ""
    before = text[: len(text) - len(typed)]
    read = read_move(_token(before))
    if read.value is not None:
        return Offered(tuple(Offer(tail, says) for tail, says in TAILS.items()), len(typed))
    shape = _after_earlier(before, held, here)
    found = tuple(_expected(read.findings[0].expected, before, typed, shape, here))
    return Offered(found, len(typed))


def _after_earlier(before: str, held: Held, here: BlockHere) -> Shape:
    """What the hand holds after the moves before the last comma or `and` of a line."""
    done = re.split(r"(?:,|\band)\s+[^,]*$", before)
    line = read_move(_token(done[0])).value if len(done) > 1 else None
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
    line = read_move(_token(text[: bar.start("word") - 1])).value
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


def _without_name(text: str) -> str:
    return re.sub(r"(?:^|\s)[=~][^=~]*$", "", text)


def _token(text: str) -> Token:
    return Token(text, SPOT_OF_CURSOR.part(0, len(text)))


def _start(words: Token, here: BlockHere, sheet: Sheet, line: int) -> Offered:
    text = words.text
    for lead, found in (("after ", _ids), ("as taught ", _chords)):
        if text.startswith(lead) and not NAME.search(text):
            return Offered(tuple(found(sheet, line)), len(text) - len(lead))
    if name := NAME.search(text):
        shape = _start_shape(_without_name(text), here) or _left_by(_without_name(text), sheet, line)
        return Offered(tuple(offers.names(shape, here.ground)) if shape else (), len(name["word"]))
    word = WORD.search(text)
    typed = word.group() if word else ""
    before = text[: len(text) - len(typed)]
    shape = _start_shape(before.rstrip(" ,"), here) or open_shape(here.ground.fretboard.strings)
    put = PLACE_BEGUN.search(before)
    if put is not None:
        shape = _start_shape(before[: put.start()].rstrip(" ,"), here) or open_shape(here.ground.fretboard.strings)
        return Offered(tuple(offers.places(shape, put["finger"], here.ground, typed[:1].isdigit())), len(typed))
    forms = [Offer(form, says) for form, says in STARTS.items()] if not before else []
    free = [offer for offer in offers.fingers(shape, here.ground) if offer.about == "free"]
    due = read_start(_token(before)).value is None
    return Offered((*forms, *(free if due or before.rstrip().endswith(",") else ())), len(typed))


def _left_by(text: str, sheet: Sheet, line: int) -> Shape | None:
    """The shape in which another block, or a step of it, leaves the hand."""
    read = read_start(_token(text)).value
    before = [block for _, block in _blocks_before(sheet, line)]
    if read is not None and isinstance(read.form, PreviousStart):
        above = sheet.block_above(line)
        return above.block.steps[-1].shape if above is not None and above.block is not None else None
    if read is None or not isinstance(read.form, AfterStart):
        return None
    wanted = read.form.id.text
    steps = (step for block in before for step in block.steps if wanted in (step.id, block.id))
    return next((step.shape for step in reversed([*steps])), None)


def _start_shape(text: str, here: BlockHere) -> Shape | None:
    """The shape that the words of a start make, where they need no other block."""
    read = read_start(_token(text)).value
    if read is None:
        return None
    alone = replace(BlockSyntax(here.syntax.span, ""), start=read, strum=here.syntax.strum)
    shape = start_held(alone, here.ground, Trail()).shape
    return shape if shape is None or shape.has_fingers or isinstance(read.form, ShapeStart) else None


def _ids(sheet: Sheet, line: int) -> Iterator[Offer]:
    """Blocks before a place, the nearest first, then their steps."""
    blocks = list(_blocks_before(sheet, line))[::-1]
    yield from (Offer(block.id, f"{block.title or 'block'}, {file}") for file, block in blocks)
    for file, block in blocks:
        yield from (Offer(step.id, f"{_shown(step)}, {file}") for step in block.steps)


def _chords(sheet: Sheet, line: int) -> Iterator[Offer]:
    found: dict[str, str] = {}
    for file, block in _blocks_before(sheet, line):
        for step in block.steps:
            if step.naming.shown is not None and not step.passing:
                found.setdefault(chord_symbol.write(step.naming.shown), f"first in {block.id}, {file}")
    yield from (Offer(symbol, about) for symbol, about in reversed(found.items()))


def _blocks_before(sheet: Sheet, line: int) -> Iterator[tuple[str, Block]]:
    """The blocks of the course up to a line of this page, each with its file."""
    for lesson in sheet.checked.course.lessons:
        here = lesson.file == sheet.place.file
        for span, block in sorted(blocks_by_span(lesson).items()):
            if not here or span.end_line < line:
                yield lesson.file, block
        if here:
            return


def _shown(step: Step) -> str:
    return "rest" if step.rest or step.naming.shown is None else chord_symbol.write(step.naming.shown)


def _mention(kind: str, typed: str, sheet: Sheet, line: int) -> Offered:
    if kind == "chord":
        return Offered(
            tuple(Offer(e.symbol, f"first in {e.first[1]}, {e.first[0]}") for e in _entries(sheet)), len(typed)
        )
    if kind == "now":
        above = sheet.block_above(line)
        steps = above.block.steps[-1:] if above is not None and above.block is not None else ()
        found = (offer for step in steps if above is not None for offer in offers.names(step.shape, above.ground))
        return Offered(tuple(found), len(typed))
    block_id, blank, word = typed.partition(" ")
    blocks = [(lesson.file, b) for lesson in sheet.checked.course.lessons for b in blocks_by_span(lesson).values()]
    if not blank:
        return Offered(tuple(Offer(b.id, f"{b.title or 'block'}, {file}") for file, b in blocks), len(typed))
    steps = next((block.steps for _, block in blocks if block.id == block_id), ())
    chords = dict.fromkeys(_shown(step) for step in steps if step.naming.shown is not None and not step.rest)
    ids = [Offer(step.id, _shown(step)) for step in steps]
    return Offered((*(Offer(chord, f"in {block_id}") for chord in chords), *ids), len(word))


def _entries(sheet: Sheet) -> list[ChordEntry]:
    return list(sheet.checked.course.chords)
