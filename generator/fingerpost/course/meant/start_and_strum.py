"""A block whose start or `strum` can't be read, with the one that was likely meant; the name of the start tells."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace

from fingerpost.course.agreement import agrees, has_its_root_below, rooted_first
from fingerpost.course.ground import Ground
from fingerpost.course.meant.left_out import letters_left_out
from fingerpost.course.meant.search import strums
from fingerpost.course.start import read_start, stands_alone
from fingerpost.course.trail import Trail
from fingerpost.diagnostics import Diagnostic
from fingerpost.music.move import write_move
from fingerpost.music.shape import Shape
from fingerpost.source.grammar import start_or_none, strum_or_none
from fingerpost.source.syntax import BlockSyntax, NameSaid, Token


def as_meant(
    syntax: BlockSyntax, errors: Sequence[Diagnostic], ground: Ground
) -> tuple[BlockSyntax, tuple[Diagnostic, ...]]:
    """The block as it was likely meant, still marked as unread, so that its start is in doubt until a name agrees.

    Second come the findings about its start and its `strum`, with a fix where a letter was left out and the name of
    the start tells which.
    """
    block, mended = syntax, list[Diagnostic]()
    for words in (syntax.unread_start, syntax.unread_strum):
        finding = None if words is None else next((f for f in sorted(errors) if f.span.line == words.span.line), None)
        if words is None or finding is None:
            continue
        if finding.fix:
            block = _with(block, words, replace(words, text=finding.fix))
            continue
        texts = letters_left_out(words, finding.span, ground.fretboard.tuning)
        meant = rooted_first(_holding(block, words, texts, ground), ground) or _strum_by_name(block, words, ground)
        if meant is not None:
            block = _with(block, words, meant)
            mended.append(replace(finding, fix=meant.text))
    return block, tuple(mended)


def about_what_is_written(findings: Iterable[Diagnostic], syntax: BlockSyntax) -> Iterator[Diagnostic]:
    """The findings without those about a start or a `strum` that nobody has written; that it can't be read is said."""
    unread = {words.span.line for words in (syntax.unread_start, syntax.unread_strum) if words is not None}
    return (finding for finding in findings if finding.span.line not in unread)


def _strum_by_name(block: BlockSyntax, words: Token, ground: Ground) -> Token | None:
    """The strum with which the start has the root of its name below; None where another key can't be read."""
    if words != block.unread_strum:
        return None
    tuning = ground.fretboard.tuning
    texts = (replace(words, text=write_move(strum, tuning).removeprefix("strum ")) for strum in strums(ground))
    holding = _holding(block, words, texts, ground)
    return next((text for text, shape, said in holding if said and has_its_root_below(shape, said, ground)), None)


def _with(block: BlockSyntax, words: Token, text: Token) -> BlockSyntax:
    """The block with its start, or its `strum`, read from another text; the same where that can't be read either."""
    if words == block.unread_strum:
        return replace(block, strum=strum_or_none(text))
    return replace(block, start=start_or_none(text))


def _holding(
    block: BlockSyntax, words: Token, texts: Iterator[Token], ground: Ground
) -> Iterator[tuple[Token, Shape, NameSaid | None]]:
    """The texts with which the start can be held and its name holds."""
    for text in texts:
        tried = _with(block, words, text)
        is_read = tried.strum is not None or words != block.unread_strum
        if tried.start is None or not is_read or not stands_alone(tried):
            continue
        read = read_start(tried, ground, Trail())
        if read.shape is not None and not read.findings and agrees(read.shape, tried.start.name, ground):
            yield text, read.shape, tried.start.name
