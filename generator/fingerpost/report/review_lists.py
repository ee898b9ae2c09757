"""The lists of a review: what is to be looked at again, each with its count in its name; empty ones are left out."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from fingerpost.course.comparison.block_difference import BlockChange
from fingerpost.course.comparison.difference import ChordSounds, LostIds
from fingerpost.report.review import Review, counted
from fingerpost.report.review_blocks import files, pages, prose, retuned, unread
from fingerpost.report.review_words import Speech

Listed = tuple[str, tuple[str, ...]]


def affected(review: Review, speech: Speech) -> tuple[Listed, ...]:
    """How far the change reaches."""
    reach = review.comparison.reach
    told = {page.file for page in review.comparison.prose}
    worded = (file for file in reach.worded if file not in told)
    pictures = (f"{counted(reach.pictures, 'picture')} to make again",) if reach.pictures else ()
    reckoned = (f"{speech.quote(block)}: {counted(count, 'step')}" for block, count in reach.reckoned)
    lists: tuple[tuple[str, Iterable[str], int | None], ...] = (
        ("Pages", (speech.quote(review.path(file)) for file in reach.pages), None),
        ("Pages with other words only", (speech.quote(review.path(file)) for file in worded), None),
        ("Later steps whose hand or sound changes", map(speech.later, reach.later), None),
        ("Steps with the same hand, reached from another", map(speech.later, reach.rerouted), None),
        ("Chords new in the index", map(speech.symbol, reach.chords_new), None),
        ("Chords gone from the index", map(speech.symbol, reach.chords_gone), None),
        ("Chords shown in other shapes", map(speech.symbol, reach.chord_shapes), None),
        ("Chords of the same shapes, under other capos", _sounds(reach.chord_sounds, speech), None),
        ("Chords first met in another block", _first(reach.chord_first, speech), None),
        ("Takes that no longer match", map(speech.take, reach.takes), None),
        ("Practice lists", map(speech.quote, reach.practice), None),
        (
            "Ids that links and a student's progress no longer find",
            _lost(reach.ids_lost, speech),
            sum(len(block.ids) for block in reach.ids_lost),
        ),
        ("Steps of the same fingers, with another difficulty", reckoned, sum(count for _, count in reach.reckoned)),
        ("Exports", pictures, reach.pictures),
    )
    listed = ((name, tuple(items), number) for name, items, number in lists)
    return tuple(
        (f"{name} ({len(items) if number is None else number})", items) for name, items, number in listed if items
    )


def first_lists(review: Review, speech: Speech) -> Iterator[Listed]:
    """What comes before the blocks: the settings, the pages, and blocks that only follow the settings."""
    comparison = review.comparison
    neither = (unread(speech, block, review.path(block.file)) for block in comparison.unread)
    lists: tuple[tuple[str, Iterable[str]], ...] = (
        ("Settings", map(speech.fact, comparison.settings)),
        ("Blocks in which nothing but these settings differs", _following(review, speech)),
        ("Pages that came, went or changed their name", pages(speech, review)),
        ("Blocks that can be read on neither side", neither),
    )
    return ((name, items) for name, those in lists if (items := tuple(those)))


def last_lists(review: Review, speech: Speech) -> Iterator[Listed]:
    """What differs besides the music: words of the pages, other files, and what is only written otherwise."""
    comparison = review.comparison
    told = {page.file for page in comparison.prose}
    lists: tuple[tuple[str, Iterable[str]], ...] = (
        ("Words outside the blocks", (prose(speech, page, review) for page in comparison.prose)),
        ("Other files that differ", files(speech, review)),
        (
            "Written otherwise, no musical change",
            (speech.quote(what) for what in comparison.rewritten if what not in told),
        ),
    )
    return ((name, items) for name, those in lists if (items := tuple(those)))


def _following(review: Review, speech: Speech) -> Iterator[str]:
    for change in review.comparison.blocks:
        if review.comparison.follows_settings(change):
            told = retuned(speech, change.retuned, False) if change.retuned is not None else ()
            place = f"{speech.quote(review.path(change.here.file))}: {speech.quote(change.here.block.id)}"
            yield "; ".join([place, *told])


def own_changes(review: Review) -> tuple[BlockChange, ...]:
    """The blocks in which more differs than the settings."""
    return tuple(change for change in review.comparison.blocks if not review.comparison.follows_settings(change))


def _sounds(chords: Iterable[ChordSounds], speech: Speech) -> Iterator[str]:
    for chord in chords:
        before, after = (" and ".join(map(str, capos)) for capos in (chord.capos_before, chord.capos_after))
        yield f"{speech.symbol(chord.symbol)}: capo {before} -> capo {after}"


def _first(chords: Iterable[tuple[str, str, str]], speech: Speech) -> Iterator[str]:
    for symbol, before, after in chords:
        yield f"{speech.symbol(symbol)}: {speech.quote(before)} -> {speech.quote(after)}"


def _lost(ids: Iterable[LostIds], speech: Speech) -> Iterator[str]:
    for lost in ids:
        if lost.whole:
            yield f"{speech.quote(lost.block)}, and those of {len(lost.steps)} of its {counted(lost.of, 'step')}"
        else:
            yield from map(speech.quote, lost.steps)
