"""Where a word leads: a mention to its step, `after` to the block it names, a chord to where it is first taught."""

from __future__ import annotations

from collections.abc import Iterator

from lsprotocol import types

from fingerpost.course.naming import chord_or_none
from fingerpost.diagnostics import Span
from fingerpost.editor.as_lsp import range_of
from fingerpost.editor.desk import Place
from fingerpost.editor.open_texts import OpenTexts, uri_of
from fingerpost.editor.positions import Lines
from fingerpost.editor.sheet import BlockHere, Sheet, blocks_by_span, holds, token_at
from fingerpost.source.syntax import AfterStart, AsTaughtStart, BlockSyntax, PreviousStart, Token
from fingerpost.workspace.checked import Checked


def definition(place: Place, line: int, column: int, texts: OpenTexts) -> list[types.Location]:
    """The place that the word at a place leads to; none where it leads nowhere."""
    sheet = Sheet.of(place)
    if sheet is None:
        return []
    span = _of_mention(sheet, line, column)
    here = sheet.block_at(line)
    if span is None and here is not None:
        span = _of_block(sheet, here, line, column)
    return [] if span is None else [_location(span, place, texts)]


def _location(span: Span, place: Place, texts: OpenTexts) -> types.Location:
    path = place.course.path_of(span.file)
    if span.file == place.file:
        return types.Location(place.text.uri, range_of(span, place.text.lines))
    opened = texts.at(path)
    if opened is not None:
        return types.Location(opened.uri, range_of(span, opened.lines))
    known = next((page.text for page in place.course.sources.pages if page.file == span.file), "")
    return types.Location(uri_of(path), range_of(span, Lines(known, texts.encoding)))


def _of_mention(sheet: Sheet, line: int, column: int) -> Span | None:
    mention = sheet.mention_at(line, column)
    meaning = None if mention is None else sheet.meaning(mention)
    if mention is None or meaning is None or meaning.step is None:
        return None
    if mention.kind == "chord":
        return _taught(mention.words[0], sheet.checked)
    if mention.kind == "step" and len(mention.words) == 1 and meaning.step.ordinal == 0:
        return _id(meaning.block_id or "", sheet.checked)
    return meaning.step.span


def _of_block(sheet: Sheet, here: BlockHere, line: int, column: int) -> Span | None:
    syntax = here.syntax
    form = None if syntax.start is None else syntax.start.form
    if isinstance(form, AfterStart) and holds(form.id.span, line, column):
        return _id(form.id.text, sheet.checked)
    if isinstance(form, PreviousStart) and holds(form.span, line, column):
        before = sheet.block_above(here.fence.first_line)
        return None if before is None or before.block is None else before.block.steps[-1].span
    symbol = token_at(tuple(_symbols(syntax)), line, column)
    if symbol is not None:
        return _taught(symbol, sheet.checked)
    own = token_at((syntax.id, *(step.id for step in syntax.steps)), line, column)
    return None if own is None else own.span


def _symbols(syntax: BlockSyntax) -> Iterator[Token]:
    """Every word of a block that names a chord."""
    if syntax.start is not None and isinstance(syntax.start.form, AsTaughtStart):
        yield syntax.start.form.symbol
    yield from syntax.teaches
    yield from (name.symbol for name in syntax.names)


def _id(name: str, checked: Checked) -> Span | None:
    """The word that gives a block or a step its id; the step itself where its id is made."""
    for page in checked.pages:
        for block in page.syntax.blocks:
            for token in (block.id, *(step.id for step in block.steps)):
                if token is not None and token.text == name:
                    return token.span
    return _step(name, checked)


def _step(name: str, checked: Checked) -> Span | None:
    for lesson in checked.course.lessons:
        for block in blocks_by_span(lesson).values():
            for step in block.steps:
                if step.id == name:
                    return step.span
    return None


def _taught(symbol: Token, checked: Checked) -> Span | None:
    """The step in which a chord is first taught."""
    chord = chord_or_none(symbol)
    entry = next((entry for entry in checked.course.chords if entry.chord == chord), None)
    return None if entry is None else _step(entry.first[2], checked)
