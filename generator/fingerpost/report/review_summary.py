"""The first line of a review and its last: what kind of change this is, and what did not change."""

from __future__ import annotations

from collections.abc import Iterator

from fingerpost.course.comparison.block_difference import BlockChange
from fingerpost.course.comparison.step_difference import How
from fingerpost.report.review import Review, counted

_BECAME = {How.CHANGED: "changed", How.ADDED: "new", How.GONE: "gone", How.FOLLOWS: "following"}


def summary(review: Review) -> str:
    """What kind of change this is."""
    changes = review.comparison
    if changes.musical:
        return " ".join([*_musical(review), *_besides(review)])
    worded = not changes.prose and (any(change.words for change in changes.blocks) or changes.pages)
    return " ".join(["No musical change: only words differ." if worded else "No musical change.", *_besides(review)])


def _besides(review: Review) -> Iterator[str]:
    """What differs besides the music; mkdocs.yml only where none of its settings has been told."""
    changes = review.comparison
    if changes.prose:
        yield f"The words of {counted(len(changes.prose), 'page')} changed."
    others = len(changes.files) + (changes.settings_rewritten and not changes.settings)
    if others:
        yield f"{counted(others, 'other file')} {'differs' if others == 1 else 'differ'}."


def _musical(review: Review) -> Iterator[str]:
    changes = review.comparison
    blocks = [change for change in changes.blocks if change.musical]
    pages = {file for change in blocks for file in _files(change)}
    where = f"{counted(len(blocks), 'block')} on {counted(len(pages), 'page')}"
    parts = list(_steps(changes.blocks))
    yield f"{', '.join(parts)}, in {where}." if parts else "No step changed."
    if blocks and not parts:
        yield f"Something else differs in {where}."
    yield from _pages(review)
    if changes.settings:
        differ = "differs" if len(changes.settings) == 1 else "differ"
        yield f"{counted(len(changes.settings), 'setting')} of the course {differ}."
    if changes.unread:
        number = counted(len(changes.unread), "block")
        yield f"{number} can be read on neither side, and what changes there is not known."


def _pages(review: Review) -> Iterator[str]:
    """How many pages came, went, and have another name."""
    pages = review.comparison.pages
    came, gone = (sum(getattr(page, side) is None for page in pages) for side in ("before", "after"))
    renamed = sum(page.left and page.after is not None for page in pages)
    for number, one, many in ((came, "is new", "are new"), (gone, "is gone", "are gone")):
        if number:
            yield f"{counted(number, 'page')} {one if number == 1 else many}."
    if renamed:
        yield f"{counted(renamed, 'page')} {'has' if renamed == 1 else 'have'} another name."


def _files(change: BlockChange) -> Iterator[str]:
    return (placed.file for placed in (change.after, change.before) if placed is not None)


def _steps(blocks: tuple[BlockChange, ...]) -> Iterator[str]:
    for how, became in _BECAME.items():
        if number := sum(change.count(how) for change in blocks):
            yield f"{counted(number, 'step')} {became}"
    if number := sum(change.moved for change in blocks):
        yield f"{counted(number, 'step')} moved"
    if number := sum(change.transposed for change in blocks):
        yield f"{counted(number, 'step')} sounding higher or lower"
    if number := sum(change.uncompared for change in blocks):
        yield f"{counted(number, 'step')} not compared"


def unchanged(review: Review) -> str:
    """The one line that says what did not change."""
    kept = review.comparison.kept
    parts = [
        f"{have} of {counted(total, name)}"
        for name, (have, total) in (
            ("page", kept.pages), ("block", kept.blocks), ("step", kept.steps), ("chord", kept.chords),
        )
    ]  # fmt: skip
    unread = f"; the steps of {counted(kept.unread, 'block')} can't be read" if kept.unread else ""
    ids = f"{kept.ids[0]} of {counted(kept.ids[1], 'id')} kept"
    return f"Unchanged: {', '.join(parts)}, in what is played; {ids}{unread}."
