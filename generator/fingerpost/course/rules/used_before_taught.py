"""A chord, a technique, a finger or a fret that is used before it was taught.

What a block introduces stands in its `teaches`; what it uses must stand there or in the `teaches` of an earlier block,
in the order of the lessons. A student who follows the course then never meets what nobody has shown. A course in which
no block says `teaches` is left alone; fingers (`finger 4`) and frets (`fret 5`) are asked for only where some block
teaches one of their kind.

    start: x02210/--231- = Am
    teaches: [Am]
    steps:
    - 3 off = Am7

Add it to `teaches`, or move the lesson behind the one that teaches it. The fix adds it only where that covers nothing
up: to the block that uses it first, if no later block teaches it, no word of that `teaches` may have meant it, and the
author gave the chord a name that holds.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Set
from dataclasses import replace

from fingerpost.course.ledger import Use, use_word
from fingerpost.course.option_values import nearest
from fingerpost.course.rules.added_to_teaches import adding
from fingerpost.course.rules.explanation import Explanation
from fingerpost.course.slip import error
from fingerpost.course.teaching import Told
from fingerpost.course.words import quoted
from fingerpost.diagnostics import Code, Diagnostic, Span
from fingerpost.source.syntax import Action, ExchangeFinger, MuteString, PlaceFinger, Token

ALWAYS = frozenset({"chord", "technique"})
"""What a course that says `teaches` at all must teach."""


def used_before_taught(told: Iterable[Told]) -> Iterator[Diagnostic]:
    """An error for the first use, in each block, of what neither it nor an earlier one teaches."""
    blocks = list(told)
    if not any(block.syntax.teaches for block in blocks):
        return
    teachers = _teachers(blocks)
    asked_for = ALWAYS | {use.kind for use in teachers}
    known: set[Use] = set()
    first: dict[Use, Told] = {}
    for block in blocks:
        known |= set(block.teaching.words) | _may_be_taught(block)
        for use, span in _unknown(block, known, asked_for):
            yield _finding(block, use, span, teachers.get(use), first.setdefault(use, block))


def _may_be_taught(told: Told) -> Set[Use]:
    """What a block uses, where a word that it teaches can't be read: until that is put right, any may be meant."""
    unread = told.teaching.findings or ("teaches" in told.syntax.unread and not told.sound)
    return told.uses.keys() if unread else frozenset()


def _teachers(blocks: Iterable[Told]) -> dict[Use, Told]:
    out: dict[Use, Told] = {}
    for block in blocks:
        for use in block.teaching.words:
            out.setdefault(use, block)
    return out


def _unknown(told: Told, known: set[Use], asked_for: Set[str]) -> Iterator[tuple[Use, Span]]:
    if told.block is None or not told.sound:
        return
    for use, step in told.uses.items():
        if (
            use.kind in asked_for
            and use not in known
            and not _is_course_wide(use, told)
            and not _is_misnamed(use, told)
        ):
            yield use, span_of_use(told, step.ordinal, use)


def _is_course_wide(use: Use, told: Told) -> bool:
    """A capo that the whole course has is nothing to be taught in a block."""
    return use == Use("technique", "capo") and told.syntax.capo is None


def _is_misnamed(use: Use, told: Told) -> bool:
    """Whether a chord's name holds, and the one word of `teaches` that is unused is like it: then that is told."""
    written = told.written[told.uses[use].ordinal]
    line = told.syntax.start if written is None else written.line
    if use.kind != "chord" or line is None or line.name is None or not line.name.strict:
        return False
    words = [use_word(word) for word in told.teaching.words if word not in told.uses]
    return len(words) == 1 and bool(nearest(use_word(use), words))


def span_of_use(told: Told, ordinal: int, use: Use) -> Span:
    """The word that uses it: the name of a chord, the capo, a finger, a fret, a bar, a damping; else the line."""
    syntax, step = told.syntax, told.written[ordinal]
    if use == Use("technique", "capo") and syntax.capo is not None:
        return syntax.capo.span
    line = None if step is None else step.line
    name = line.name if line is not None else syntax.start.name if syntax.start is not None and ordinal == 0 else None
    if use.kind == "chord" and name is not None:
        return name.symbol.span
    if line is not None:
        capo = 0 if told.block is None else told.block.fretboard.capo
        words = (span for action in line.actions if (span := _word_for(use, action, capo)) is not None)
        return next(words, line.actions[0].span.to(line.actions[-1].span))
    first = syntax.start.text if syntax.start is not None else syntax.id
    return syntax.span if first is None else first.span


def _word_for(use: Use, action: Action, capo: int) -> Span | None:
    """The word of an action that uses it, or None where the action does not."""
    if isinstance(action, MuteString):
        return action.span if use == Use("technique", "mute") else None
    if isinstance(action, ExchangeFinger):
        return action.finger.span if _is_finger(use, action.finger) else None
    if not isinstance(action, PlaceFinger):
        return None
    if _is_finger(use, action.finger):
        return action.finger.span
    fret = action.place.fret
    if use.kind == "fret" and fret.text.isdecimal() and str(int(fret.text) + capo) == use.name:
        return fret.span
    is_bar = use == Use("technique", "bar") and action.place.low != action.place.high
    return action.place.span if is_bar else None


def _is_finger(use: Use, finger: Token) -> bool:
    """Whether the use is of this finger; the thumb is a technique too."""
    mark = finger.text.upper()
    return use == Use("finger", mark) or (mark == "T" and use == Use("technique", "thumb"))


def _finding(told: Told, use: Use, span: Span, later: Told | None, first: Told) -> Diagnostic:
    """later: the block further down that teaches it; first: the block that uses it first without being taught."""
    word = use_word(use)
    besides = "" if later is None else f"; {_called(later)} teaches it, later on"
    message = f"{quoted(word)} is used here, and no block up to this one teaches it{besides}"
    finding = error(span, Code.USED_BEFORE_TAUGHT, message, "what this block or an earlier one teaches")
    sure = later is None and told is first and not _may_be_meant(use, told) and _is_confirmed(use, told)
    edit = adding(word, told.syntax) if sure else None
    return replace(finding, fix=_fix(word, told, later, first), edits=() if edit is None else (edit,))


def _fix(word: str, told: Told, later: Told | None, first: Told) -> str:
    if later is None and told is not first:
        return f"add {word} to `teaches` of {_called(first)}, where it is used first"
    moved = f"put {later.file} before this page, or " if later is not None and later.file != told.file else ""
    return f"{moved}add {word} to `teaches` of this block"


def _may_be_meant(use: Use, told: Told) -> bool:
    """Whether a word of the block's own `teaches`, which it does not use, may have been meant to be this."""
    return any(word.kind == use.kind and word not in told.uses for word in told.teaching.words)


def _is_confirmed(use: Use, told: Told) -> bool:
    """Whether word and notes agree on the chord: a name that only the hand makes may come of a slip in the move, and a
    near name (`~`) may be misspelt.
    """
    written = told.written[told.uses[use].ordinal]
    line = written.line if written is not None else told.syntax.start
    return use.kind != "chord" or (line is not None and line.name is not None and line.name.strict)


def _called(told: Told) -> str:
    name = told.syntax.id.text if told.syntax.id is not None else "a block"
    return f"{quoted(name)} in {told.file}"


REASONS = {
    Code.USED_BEFORE_TAUGHT: Explanation(
        "Something used before it was taught",
        "A student who follows the course would meet what nobody has shown. Swapped lessons are found so.",
        "teaches: [Am]\nsteps:\n- 3 off = Am7",
        "teaches: [Am, Am7]\nsteps:\n- 3 off = Am7",
    ),
}
