"""A page as an editor asks about it: which block, step or mention stands at a place, and what the model makes of it."""

from __future__ import annotations

from dataclasses import dataclass

from fingerpost.course.ground import Ground, ground_of
from fingerpost.course.model import Block, Lesson, MentionMeaning, Step
from fingerpost.diagnostics import Span
from fingerpost.editor.desk import Place
from fingerpost.music import chord_symbol
from fingerpost.source.page import PageRead
from fingerpost.source.syntax import BlockSyntax, Fence, Mention, Token
from fingerpost.workspace.checked import Checked


@dataclass(frozen=True)
class BlockHere:
    """A block at a place: where it stands, what it says, and what was made of it (None where no start is known)."""

    fence: Fence
    syntax: BlockSyntax
    block: Block | None
    ground: Ground

    def step_before(self, line: int) -> Step | None:
        """The last step that is known before a line of the page; the start counts."""
        steps = () if self.block is None else self.block.steps
        known = [step for step in steps if step.ordinal == 0 or step.span.end_line < line]
        return known[-1] if known else None

    def step_at(self, line: int) -> Step | None:
        """The step that a line belongs to: the start for the line of `start`."""
        steps = () if self.block is None else self.block.steps
        written = {step.span for step in self.syntax.steps}
        return next(
            (
                step
                for step in steps
                if step.span.line <= line <= step.span.end_line
                and (step.span in written or (self.syntax.start is not None and step.ordinal == 0))
            ),
            None,
        )


@dataclass(frozen=True)
class Sheet:
    """One page with the checked course around it."""

    place: Place
    checked: Checked
    read: PageRead
    lesson: Lesson | None

    @classmethod
    def of(cls, place: Place) -> Sheet | None:
        """The page; None for a text that is no page, such as mkdocs.yml."""
        checked = place.course.checked()
        read = next((page for page in checked.pages if page.syntax.file == place.file), None)
        return None if read is None else cls(place, checked, read, checked.course.lesson(place.file))

    def blocks(self) -> list[BlockHere]:
        """All blocks of the page in order."""
        made = blocks_by_span(self.lesson)
        pairs = zip(self.read.fences, self.read.syntax.blocks, strict=True)
        settings = self.checked.settings
        return [
            BlockHere(fence, syntax, made.get(syntax.span), ground_of(syntax, settings).ground)
            for fence, syntax in pairs
        ]

    def block_at(self, line: int) -> BlockHere | None:
        """The block whose body holds a line."""
        return next((b for b in self.blocks() if b.fence.first_line < line <= _last(b.fence)), None)

    def block_above(self, line: int) -> BlockHere | None:
        """The last block that ends above a line."""
        above = [block for block in self.blocks() if block.fence.last_line < line]
        return above[-1] if above else None

    def mention_at(self, line: int, column: int) -> Mention | None:
        """The mention at a place."""
        return next((m for m in self.read.syntax.mentions if holds(m.span, line, column)), None)

    def meaning(self, mention: Mention) -> MentionMeaning | None:
        """What a mention stands for."""
        mentions = () if self.lesson is None else self.lesson.mentions
        return next((meaning for meaning in mentions if meaning.ordinal == mention.ordinal), None)


def _last(fence: Fence) -> int:
    return fence.last_line - 1 if fence.closed else fence.last_line


def blocks_by_span(lesson: Lesson | None) -> dict[Span, Block]:
    """What was made of the blocks of a page, those with errors included."""
    if lesson is None:
        return {}
    broken = {block.span: block.partial for block in lesson.broken if block.partial is not None}
    return {**{block.span: block for block in lesson.blocks}, **broken}


def shown(step: Step) -> str:
    """The chord by which a step is shown; `rest` for a rest."""
    return "rest" if step.rest or step.naming.shown is None else chord_symbol.write(step.naming.shown)


def holds(span: Span, line: int, column: int) -> bool:
    """Whether a place lies in a stretch; its end counts, since a cursor stands between characters."""
    return (span.line, span.column) <= (line, column) <= (span.end_line, span.end_column)


def token_at(tokens: tuple[Token | None, ...], line: int, column: int) -> Token | None:
    """The token at a place."""
    return next((token for token in tokens if token is not None and holds(token.span, line, column)), None)
