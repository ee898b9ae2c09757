"""What the mentions in the prose stand for: a chord as last taught, a step, what the hand holds at this place."""

from __future__ import annotations

from dataclasses import dataclass, field

from fingerpost.course.heard import heard_of
from fingerpost.course.model import Block, MentionMeaning, Step
from fingerpost.course.naming import chord_or_none, symbol_of
from fingerpost.course.option_values import nearest
from fingerpost.course.slip import Slip, slip
from fingerpost.course.trail import Sighting, Trail
from fingerpost.course.words import quoted
from fingerpost.diagnostics import Code, Diagnostic
from fingerpost.music import chord_symbol
from fingerpost.music.chord import Chord
from fingerpost.music.chord_name import fit
from fingerpost.source.syntax import Mention, Token
from fingerpost.source.typing_slips import meant_by


@dataclass(frozen=True)
class Here:
    """Where in the course a mention stands: the blocks before it on its page, and the trail up to it.

    last: the block above it on the page with its file, None where there is none; unsure: what it leaves is not known.
    seen: for a chord, its latest sighting before this place.
    """

    last: Block | None
    unsure: bool
    seen: Sighting | None


@dataclass
class Blocks:
    """All blocks of a course by id, and their steps by id, each with the file that it stands in.

    unknown: ids of what can't be made out. nameless: there are blocks without an id, so any id may be theirs.
    """

    by_id: dict[str, tuple[str, Block]] = field(default_factory=dict)
    by_step: dict[str, tuple[str, Block, Step]] = field(default_factory=dict)
    unknown: set[str] = field(default_factory=set)
    nameless: bool = False

    def add(self, file: str, block: Block) -> None:
        """Takes a block in; the first of an id counts."""
        self.by_id.setdefault(block.id, (file, block))
        for step in block.steps:
            self.by_step.setdefault(step.id, (file, block, step))


def last_seen(mention: Mention, trail: Trail) -> Sighting | None:
    """The latest sighting of the chord that is mentioned: in a block that teaches it, if any, else in any block."""
    if mention.kind != "chord" or not mention.words:
        return None
    chord = chord_or_none(mention.words[0])
    return None if chord is None else trail.last_taught(chord)


def meaning(
    mention: Mention, here: Here, blocks: Blocks, trail: Trail
) -> tuple[MentionMeaning, tuple[Diagnostic, ...]]:
    """What a mention stands for, once the whole course is known; with a finding where it stands for nothing."""
    try:
        return _BY_KIND[mention.kind](mention, here, blocks, trail), ()
    except Slip as problem:
        return _plain(mention), (problem.finding,)


def _words(mention: Mention) -> str:
    return " ".join(token.text for token in mention.words)


def _plain(mention: Mention) -> MentionMeaning:
    return MentionMeaning(mention.kind, mention.ordinal, _words(mention), mention.span)


def _chord(mention: Mention, here: Here, blocks: Blocks, trail: Trail) -> MentionMeaning:
    token = _first(mention)
    chord = symbol_of(token)
    seen = here.seen or trail.first_taught(chord)
    if seen is None and trail.may_show(chord):
        return _plain(mention)
    if seen is None:
        near = nearest(token.text, trail.symbols())
        message = f"No block of the course shows {quoted(token.text)}"
        raise slip(token.span, Code.UNRESOLVED_MENTION, message, "a chord that a block shows", near)
    return MentionMeaning(
        mention.kind, mention.ordinal, token.text, mention.span, seen.file, seen.block, seen.step, seen.fretboard
    )


def _step(mention: Mention, here: Here, blocks: Blocks, trail: Trail) -> MentionMeaning:
    token = _first(mention)
    if token.text in blocks.unknown and token.text not in blocks.by_id and token.text not in blocks.by_step:
        return _plain(mention)
    if len(mention.words) == 1 and token.text in blocks.by_step:
        file, block, step = blocks.by_step[token.text]
    else:
        if (found := _block(token, blocks)) is None:
            return _plain(mention)
        file, block = found
        step = block.steps[0] if len(mention.words) == 1 else _step_of(mention.words[1], block)
    words = _words(mention)
    return MentionMeaning(mention.kind, mention.ordinal, words, mention.span, file, block.id, step, block.fretboard)


def _block(token: Token, blocks: Blocks) -> tuple[str, Block] | None:
    """The block of that id and its file; None where it may be one that has lost its id."""
    if token.text in blocks.by_id:
        return blocks.by_id[token.text]
    near = nearest(token.text, blocks.by_id)
    if blocks.nameless and not meant_by(token.text, blocks.by_id):
        return None
    message = f"No block or step is called {quoted(token.text)}"
    raise slip(
        token.span, Code.UNRESOLVED_MENTION, message, "the id of a block, then a chord or the id of a step", near
    )


def _step_of(token: Token, block: Block) -> Step:
    own = next((step for step in block.steps if step.id == token.text), None)
    chord = None if own is not None else chord_or_none(token)
    found = own or next((step for step in block.steps if chord is not None and step.naming.shown == chord), None)
    if found is not None:
        return found
    shown = list(dict.fromkeys(chord_symbol.write(s.naming.shown) for s in block.steps if s.naming.shown is not None))
    message = f"The block {quoted(block.id)} has no step {quoted(token.text)}"
    raise slip(
        token.span, Code.UNRESOLVED_MENTION, message, "one of its chords: " + ", ".join(shown),
        nearest(token.text, shown),
    )  # fmt: skip


def _now(mention: Mention, here: Here, blocks: Blocks, trail: Trail) -> MentionMeaning:
    token = _first(mention)
    chord = symbol_of(token)
    if here.unsure:
        return _plain(mention)
    if here.last is None:
        message = "No block stands above this on the page, so the hand holds nothing yet"
        raise slip(token.span, Code.UNRESOLVED_MENTION, message, "`now:` below a block")
    step = here.last.steps[-1]
    _check_held(token, chord, step, here.last)
    return MentionMeaning(
        mention.kind,
        mention.ordinal,
        token.text,
        mention.span,
        token.span.file,
        here.last.id,
        step,
        here.last.fretboard,
    )


def _check_held(token: Token, chord: Chord, step: Step, block: Block) -> None:
    heard = None if step.rest else heard_of(step.shape, block.fretboard)
    if heard is None or step.naming.shown is None:
        what = "the hand is off the neck" if step.rest else "nothing sounds"
        raise slip(token.span, Code.MENTION_DENIED, f"Here {what}, so it is not {quoted(token.text)}", "no `now:` here")
    if chord == step.naming.shown or fit(chord, heard.pitch_classes, heard.bass).holds:
        return
    held = chord_symbol.write(step.naming.shown)
    message = f"Here the hand holds {held}, not {quoted(token.text)}"
    raise slip(token.span, Code.MENTION_DENIED, message, f"`now: {held}`", held)


def _first(mention: Mention) -> Token:
    if mention.words:
        return mention.words[0]
    message = f"`{mention.kind}:` says nothing"
    raise slip(mention.span, Code.UNRESOLVED_MENTION, message, "a chord, or the id of a block")


_BY_KIND = {"chord": _chord, "step": _step, "now": _now}
