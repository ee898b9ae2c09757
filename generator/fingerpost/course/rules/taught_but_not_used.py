"""Something that a block says it teaches, and that does not occur in it.

`teaches` is read by the ledger and by people who look for where a chord comes in. A word there that the block never
uses was left behind when the block was changed, or is misspelt.

    teaches: [Am, Am7, G7]
    steps:
    - 3 off = Am7

Take the word out, or move it to the block in which the chord is played. Where one step more would show the chord, and
all that follows would hold, the step is likelier to have been left out: the finding then stands where it would be.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from fingerpost.course.ground import ground_of
from fingerpost.course.ledger import Use, use_word
from fingerpost.course.meant.step_left_out import LeftOut, step_left_out
from fingerpost.course.option_values import nearest
from fingerpost.course.rules.explanation import Explanation
from fingerpost.course.slip import warning
from fingerpost.course.teaching import Told
from fingerpost.course.words import quoted
from fingerpost.diagnostics import Code, Diagnostic
from fingerpost.music.chord import Chord
from fingerpost.source.syntax import Token


def taught_but_not_used(blocks: Iterable[Told]) -> Iterator[Diagnostic]:
    """A warning for each word of `teaches` that its block does not use; a block with errors is left alone."""
    known: set[Use] = set()
    for told in blocks:
        known |= set(told.teaching.words)
        if told.block is not None and told.sound:
            # Where the block shows a chord that nobody teaches, the word was likely meant to be that one.
            untaught = [use_word(use) for use in told.uses if use.kind == "chord" and use not in known]
            yield from _surplus(_unused(told), told, untaught) if untaught else told.once(_steps_or_words)


def _steps_or_words(told: Told) -> Iterator[Diagnostic]:
    unused = _unused(told)
    for use, token in list(unused.items()):
        left_out = _left_out(use, told) if use in unused else None
        if left_out is not None:
            yield _missing(left_out, token)
            unused = {other: word for other, word in unused.items() if other not in {use, *left_out.uses}}
    yield from _surplus(unused, told, [])


def _unused(told: Told) -> dict[Use, Token]:
    return {use: token for use, token in told.teaching.words.items() if use not in told.uses}


def _surplus(unused: dict[Use, Token], told: Told, untaught: Sequence[str]) -> Iterator[Diagnostic]:
    for use, token in unused.items():
        message = f"This block teaches {quoted(token.text)}, and does not use it"
        near = nearest(use_word(use), untaught) or nearest(use_word(use), _others(told))
        fix = f"leave out {token.text}" + (f", or write {near}" if near else "")
        yield warning(token.span, Code.TAUGHT_BUT_NOT_USED, message, "what the block uses", fix)


def _left_out(use: Use, told: Told) -> LeftOut | None:
    if not isinstance(use.name, Chord) or told.block is None:
        return None
    return step_left_out(use.name, told.syntax, told.block, ground_of(told.syntax, told.settings).ground)


def _missing(left_out: LeftOut, token: Token) -> Diagnostic:
    message = f"A step seems to be missing above this line: the block teaches {quoted(token.text)}, and does not use it"
    expected = f"`{left_out.text}` above it, or `teaches` without {token.text}"
    fix = f"Write `{left_out.text}` above this line."
    return warning(left_out.span, Code.TAUGHT_BUT_NOT_USED, message, expected, fix)


def _others(told: Told) -> list[str]:
    """The chords and techniques that the block uses and does not name in `teaches`."""
    kinds = {"chord", "technique"}
    return [use_word(use) for use in told.uses if use.kind in kinds and use not in told.teaching.words]


REASONS = {
    Code.TAUGHT_BUT_NOT_USED: Explanation(
        "Something taught that does not occur",
        "A word of `teaches` was left behind or is misspelt, or the step that would show it was left out.",
        "teaches: [Am, G7]\nsteps:\n- 3 off = Am7",
        "teaches: [Am, Am7]\nsteps:\n- 3 off = Am7",
    ),
}
