"""What a block says that it teaches: chords and techniques, each with its word."""

from __future__ import annotations

from dataclasses import dataclass, field

from fingerpost.course.ledger import TECHNIQUES, Use
from fingerpost.course.model import Block, Step
from fingerpost.course.naming import symbol_of
from fingerpost.course.option_values import nearest
from fingerpost.course.slip import Slip, error
from fingerpost.course.words import quoted
from fingerpost.diagnostics import Code, Diagnostic
from fingerpost.music.chord import Chord
from fingerpost.source.syntax import BlockSyntax, StepSyntax, Token


@dataclass(frozen=True)
class Teaching:
    """What `teaches` names, each use with its word; findings are about words that are neither chord nor technique."""

    words: dict[Use, Token] = field(default_factory=dict)
    findings: tuple[Diagnostic, ...] = ()

    @property
    def chords(self) -> frozenset[Chord]:
        """The chords alone."""
        return frozenset(use.name for use in self.words if isinstance(use.name, Chord))


def teaching_of(block: BlockSyntax) -> Teaching:
    """What a block says that it teaches."""
    words: dict[Use, Token] = {}
    findings: list[Diagnostic] = []
    for token in block.teaches:
        if token.text in TECHNIQUES:
            words.setdefault(Use("technique", token.text), token)
            continue
        try:
            words.setdefault(Use("chord", symbol_of(token)), token)
        except Slip as problem:
            findings.append(_neither(token, problem))
    return Teaching(words, tuple(findings))


def _neither(token: Token, problem: Slip) -> Diagnostic:
    near = nearest(token.text, TECHNIQUES)
    if not near:
        return problem.finding
    message = f"{quoted(token.text)} is neither a chord nor a technique"
    return error(token.span, Code.SYMBOL_UNREADABLE, message, f"a chord, or one of {', '.join(TECHNIQUES)}", near)


@dataclass(frozen=True)
class Told:
    """A block as the rules about the whole course see it: what is written, what it means, teaches and uses.

    block is None where no start is known; sound is False where the block has errors, so that rules which hang on its
    meaning leave it alone. written: for each step its line, None for the start.
    """

    file: str
    syntax: BlockSyntax
    block: Block | None
    written: tuple[StepSyntax | None, ...]
    teaching: Teaching
    uses: dict[Use, Step]
    sound: bool
