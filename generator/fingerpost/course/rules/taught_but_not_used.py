"""Something that a block says it teaches, and that does not occur in it.

`teaches` is read by the ledger and by people who look for where a chord comes in. A word there that the block never
uses was left behind when the block was changed, or is misspelt.

    teaches: [Am, Am7, G7]
    steps:
    - 3 off = Am7

Take the word out, or move it to the block in which the chord is played.
"""

from __future__ import annotations

from collections.abc import Iterator

from fingerpost.course.ledger import use_word
from fingerpost.course.option_values import nearest
from fingerpost.course.slip import warning
from fingerpost.course.teaching import Told
from fingerpost.course.words import quoted
from fingerpost.diagnostics import Code, Diagnostic


def taught_but_not_used(told: Told) -> Iterator[Diagnostic]:
    """A warning for each word of `teaches` that the block does not use; a block with errors is left alone."""
    if told.block is None or not told.sound:
        return
    for use, token in told.teaching.words.items():
        if use not in told.uses:
            message = f"This block teaches {quoted(token.text)}, and does not use it"
            near = nearest(use_word(use), _others(told))
            fix = f"leave out {token.text}" + (f", or write {near}" if near else "")
            yield warning(token.span, Code.TAUGHT_BUT_NOT_USED, message, "what the block uses", fix)


def _others(told: Told) -> list[str]:
    """The chords and techniques that the block uses and does not name in `teaches`."""
    kinds = {"chord", "technique"}
    return [use_word(use) for use in told.uses if use.kind in kinds and use not in told.teaching.words]
