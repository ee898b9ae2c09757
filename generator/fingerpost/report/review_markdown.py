"""A review as Markdown for a pull request's comment: folded, bounded, and nothing in it that could act.

Every text of the branch stands between backticks, where no markup, name, link or number is acted on; in the headings
of folds, which hosts read as HTML, it is escaped inside `<code>`. The same review is the same text.
"""

from __future__ import annotations

import html
import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from fingerpost.course.comparison.block_difference import BlockChange
from fingerpost.course.comparison.step_difference import How
from fingerpost.report import review_words as said
from fingerpost.report.quoted import clipped
from fingerpost.report.review import Review, counted, shortened
from fingerpost.report.review_blocks import block_became, of_block
from fingerpost.report.review_lists import affected, first_lists, last_lists, own_changes
from fingerpost.report.review_summary import summary, unchanged
from fingerpost.report.text import one_line

MOST_CHARACTERS = 59_000
"""Hosts take about 65,000 characters; the rest is left for what a workflow puts around the review."""
_MOST_OF_A_LIST = 12_000
_ROOM_FOR_THE_END = 400
_MOST_AT_THE_TOP = 10
_MOST_OF_A_TOP_LIST = 3_000


def code(text: str) -> str:
    """A text between as many backticks as it takes."""
    shown = clipped(text)
    if not shown.strip():
        return "(nothing)"
    fence = "`" * (max(map(len, re.findall("`+", shown)), default=0) + 1)
    pad = " " if shown[0] in "` " or shown[-1] in "` " else ""
    return f"{fence}{pad}{shown}{pad}{fence}"


SPEECH = said.Speech(said.SIGNS, code)


@dataclass(frozen=True)
class _Fold:
    """A part that is folded up: its heading as HTML, and its lines."""

    heading: str
    lines: tuple[str, ...]

    def within(self, most: int) -> str:
        """The fold with as many of its lines as there is room for, and how many were left out; "" without any room."""
        opening, closing = f"<details><summary>{self.heading}</summary>\n\n", "\n</details>\n\n"
        room = most - len(opening) - len(closing) - 60
        kept: list[str] = []
        for line in self.lines:
            room -= len(line) + 1
            if room < 0:
                break
            kept.append(line)
        if not kept:
            return ""
        left_out = len(self.lines) - len(kept)
        more = [f"- (and {counted(left_out, 'more line')})"] if left_out else []
        return opening + "\n".join([*kept, *more]) + "\n" + closing


def write(review: Review) -> Iterator[str]:
    """The comment, line by line, below 60,000 characters in all."""
    top = _top(review)
    lists = "".join(fold.within(_MOST_OF_A_LIST // 4) for fold in _lists(review))[:_MOST_OF_A_LIST]
    room = MOST_CHARACTERS - len(top) - len(lists) - _ROOM_FOR_THE_END
    shown, left_out = _fitting([*_findings(review), *map(_block(review), own_changes(review))], room)
    rest = f"{counted(left_out, 'more part')} left out here; `fingerpost review` shows all.\n\n" if left_out else ""
    yield from f"{top}{shown}{rest}{lists}{unchanged(review)}".split("\n")


def _fitting(folds: Sequence[_Fold], room: int) -> tuple[str, int]:
    """The folds that there is room for, one after another, and how many were left out whole."""
    shown = ""
    for index, fold in enumerate(folds):
        text = fold.within(room - len(shown))
        if not text:
            return shown, len(folds) - index
        shown += text
    return shown, 0


def _top(review: Review) -> str:
    lines = [
        f"**{summary(review)}**",
        f"From {code(shortened(review.parting))} to {code(shortened(review.head))}.",
        *(bullet for name, items in first_lists(review, SPEECH) for bullet in _bullets(name, items)),
        *(bullet for name, items in last_lists(review, SPEECH) for bullet in _bullets(name, items)),
    ]
    return "\n\n".join(lines) + "\n\n"


def _bullets(name: str, items: Iterable[str]) -> Iterator[str]:
    """A list above the folds: as many of the items as it has room for, and how many more there are."""
    listed = list(items)
    shown: list[str] = []
    for item in listed[:_MOST_AT_THE_TOP]:
        if sum(map(len, shown)) + len(item) > _MOST_OF_A_TOP_LIST:
            break
        shown.append(f"- {item}")
    if listed:
        more = [f"- and {len(listed) - len(shown)} more"] if len(listed) > len(shown) else []
        yield "\n".join([f"{name}:", "", *shown, *more])


def _findings(review: Review) -> Iterator[_Fold]:
    for name, findings in (("New findings", review.findings_new), ("Findings put right", review.findings_gone)):
        if findings:
            lines = tuple(f"- {finding.severity}: {code(one_line(finding))}" for finding in findings)
            yield _Fold(f"{name} ({len(findings)})", lines)


def _lists(review: Review) -> Iterator[_Fold]:
    for name, items in affected(review, SPEECH):
        yield _Fold(name, tuple(f"- {item}" for item in items))


class _block:  # noqa: N801 - a function that remembers the review
    def __init__(self, review: Review) -> None:
        self.review = review

    def __call__(self, change: BlockChange) -> _Fold:
        return _Fold(_heading(change, self.review), tuple(_lines(change)) or ("- No musical change.",))


def _heading(change: BlockChange, review: Review) -> str:
    here = change.here
    steps = sum(step.how is not How.FOLLOWS for step in change.steps)
    became = block_became(change)
    changed = counted(steps, "changed step") if steps or not change.musical else "no changed step"
    counts = counted(len(here.block.steps), "step") if became else changed
    what = f"{became}, {counts}" if became else counts if change.musical else "words only"
    return f"{_escaped(here.block.id)}: {what}, in {_escaped(review.path(here.file))}"


def _escaped(text: str) -> str:
    """A text inside a heading that is HTML; backticks and the like mean nothing there."""
    return f"<code>{html.escape(clipped(text, 120), quote=True)}</code>"


def _lines(change: BlockChange) -> Iterator[str]:
    if change.here.block.title:
        yield f"{code(change.here.block.title)}"
        yield ""
    yield from (f"- {line}" for line in of_block(SPEECH, change))
    for step in change.steps:
        if step.how is not How.FOLLOWS:
            yield f"- {SPEECH.step(step)}"
            told = SPEECH.consequences(step)
            if told and not block_became(change):
                yield f"  - {told}"
    yield from (f"- Words: {SPEECH.words(words)}" for words in change.words)
