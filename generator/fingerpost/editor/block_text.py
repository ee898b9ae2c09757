"""Where in a block's text a cursor stands: under which key, and what is written up to it."""

from __future__ import annotations

from dataclasses import dataclass

from fingerpost.editor.sheet import BlockHere
from fingerpost.source.block_lines import block_line, key_and_value
from fingerpost.source.findings import Findings
from fingerpost.source.keys import BLOCK_KEYS, STEP_KEYS
from fingerpost.source.syntax import Token

KEYS = frozenset((*BLOCK_KEYS, *STEP_KEYS))
MOVE = "move"


@dataclass(frozen=True)
class Written:
    """key: what the words stand under, None where a key itself is being written; words: from its value's beginning on.

    of_step: the line belongs to a step. key_token: the key as written on this line, where one is.
    """

    key: str | None
    words: Token
    of_step: bool
    key_token: Token | None = None


def written(here: BlockHere, line: int, column: int | None = None) -> Written | None:
    """What stands on a line of a block, up to a column where one is given; None on a line outside of its body."""
    whole = _line(here, line)
    if whole is None:
        return None
    if column is not None:
        kept = max(0, column - whole.span.column)
        whole = Token(whole.text[:kept], whole.span.part(0, min(kept, len(whole.text))))
    in_steps = any(_begins_steps(token) for token in here.fence.lines if token.span.line < line)
    # Words up to a cursor lose the blank at their end in reading; it decides what is due next.
    read = block_line(Token(whole.text + "\u2060", whole.span), Findings())
    if read is None or not whole.text.strip():
        return Written(None, Token("", whole.span), in_steps)
    words = _without_mark(read.words)
    found = key_and_value(words, KEYS, Findings())
    key = None if found is None else found[0]
    if found is not None and key is not None and key.text in KEYS:
        return Written(key.text, found[1], in_steps, key)
    if read.hyphen is not None:
        return Written(MOVE if in_steps else None, words, in_steps)
    return Written(None, words, in_steps)


def _without_mark(token: Token) -> Token:
    return Token(token.text.removesuffix("\u2060"), token.span)


def _line(here: BlockHere, line: int) -> Token | None:
    return next((token for token in here.fence.lines if token.span.line == line), None)


def _begins_steps(token: Token) -> bool:
    return token.text.strip().startswith("steps:")
