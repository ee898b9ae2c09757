"""One block from its syntax: its steps, and what follows from them. Depends on nothing but its arguments."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace

from fingerpost.course.build_up import build_up
from fingerpost.course.extras import unholdable
from fingerpost.course.ground import Ground
from fingerpost.course.heard import heard_of
from fingerpost.course.kept_lines import KeptLines
from fingerpost.course.ledger import Use, uses_of
from fingerpost.course.meant.second_reading import denials, second_reading
from fingerpost.course.meant.start_again import start_again
from fingerpost.course.meant.thread import Joined, Strand
from fingerpost.course.meant.unread_line import Unread
from fingerpost.course.model import Block, Step
from fingerpost.course.name_book import NameBook
from fingerpost.course.naming import unreadable_names
from fingerpost.course.perform import Held, Stuck, movers, perform
from fingerpost.course.practice import practice
from fingerpost.course.slip import warning
from fingerpost.course.start import StartRead
from fingerpost.course.steps import Walk
from fingerpost.course.teaching import teaching_of
from fingerpost.course.ways_back import ways_back, wrap_around
from fingerpost.course.words import quoted
from fingerpost.diagnostics import Code, Diagnostic, Edit, Span
from fingerpost.music.chord import Chord
from fingerpost.music.fingering import fingerings
from fingerpost.music.shape import Shape
from fingerpost.music.shape_text import write_shape
from fingerpost.source.syntax import BlockSyntax, FingersStart, PlaceFinger, ShapeStart, StepSyntax

MOST_FINGERINGS_TRIED = 12
LINES_TRIED = 40
"""How many fingerings of a start are tried, and on how many lines, to find the one that the moves mean."""


@dataclass(frozen=True)
class BuiltBlock:
    """A block with its findings. block is None where nothing is known of its start; held is the hand at its end.

    written: for each step of the block the line that made it, None for the start. asked: what it asked the book of
    names. shown: the names it would enter there. uses: what the ledger notes of it.
    doubted: what the hand holds was in doubt anywhere, so that the block may not be what its page should show.
    begun: the hand at its start. denied: whether its lines deny each other, so that it is worth a second reading.
    """

    block: Block | None
    findings: tuple[Diagnostic, ...] = ()
    held: Held | None = None
    written: tuple[StepSyntax | None, ...] = ()
    asked: dict[frozenset[int], Chord | None] = field(default_factory=dict)
    shown: tuple[Chord, ...] = ()
    uses: dict[Use, Step] = field(default_factory=dict)
    doubted: bool = False
    begun: Held | None = None
    denied: bool = False


def build_block(
    block_id: str,
    syntax: BlockSyntax,
    lines: KeptLines,
    start: StartRead,
    book: NameBook,
    unread: Mapping[Span, Unread],
    for_pages: bool = True,
    joined: Joined | None = None,
) -> BuiltBlock:
    """The block that starts from `start` on the ground of `lines`. unread: see Walk.go. for_pages: see build.build.

    joined: the blocks that it is read a second time with, where it is.
    """
    ground = lines.ground
    if start.shape is None:
        return BuiltBlock(None, (*start.findings, *unreadable_names(syntax)))
    shape, found = _with_fingers(start.shape, syntax, ground)
    if shape is None:
        return BuiltBlock(None, (*start.findings, *found, *unreadable_names(syntax)))
    asking = NameBook(book.used)

    def begin(held: Held) -> Walk:
        walk = Walk(block_id, lines, asking, held, for_pages=for_pages, struck_as_read=start.struck_as_read)
        text = syntax.start.text.text if syntax.start is not None else ""
        walk.begin(syntax.start.name if syntax.start else None, _start_span(syntax), text)
        return walk

    held = Held(shape, None, start.sure, start.faults)
    walk = begin(held)
    walk.go(syntax.steps, unread)
    at_start = denials(start.findings)
    denied = bool(at_start or denials(walk.findings))
    said = start.findings
    if denied and joined is not None:
        thread = joined.around(Strand(syntax, held=held))
        first = min(at_start, default=None)
        again = start_again(first, thread, ground, begin) if first else second_reading(walk, thread, ground, begin)
        said = said if again is None else tuple(finding for finding in said if finding not in at_start)
        walk = again or walk
    block = _begun(block_id, syntax, ground, walk, start.held)
    block = _finished(block, syntax, ground) if for_pages else block
    return BuiltBlock(
        block,
        (*said, *found, *walk.findings),
        walk.held,
        tuple(walk.written),
        asking.asked,
        tuple(dict.fromkeys(_shown(block))),
        _as_decided(uses_of(block), syntax, ground),
        walk.doubted,
        held,
        denied,
    )


def _as_decided(uses: dict[Use, Step], syntax: BlockSyntax, ground: Ground) -> dict[Use, Step]:
    """What the block uses; a name that the course has decided against, which is told, counts as the one decided for.

    But not one that the block itself teaches.
    """
    if not ground.ties:
        return uses
    decided, taught = {refused: chosen for chosen, refused in ground.ties}, teaching_of(syntax).chords
    out = dict[Use, Step]()
    for use, step in uses.items():
        chord = use.name if isinstance(use.name, Chord) and use.name not in taught else None
        chosen = None if chord is None else decided.get(chord.with_bass(None))
        meant = use if chord is None or chosen is None else Use(use.kind, chosen.with_bass(chord.bass))
        out.setdefault(meant, step)
    return out


def _shown(block: Block) -> Iterator[Chord]:
    """The names that name exactly what sounds, without a slash."""
    for step in block.steps:
        heard = heard_of(step.shape, block.fretboard)
        plain = None if step.naming.shown is None else step.naming.shown.with_bass(None)
        if plain is not None and heard is not None and plain.pitch_classes == heard.pitch_classes:
            yield plain


def _begun(block_id: str, syntax: BlockSyntax, ground: Ground, walk: Walk, goes_on: bool) -> Block:
    return Block(
        id=block_id,
        title=None if syntax.title is None else syntax.title.text,
        span=syntax.span,
        fretboard=ground.fretboard,
        key=None if ground.key is None else str(ground.key),
        teaches=tuple(token.text for token in syntax.teaches),
        steps=tuple(walk.steps),
        goes_on=goes_on,
    )


def _finished(block: Block, syntax: BlockSyntax, ground: Ground) -> Block:
    """The block with all that its page shows besides the steps."""
    steps, board = block.steps, block.fretboard
    back, wrap = ways_back(steps, board), wrap_around(steps, board)
    return replace(
        block,
        build_up=() if block.goes_on else build_up(steps[0], board, _written_order(syntax)),
        ways_back=back,
        wrap_around=wrap,
        practice=practice(steps, back, wrap, ground),
    )


def _written_order(syntax: BlockSyntax) -> tuple[str, ...]:
    """The fingers in the order in which the start puts them down; none where it does not say."""
    form = None if syntax.start is None else syntax.start.form
    actions = form.actions if isinstance(form, FingersStart) else ()
    return tuple(action.finger.text.upper() for action in actions if isinstance(action, PlaceFinger))


def _start_span(syntax: BlockSyntax) -> Span:
    if syntax.start is not None:
        return syntax.start.text.span
    return syntax.id.span if syntax.id is not None else syntax.span


def _with_fingers(shape: Shape, syntax: BlockSyntax, ground: Ground) -> tuple[Shape | None, tuple[Diagnostic, ...]]:
    """The shape with its fingers found where the start does not say them, those with which most moves can be made."""
    if shape.has_fingers or syntax.start is None or not isinstance(syntax.start.form, ShapeStart):
        return shape, ()
    token = syntax.start.form.shape
    possible = fingerings(shape, ground.fretboard, ground.hand)[:MOST_FINGERINGS_TRIED]
    if not possible:
        return None, (unholdable(shape, token, ground),)
    best = max(possible, key=lambda fingered: _lines_done(fingered, syntax, ground))
    if not any(movers(step.line.actions) for step in syntax.steps if step.line is not None):
        return best, ()
    text = write_shape(best)
    finding = warning(
        token.span,
        Code.START_WITHOUT_FINGERS,
        f"The moves name fingers, and {quoted(token.text)} does not say which finger is where",
        "a shape with its fingers after a slash",
        text,
        (Edit(token.span, text),),
    )
    return best, (finding,)


def _lines_done(shape: Shape, syntax: BlockSyntax, ground: Ground) -> int:
    """How many of the first lines can be done one after the other from here."""
    held = Held(shape)
    for count, step in enumerate(syntax.steps[:LINES_TRIED]):
        if step.line is None:
            continue
        try:
            done = perform(held, step.line, ground)
        except Stuck:
            return count
        if done.findings:
            return count
        held = replace(done.held, sure=True)
    return len(syntax.steps)
