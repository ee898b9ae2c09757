"""What a block says that it teaches: chords, techniques, fingers and frets, each with its word."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable
from dataclasses import dataclass, field, replace
from typing import Any, TypeVar

from fingerpost.course.ledger import COUNTED, TECHNIQUES, Use
from fingerpost.course.model import Block, Step
from fingerpost.course.naming import symbol_of
from fingerpost.course.option_values import nearest
from fingerpost.course.settings import Settings
from fingerpost.course.slip import Slip, error, slip
from fingerpost.course.words import quoted
from fingerpost.diagnostics import Code, Diagnostic
from fingerpost.music.chord import Chord
from fingerpost.source.syntax import BlockSyntax, StepSyntax, Token
from fingerpost.source.typing_slips import meant_by

T = TypeVar("T")

COUNTS = {
    "finger": (re.compile("[1-4Tt]"), "`finger` and one of 1, 2, 3, 4 and T"),
    "fret": (re.compile("[1-9]|[12][0-9]|3[0-6]"), "`fret` and a number of the neck, from 1"),
}
"""How the counted things are numbered, and what is expected of a word for one."""


@dataclass(frozen=True)
class Teaching:
    """What `teaches` names, each use with its word; findings are about words that are none of those."""

    words: dict[Use, Token] = field(default_factory=dict)
    findings: tuple[Diagnostic, ...] = ()

    @property
    def chords(self) -> frozenset[Chord]:
        """The chords alone."""
        return frozenset(use.name for use in self.words if isinstance(use.name, Chord))


def teaching_of(block: BlockSyntax) -> Teaching:
    """What a block says that it teaches."""
    words: dict[Use, Token] = {}
    unread: list[tuple[Token, Diagnostic]] = []
    for token in block.teaches:
        try:
            words.setdefault(_use(token), token)
        except Slip as problem:
            unread.append((token, problem.finding))
    named = [name.symbol.text for name in block.names] if unread else []
    return Teaching(words, tuple(_with_fix(finding, token, named) for token, finding in unread))


def _with_fix(finding: Diagnostic, token: Token, named: Iterable[str]) -> Diagnostic:
    """The finding with the chord that the block shows and that one slip makes this of."""
    return finding if finding.fix else replace(finding, fix=meant_by(token.text, named))


def _use(token: Token) -> Use:
    """What a word names. Raises Slip where it is none of the things that can be taught."""
    if token.text in TECHNIQUES:
        return Use("technique", token.text)
    kind, _, number = token.text.partition(" ")
    if kind in COUNTED:
        return _counted(token, kind, number.strip())
    try:
        return Use("chord", symbol_of(token))
    except Slip as problem:
        raise Slip(_neither(token, problem)) from None


def _counted(token: Token, kind: str, number: str) -> Use:
    """`finger 4` or `fret 5`."""
    good, expected = COUNTS[kind]
    if not good.fullmatch(number):
        raise slip(token.span, Code.BAD_VALUE, f"{quoted(token.text)} names no {kind}", expected)
    return Use(kind, number.upper())


def _neither(token: Token, problem: Slip) -> Diagnostic:
    near = nearest(token.text, TECHNIQUES)
    if not near:
        return problem.finding
    message = f"{quoted(token.text)} is neither a chord nor a technique"
    return error(token.span, Code.SYMBOL_UNREADABLE, message, f"a chord, or one of {', '.join(TECHNIQUES)}", near)


@dataclass(frozen=True, eq=False)
class Told:
    """A block as the rules about the whole course see it: what is written, what it means, teaches and uses.

    block is None where no start is known; sound is False where the block has errors, so that rules which hang on its
    meaning leave it alone. written: for each step its line, None for the start. settings: those of the course.
    A block that did not change since the last build is told by the same object, with what was found out of it alone.
    """

    file: str
    syntax: BlockSyntax
    block: Block | None
    written: tuple[StepSyntax | None, ...]
    teaching: Teaching
    uses: dict[Use, Step]
    sound: bool
    settings: Settings
    kept: dict[Callable[..., Any], tuple[Any, ...]] = field(default_factory=dict, repr=False)

    def once(self, rule: Callable[[Told], Iterable[T]]) -> tuple[T, ...]:
        """What a function of this block alone gives, worked out when it is asked for first."""
        if rule not in self.kept:
            self.kept[rule] = tuple(rule(self))
        return self.kept[rule]
