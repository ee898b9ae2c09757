"""A block in a fence that does not say `moves`, or in marks that are no fence: told, and read as it was meant.

Only what is plainly a block counts, so that other code stays code: a fence that says `text`, `markdown` or the name of
some language is what it says, and so is one without a move.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import replace

from fingerpost.diagnostics import Code, Diagnostic, Edit, Severity, Span
from fingerpost.source.containers import TAB, Walk
from fingerpost.source.fence_body import FENCE, INFO, FenceRead, Opening, read_fence
from fingerpost.source.findings import quoted
from fingerpost.source.grammar import move_or_none
from fingerpost.source.keys import BLOCK_KEYS
from fingerpost.source.syntax import Fence, Token
from fingerpost.source.typing_slips import slips_between

UNNAMED = frozenset(("", "yaml", "yml"))
"""What a fence may say where its author did not think of saying `moves`."""

FENCE_LIKE = re.compile(r"(?P<marks>`{1,2}|'{2,}|\"{2,}|´{2,}|‘{2,}|’{2,}|~{1,2})[ \t]*(?P<info>[A-Za-z]+)[ \t]*$")
END_LIKE = re.compile(r"[`'\"´‘’~]{2,}[ \t]*$")
KEY = re.compile(r"([a-z_]+):(?:\s|$)")
MOVE = re.compile(r"-\s+(?:move:\s+)?(?P<move>\S.*)")
MOST_LINES = 400
MOST_TRIED = 20
"""So many lines are looked at for the end of what is no fence, and so many for a move. By our own choice."""


def meant_fence(lines: list[str], opening: Opening) -> FenceRead | None:
    """A fence that is meant to be a block, read as one; None where it is not, or says so itself."""
    word = _word(opening.info)
    if opening.says_so or (not (near := _is_near(word)) and word.lower() not in UNNAMED):
        return None
    read = read_fence(lines, opening._replace(meant=True))
    if read.fence is None or not plainly_a_block(read.fence, near):
        return None
    return replace(read, findings=(_without_name(opening, word, near, read.fence), *read.findings))


def no_fence(file: str, first_line: int, lines: Sequence[str], at: int, walk: Walk) -> FenceRead | None:
    """The same of a block between marks that Markdown takes for text or for indented code."""
    indent, rest = walk.indent(), walk.rest
    fence = FENCE.match(rest) if indent >= TAB else None
    like = FENCE_LIKE.match(rest) if fence is None and rest[:1] in "`'\"´‘’~" else None
    info = (fence.group(2) or fence.group(4) or "") if fence else like["info"] if like else ""
    if not (_word(info) == INFO or _is_near(_word(info))):
        return None
    end = _end(lines, at)
    if end is None:
        return None
    read = _between(file, first_line, lines, at, end, walk)
    if not plainly_a_block(read, near=True):
        return None
    told = _indented(read, indent) if fence else _no_marks(read, like["marks"] if like else "")
    return FenceRead(end + 1, read, (told,))


def plainly_a_block(fence: Fence, near: bool) -> bool:
    """Whether these lines are those of a block and of nothing else: its keys, and a move that can be read.

    near: its fence nearly says `moves`, so that two keys or a move are enough.
    """
    lines = [line for line in fence.lines if line.text.strip() and not line.text.lstrip().startswith("#")]
    if not lines:
        return False
    margin = _indent_of(lines[0])
    top = {found.group(1) for line in lines if _indent_of(line) == margin and (found := KEY.match(line.text.strip()))}
    moves = any(_moves(lines))
    return (moves or len(top.intersection(BLOCK_KEYS)) > 1) if near else "steps" in top and moves


def _moves(lines: Sequence[Token]) -> Iterator[bool]:
    items = (found for line in lines if (found := MOVE.match(line.text.strip())))
    for found, _ in zip(items, range(MOST_TRIED), strict=False):
        yield move_or_none(Token(found["move"], Span("", 1, 1, 1, 1 + len(found["move"])))) is not None


def _indent_of(line: Token) -> int:
    return len(line.text) - len(line.text.lstrip())


def _word(info: str) -> str:
    return next(iter(info.split(maxsplit=1)), "").strip("{}.:,;")


def _is_near(word: str) -> bool:
    """Whether a word is `moves` but for a slip; `moves` itself is, where signs stand about it."""
    return word.lower() == INFO or slips_between(word.lower(), INFO) is not None


def _without_name(opening: Opening, word: str, near: bool, fence: Fence) -> Diagnostic:
    says = f"says {quoted(opening.info.split(maxsplit=1)[0])}" if word else f"does not say `{INFO}`"
    message = f"This fence {says}, so the page shows the block in it as plain text"
    expected = f"`{INFO}` after the marks" + ("" if near else "; or `text`, if the text is what is to be shown")
    span, edits = fence.span.part(0, len(fence.opening.rstrip())), tuple[Edit, ...]()
    fix = INFO if word else f"Write {opening.marks}{INFO} here."
    if word:
        start = fence.opening.index(opening.info.split(maxsplit=1)[0], len(opening.marks))
        span = fence.span.part(start, start + len(opening.info.split(maxsplit=1)[0]))
        edits = (Edit(span, INFO),) if near else ()
    return Diagnostic(span, Severity.ERROR, Code.FENCE_MISWRITTEN, message, expected, fix, edits)


def _indented(fence: Fence, indent: int) -> Diagnostic:
    span = fence.span.part(0, len(fence.opening.rstrip()))
    message = f"This fence is indented by {indent} blanks, so the page shows the block in it as plain text"
    fix = f"Take out the {indent} blanks before it, and as many before what follows."
    expected = "at most 3 blanks before a fence; or a longer fence about it, if the text is what is to be shown"
    return Diagnostic(span, Severity.ERROR, Code.FENCE_MISWRITTEN, message, expected, fix)


def _no_marks(fence: Fence, marks: str) -> Diagnostic:
    span = fence.span.part(0, len(marks))
    message = f"{marks} begins no fence, so the page shows the block below it as plain text"
    if marks[0] in "`~":
        message = f"A fence begins with three marks, and this with {len(marks)}, so the page shows plain text"
    return Diagnostic(span, Severity.ERROR, Code.FENCE_MISWRITTEN, message, "three backticks", f"Write ```{INFO} here.")


def _end(lines: Sequence[str], at: int) -> int | None:
    """The line of nothing but marks that ends what begins on line `at`; none may begin another fence above it."""
    for number in range(at + 1, min(len(lines), at + 1 + MOST_LINES)):
        line = lines[number].strip(" \t>")
        if END_LIKE.match(line):
            return number
        if FENCE.match(line) or FENCE_LIKE.match(line):
            return None
    return None


def _between(file: str, first_line: int, lines: Sequence[str], at: int, end: int, walk: Walk) -> Fence:
    """The lines from `at` to `end` as a fence, less what they have in common before them with its first line."""
    start, column = walk.words_at, walk.at
    body = lines[at + 1 : end]
    common = min((_common(line, lines[at][:start]) for line in body if line.strip()), default=0)
    starts = tuple(min(common, len(line)) for line in body)
    first = first_line + at
    return Fence(
        prefix=lines[at][:column],
        body=tuple(line[cut:] for line, cut in zip(body, starts, strict=True)),
        body_starts=starts,
        span=Span(file, first, start + 1, first_line + end, len(lines[end]) + 1),
        first_line=first,
        last_line=first_line + end,
        opening=lines[at][start:],
        miswritten=True,
    )


def _common(line: str, before: str) -> int:
    """How much of a line is the same as what stands before the marks of the first line."""
    same = (number for number, (one, other) in enumerate(zip(line, before, strict=False)) if one != other)
    return next(same, min(len(line), len(before)))
