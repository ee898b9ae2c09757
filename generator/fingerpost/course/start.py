"""The shape that a block starts from: open, spelled out, as a shape, or from where another block left the hand."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from fingerpost.course.ground import Ground
from fingerpost.course.in_doubt import chords_by_text, ids_by_text
from fingerpost.course.moves import move_of, strum_of
from fingerpost.course.naming import symbol_of
from fingerpost.course.objections import fault_finding, fault_span, objection
from fingerpost.course.option_values import nearest
from fingerpost.course.slip import Slip, slip
from fingerpost.course.teaching import teaching_of
from fingerpost.course.trail import Ending, Trail
from fingerpost.course.words import listed, quoted
from fingerpost.diagnostics import Code, Diagnostic
from fingerpost.music.limits import Fault
from fingerpost.music.move import ImpossibleMove, Reason, apply
from fingerpost.music.shape import Shape, open_shape
from fingerpost.music.shape_text import ShapeError, read_shape, write_shape
from fingerpost.source.syntax import (
    Action,
    AfterStart,
    AsTaughtStart,
    BlockSyntax,
    FingersStart,
    OpenStart,
    PlaceFinger,
    PreviousStart,
    ShapeStart,
    Start,
    StrumStrings,
    Token,
)
from fingerpost.source.typing_slips import meant_by


@dataclass(frozen=True)
class StartRead:
    """The shape that a block starts from, None where nothing is known of it; sure is False where a part is unknown.

    struck_as_read: False where nobody knows which strings are struck, so that no name can end the doubt.
    waits_for: the block that this one goes on from, where its end is not known for sure and a finding says why.
    held: the hand holds the shape already, from the block before this one on the page. goes_on_from: the block that it
    comes from, and after how many of its lines (None: all).
    """

    shape: Shape | None
    sure: bool = True
    faults: frozenset[Fault] = frozenset()
    findings: tuple[Diagnostic, ...] = ()
    waits_for: str = ""
    held: bool = False
    goes_on_from: tuple[str, int | None] | None = None
    struck_as_read: bool = True


def stands_alone(block: BlockSyntax) -> bool:
    """Whether the start of a block says by itself what the hand holds, whatever came before."""
    return block.start is not None and isinstance(block.start.form, OpenStart | ShapeStart | FingersStart)


def read_start(block: BlockSyntax, ground: Ground, trail: Trail) -> StartRead:
    """The start of a block. Without the key it goes on from the block before it on the page, else all is open."""
    if block.start is None and "start" in block.unread:
        return StartRead(None)
    try:
        read = _by_form(block.start, ground, trail)
    except Slip as problem:
        return StartRead(None, findings=(problem.finding,))
    if "start" in block.unread or "strum" in block.unread:
        read = replace(read, sure=False, struck_as_read="strum" not in block.unread or block.strum is not None)
    read = read if block.strum is None else _struck(read, block.strum, ground)
    return _faults(read, block.start, ground) if read.shape is not None else read


def _by_form(start: Start | None, ground: Ground, trail: Trail) -> StartRead:
    strings = ground.fretboard.strings
    if start is None:
        last = trail.last_on_page
        return StartRead(open_shape(strings)) if last is None else _still_held(last, None, ground)
    match start.form:
        case OpenStart():
            return StartRead(open_shape(strings))
        case ShapeStart(shape):
            return StartRead(shape_of(shape, ground))
        case FingersStart(actions):
            return _fingers(actions, ground)
        case PreviousStart(span):
            if trail.last_on_page is None:
                message = "There is no block before this one on the page"
                raise slip(span, Code.UNRESOLVED_START, message, "`after` and the id of a block, `open`, or fingers")
            return _still_held(trail.last_on_page, start, ground)
        case AfterStart(token):
            return _going_on(_ending(token, trail), start, ground)
        case AsTaughtStart(symbol):
            return _as_taught(symbol, ground, trail)


def shape_of(token: Token, ground: Ground) -> Shape:
    """The shape that a token writes. Raises Slip at the part that was not understood."""
    try:
        shape = read_shape(token.text, ground.fretboard.strings)
    except ShapeError as problem:
        span = token.piece(problem.position, problem.length)
        raise slip(span, Code.BAD_VALUE, f"This is no shape: {problem.message}", problem.expected) from None
    return shape


def _still_held(ending: Ending, start: Start | None, ground: Ground) -> StartRead:
    """The end of the block before on the page: the hand is still there, unless that block ended on a rest."""
    return replace(_going_on(ending, start, ground), held=not ending.rested)


def _going_on(ending: Ending, start: Start | None, ground: Ground) -> StartRead:
    if ending.shape is None:
        return StartRead(None, waits_for=ending.block)
    if ending.shape.strings != ground.fretboard.strings:
        message = (
            f"The block {quoted(ending.block)} is played on {ending.shape.strings} strings, this one on "
            f"{ground.fretboard.strings}, so the hand can't go on from there"
        )
        span = start.text.span if start is not None else ending.span
        raise slip(span, Code.UNRESOLVED_START, message, "a start of its own: `open`, fingers or a shape")
    return StartRead(
        ending.shape,
        ending.sure,
        ending.faults,
        waits_for="" if ending.sure else ending.block,
        goes_on_from=(ending.block, ending.upto),
    )


def _ending(token: Token, trail: Trail) -> Ending:
    ending = trail.ending(token.text)
    if ending is not None:
        return ending
    known = list(trail.block_ids)
    later = next((block for block in trail.later.values() if token.text in ids_by_text(block)), None)
    if later is not None:
        what = "block" if later.id is not None and later.id.text == token.text else "step"
        message = f"The {what} {quoted(token.text)} comes later in the course, so no hand comes from there"
        fix = _put_before(later, token) or nearest(token.text, known)
        raise slip(token.span, Code.UNRESOLVED_START, message, "a block that comes before this one", fix)
    if trail.nameless and not meant_by(token.text, known):
        return Ending(token.text, token.span, None, sure=False)
    near = nearest(token.text, known)
    expected = f"the id of an earlier block{' such as ' + quoted(near) if near else ''}"
    raise slip(token.span, Code.UNRESOLVED_START, f"No block or step is called {quoted(token.text)}", expected, near)


def _as_taught(token: Token, ground: Ground, trail: Trail) -> StartRead:
    try:
        chord = symbol_of(token)
    except Slip as problem:
        raise Slip(replace(problem.finding, fix=meant_by(token.text, trail.symbols()))) from None
    sightings = trail.shapes_of(chord, ground.fretboard.tuning)
    shapes, first = list(sightings), next(iter(sightings.values()), None)
    if chord in trail.promised and (first is None or not first.taught_here):
        return StartRead(None, waits_for=trail.promised[chord])
    if first is not None and not first.sure and len(shapes) > 1:
        return StartRead(None, waits_for=first.block)
    if first is not None and len(shapes) == 1:
        waits_for = "" if first.sure else first.block
        return StartRead(shapes[0], first.sure, waits_for=waits_for, goes_on_from=(first.block, first.step.ordinal))
    if shapes:
        choices = [quoted(write_shape(shape)) for shape in shapes]
        message = f"{quoted(token.text)} was taught in {len(shapes)} shapes: {listed(choices, 'and')}"
        raise slip(token.span, Code.UNRESOLVED_START, message, "the shape that is meant", write_shape(shapes[-1]))
    expected, message = "a chord that an earlier block shows", f"No earlier block shows {quoted(token.text)}"
    shows = [block for block in trail.later.values() if chord in chords_by_text(block)]
    # One that teaches it, else one of another page: what the page itself shows below is no reason to ask for it here.
    later = min(shows, key=lambda b: (chord not in teaching_of(b).chords, not _put_before(b, token)), default=None)
    if later is None:
        raise slip(token.span, Code.UNRESOLVED_START, message, expected, nearest(token.text, trail.symbols()))
    fix = _put_before(later, token)
    named = "the block" if later.id is None else quoted(later.id.text)
    message += f"; {named}{f' in {later.span.file}' if fix else ''} does, and comes later"
    raise slip(token.span, Code.UNRESOLVED_START, message, expected, fix)


def _put_before(later: BlockSyntax, token: Token) -> str:
    """What to do where a start asks for a block on a page that comes too late; "" where it is on the same page."""
    return f"put {later.span.file} before this page" if later.span.file != token.span.file else ""


def _fingers(actions: Sequence[Action], ground: Ground) -> StartRead:
    """The fingers put down one by one on open strings; each that can't be is reported, the others are put down."""
    read = StartRead(open_shape(ground.fretboard.strings))
    for action in actions:
        read = _struck(read, action, ground) if isinstance(action, StrumStrings) else _fingered(read, action, ground)
    return read


def _fingered(read: StartRead, action: Action, ground: Ground) -> StartRead:
    assert read.shape is not None
    try:
        return replace(read, shape=_put(read.shape, action, ground))
    except ImpossibleMove as problem:
        finding = objection(action, problem, read.shape, ground.fretboard)
    except Slip as problem:
        finding = problem.finding
    return replace(read, sure=False, findings=(*read.findings, finding))


def _put(shape: Shape, action: Action, ground: Ground) -> Shape:
    move = move_of(action, ground.fretboard)
    if isinstance(action, PlaceFinger):
        mark = action.finger.text.upper()
        if mark in {finger.mark for finger in shape.fingers}:
            message = f"Finger {mark} is put down twice in this start"
            free = [other for other in "1234" if other not in {finger.mark for finger in shape.fingers}]
            raise slip(
                action.finger.span, Code.IMPOSSIBLE_MOVE, message, f"another finger: {listed(free)}" if free else ""
            )
    try:
        return shape if move is None else apply(shape, move, ground.fretboard.highest_fret)
    except ImpossibleMove as problem:
        if problem.reason is Reason.ALREADY_SO:
            return shape
        raise


def _struck(read: StartRead, strum: StrumStrings, ground: Ground) -> StartRead:
    """The start with the strings that its words have struck; where they can't be read, those likely meant."""
    if read.shape is None:
        return read
    try:
        return replace(read, shape=read.shape.with_struck(strum_of(strum, ground.fretboard).strings))
    except Slip as problem:
        meant = _strum_meant(strum, problem.finding, ground)
        shape = read.shape if meant is None else read.shape.with_struck(meant)
        known, findings = meant is not None and read.struck_as_read, (*read.findings, problem.finding)
        return replace(read, shape=shape, sure=False, struck_as_read=known, findings=findings)


def _strum_meant(strum: StrumStrings, finding: Diagnostic, ground: Ground) -> frozenset[int] | None:
    """What is struck where the word is as the finding about it offers; None where that can't be read either."""
    ranges = tuple((_offered(first, finding), _offered(last, finding)) for first, last in strum.ranges)
    try:
        return strum_of(replace(strum, ranges=ranges), ground.fretboard).strings
    except Slip:
        return None


def _offered(word: Token, finding: Diagnostic) -> Token:
    return replace(word, text=finding.fix) if finding.fix and word.span == finding.span else word


def _faults(read: StartRead, start: Start | None, ground: Ground) -> StartRead:
    """The start with what no hand could hold of it; a start without fingers has its fingers found later."""
    if read.shape is None or start is None:
        return read
    new = [fault for fault in ground.hand.faults(read.shape, ground.fretboard) if fault not in read.faults]
    actions = start.form.actions if isinstance(start.form, FingersStart) else ()
    found = tuple(fault_finding(fault, fault_span(fault, actions, _form_span(start).span)) for fault in new[:1])
    return replace(read, faults=read.faults | frozenset(new), findings=(*read.findings, *found))


def _form_span(start: Start) -> Token:
    """The words of the start without the name that it may claim."""
    if isinstance(start.form, ShapeStart):
        return start.form.shape
    if start.name is None:
        return start.text
    length = start.name.symbol.span.column - start.text.span.column
    text = start.text.text[:length].rstrip("=~ ")
    return Token(text, start.text.span.part(0, len(text)))
