"""What an editor offers to write as the start of a block: a form of it, places of fingers, or what came before."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from fingerpost.course.model import Block
from fingerpost.course.start import read_start as start_held
from fingerpost.course.trail import Trail
from fingerpost.editor import offers
from fingerpost.editor.offered import NAME, PLACE_BEGUN, WORD, Offered, token, without_name
from fingerpost.editor.offers import Offer
from fingerpost.editor.sheet import BlockHere, Sheet, blocks_by_span, shown
from fingerpost.music import chord_symbol
from fingerpost.music.shape import Shape, open_shape
from fingerpost.source.grammar import read_start
from fingerpost.source.syntax import AfterStart, BlockSyntax, PreviousStart, ShapeStart, Token

STARTS = {
    "open": "no finger down, every string struck",
    "previous": "where the last block of this page ended",
    "after": "and an id: where that block or step ended",
    "as taught": "and a chord: the shape in which it was taught",
}


def in_start(words: Token, here: BlockHere, sheet: Sheet, line: int) -> Offered:
    """What may follow the words of a start."""
    text = words.text
    for lead, found in (("after ", _ids), ("as taught ", _chords)):
        if text.startswith(lead) and not NAME.search(text):
            return Offered(tuple(found(sheet, line)), len(text) - len(lead))
    if name := NAME.search(text):
        shape = _start_shape(without_name(text), here) or _left_by(without_name(text), sheet, line)
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
    due = read_start(token(before)).value is None
    return Offered((*forms, *(free if due or before.rstrip().endswith(",") else ())), len(typed))


def _left_by(text: str, sheet: Sheet, line: int) -> Shape | None:
    """The shape in which another block, or a step of it, leaves the hand."""
    read = read_start(token(text)).value
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
    read = read_start(token(text)).value
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
        yield from (Offer(step.id, f"{shown(step)}, {file}") for step in block.steps)


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
