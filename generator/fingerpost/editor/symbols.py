"""The outline of a page: its blocks, and in each its steps with their names."""

from __future__ import annotations

from lsprotocol import types

from fingerpost.course.model import Step
from fingerpost.diagnostics import Span
from fingerpost.editor.as_lsp import range_of
from fingerpost.editor.desk import Place
from fingerpost.editor.positions import Lines
from fingerpost.editor.sheet import BlockHere, Sheet
from fingerpost.music import chord_symbol


def symbols(place: Place) -> list[types.DocumentSymbol]:
    """The blocks of a page in order."""
    sheet = Sheet.of(place)
    return [] if sheet is None else [_block(here, place.text.lines) for here in sheet.blocks()]


def _block(here: BlockHere, lines: Lines) -> types.DocumentSymbol:
    syntax = here.syntax
    named = syntax.id or syntax.title
    steps = () if here.block is None else here.block.steps
    return types.DocumentSymbol(
        name=named.text if named is not None and named.text.strip() else "moves",
        kind=types.SymbolKind.Namespace,
        range=range_of(syntax.span, lines),
        selection_range=range_of(named.span if named is not None else _head(here), lines),
        detail=syntax.title.text if syntax.title is not None and syntax.title is not named else None,
        children=[_step(step, lines) for step in steps if step.ordinal or syntax.start is not None],
    )


def _head(here: BlockHere) -> Span:
    span = here.syntax.span
    return Span(span.file, span.line, span.column, span.line, span.column + len(here.fence.opening))


def _step(step: Step, lines: Lines) -> types.DocumentSymbol:
    where = range_of(step.span, lines)
    shown = step.naming.shown
    name = "rest" if step.rest else "–" if shown is None else chord_symbol.write(shown)
    return types.DocumentSymbol(
        name=name, kind=types.SymbolKind.Event, range=where, selection_range=where, detail=step.move_text or None
    )
