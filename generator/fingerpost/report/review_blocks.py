"""The sentences of a review about blocks and pages as a whole; a `Speech` says how its texts are set apart."""

from __future__ import annotations

from collections.abc import Iterator

from fingerpost.course.comparison.block_difference import BlockChange, Retuned
from fingerpost.course.comparison.difference import PageChange, PageWords, Unread
from fingerpost.course.comparison.step_difference import Fact, How
from fingerpost.report.quoted import clipped
from fingerpost.report.review import Review, counted
from fingerpost.report.review_words import Speech

MOST_NEW = 6
LONGEST_NEW = 80
"""How many links, images and tags of a page are named that were not there before, and how much of each. By our own
choice, so that a page with many leaves room for the music."""


def of_block(speech: Speech, change: BlockChange) -> Iterator[str]:
    """What differs in a block as a whole, what that does to the player, and what can't be told."""
    yield from map(speech.fact, change.facts)
    if change.retuned is not None:
        yield from retuned(speech, change.retuned, bool(change.steps))
    if change.uncompared and not change.unreadable:
        yield from _in_doubt(change)


def retuned(speech: Speech, neck: Retuned, steps_changed: bool) -> Iterator[str]:
    """What another capo or tuning does to shapes that are kept."""
    for string, before, after, higher in neck.strings:
        yield f"string {string} is tuned {_semitones(higher)} ({before} -> {after})"
    if neck.higher:
        which = "a shape that is as it was" if steps_changed else "every shape keeps its fingers and"
        yield f"{which} sounds {_semitones(neck.higher)}{_example(speech, neck)}"


def _example(speech: Speech, neck: Retuned) -> str:
    if neck.example is None:
        return ""
    shown, before, after = map(speech.symbol, neck.example)
    return f": {shown} sounds as {after}, not as {before}"


def unread(speech: Speech, block: Unread, path: str) -> str:
    """A block that can be read on neither side."""
    what = {
        How.ADDED: "is new",
        How.GONE: "is gone",
        How.CHANGED: "has another text, and what that changes is not known",
    }
    name = speech.quote(block.block) if block.block is not None else f"the block of line {block.line}"
    return f"{speech.quote(path)}: {name} {what[block.how]}"


def pages(speech: Speech, review: Review) -> Iterator[str]:
    """Pages that came, went or have another name or title."""
    for page in review.comparison.pages:
        before, after = (speech.quote(review.path(file)) if file else "" for file in (page.before, page.after))
        old = f"; its old address {_leads(speech, page, review)}" if page.left else ""
        if not before or not after:
            yield f"{before or after} is {'new' if after else 'gone'}{old}"
        elif before != after:
            yield f"{before} is now {after}{old}"
        else:
            yield f"{after}: {speech.fact(Fact('title', page.title_before, page.title_after))}"


def _leads(speech: Speech, page: PageChange, review: Review) -> str:
    if page.redirect is None:
        return "leads nowhere, since no redirect names it"
    return f"leads to {speech.quote(review.path(page.redirect))}"


def prose(speech: Speech, page: PageWords, review: Review) -> str:
    """A page whose words outside its blocks changed, with what is new in them and could lead out of the page."""
    new = [("a link to", target) for target in page.links]
    new += [("the image", target) for target in page.images]
    new += [("the HTML", tag) for tag in page.tags]
    named = [f"{what} {speech.quote(clipped(text, LONGEST_NEW))}" for what, text in new[:MOST_NEW]]
    more = [f"{len(new) - MOST_NEW} more"] if len(new) > MOST_NEW else []
    tail = f"; new: {', '.join([*named, *more])}" if new else ""
    return f"{speech.quote(review.path(page.file))}: the words of the page changed{tail}"


def files(speech: Speech, review: Review) -> Iterator[str]:
    """The files besides the pages that came, went or differ, mkdocs.yml first."""
    if review.comparison.settings_rewritten:
        yield f"{speech.quote(review.settings_file)} differs"
    what = {How.ADDED: "is new", How.GONE: "is gone", How.CHANGED: "differs"}
    yield from (f"{speech.quote(review.path(file.file))} {what[file.how]}" for file in review.comparison.files)


def _semitones(higher: int) -> str:
    return f"{counted(abs(higher), 'semitone')} {'higher' if higher > 0 else 'lower'}"


def _in_doubt(change: BlockChange) -> Iterator[str]:
    """From where on the steps of a block are not compared, and why."""
    for placed, why in ((change.after, "errors leave"), (change.before, "errors left")):
        if placed is not None and placed.sure is not None:
            which = f"steps from {placed.certain + 1} on" if placed.certain else "the steps"
            yield f"{which} are not compared: {why} them in doubt{'' if placed is change.after else ' before'}"
            return


def block_became(change: BlockChange) -> str:
    """`is new`, `is gone`, or "" for one that was there before and still is."""
    if change.unreadable:
        return "can no longer be read" if change.after is None else "could not be read before"
    return "is new" if change.before is None else "is gone" if change.after is None else ""
