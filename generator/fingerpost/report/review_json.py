"""A review as JSON, one object a line; `record` says what each line is about. A contract that other programs read."""

from __future__ import annotations

import json
from collections.abc import Iterator
from typing import Any

from fingerpost.course.comparison.block_difference import BlockChange, Retuned
from fingerpost.course.comparison.step_difference import Fact, How, StepChange, StringChange
from fingerpost.course.model import Step
from fingerpost.music.chord_symbol import write as write_symbol
from fingerpost.music.shape_text import write_shape
from fingerpost.report import review_words as said
from fingerpost.report.json import as_object
from fingerpost.report.review import Review
from fingerpost.report.review_summary import summary

Object = dict[str, Any]
_CAME = {How.ADDED: "new"}


def write(review: Review) -> Iterator[str]:
    """A line for each object: first `review`, then what changed, then `affected`, `finding`s, and last `unchanged`."""
    return (json.dumps(thing, ensure_ascii=True) for thing in objects(review))


def objects(review: Review) -> Iterator[Object]:
    """The objects themselves."""
    comparison = review.comparison
    yield {
        "record": "review",
        "base": review.base,
        "parting": review.parting,
        "head": review.head,
        "musical_change": comparison.musical,
        "summary": summary(review),
    }
    yield from ({"record": "setting", **_fact(fact)} for fact in comparison.settings)
    for page in comparison.pages:
        names = {"before": page.before, "after": page.after}
        paths = {key: None if file is None else review.path(file) for key, file in names.items()}
        titles = {"title_before": page.title_before, "title_after": page.title_after}
        redirect = None if page.redirect is None else review.path(page.redirect)
        yield {"record": "page", **paths, **titles, "redirect": redirect}
    for change in comparison.blocks:
        yield from _block(change, review)
    for block in comparison.unread:
        place = {"file": review.path(block.file), "block": block.block, "line": block.line}
        yield {"record": "unread", **place, "change": _CAME.get(block.how, str(block.how))}
    for page_ in comparison.prose:
        new = {"links_new": page_.links, "images_new": page_.images, "html_new": page_.tags}
        yield {"record": "prose", "file": review.path(page_.file), **new}
    if comparison.settings_rewritten:
        yield {"record": "file", "file": review.settings_file, "change": "changed"}
    for file in comparison.files:
        yield {"record": "file", "file": review.path(file.file), "change": _CAME.get(file.how, str(file.how))}
    yield from ({"record": "rewritten", "what": what} for what in comparison.rewritten)
    yield _affected(review)
    for change_, findings in (("new", review.findings_new), ("gone", review.findings_gone)):
        yield from ({"record": "finding", "change": change_, **as_object(finding)} for finding in findings)
    kept = comparison.kept
    counts = {"pages": kept.pages, "blocks": kept.blocks, "steps": kept.steps, "chords": kept.chords, "ids": kept.ids}
    shares = {name: {"kept": have, "all": total} for name, (have, total) in counts.items()}
    yield {"record": "unchanged", **shares, "unread": kept.unread}


def _block(change: BlockChange, review: Review) -> Iterator[Object]:
    place = {"file": review.path(change.here.file), "block": change.here.block.id}
    status = "new" if change.before is None else "gone" if change.after is None else "changed"
    status = "unreadable" if change.unreadable else status
    yield {
        "record": "block",
        **place,
        "change": status,
        "musical_change": change.musical,
        "title": change.here.block.title,
        "facts": [_fact(fact) for fact in change.facts],
        "steps_kept": change.kept,
        "steps_transposed": change.transposed,
        "steps_uncompared": change.uncompared,
        "retuned": _retuned(change.retuned),
    }
    yield from (_step(step, place) for step in change.steps)
    for word in change.words:
        number = None if word.step is None else word.step.ordinal + 1
        yield {
            "record": "words", **place, "step": number, "what": word.what, "before": word.before, "after": word.after,
        }  # fmt: skip


def _retuned(neck: Retuned | None) -> Object | None:
    if neck is None:
        return None
    keys = ("string", "before", "after", "semitones")
    example = dict(zip(("symbol", "before", "after"), neck.example, strict=True)) if neck.example else None
    strings = [dict(zip(keys, string, strict=True)) for string in neck.strings]
    return {"semitones": neck.higher, "strings": strings, "example": example}


def _step(change: StepChange, place: Object) -> Object:
    elsewhere = change.elsewhere
    return {
        "record": "step",
        **place,
        "change": str(change.how),
        "text": said.PLAIN.step(change),
        "before": _side(change.before, change.difficulty_before),
        "after": _side(change.after, change.difficulty_after),
        "id_kept": change.id_kept,
        "strings": [_string(string) for string in change.strings],
        "facts": [_fact(fact) for fact in change.facts],
        "elsewhere": None if elsewhere is None else {"block": elsewhere[0], "step": elsewhere[1] + 1},
    }


def _side(step: Step | None, difficulty: float | None) -> Object | None:
    if step is None:
        return None
    return {
        "number": step.ordinal + 1,
        "id": step.id,
        "line": step.span.line,
        "move": step.move_text,
        "shape": None if step.rest else write_shape(step.shape),
        "symbol": None if step.naming.shown is None or step.rest else write_symbol(step.naming.shown),
        "difficulty": difficulty,
        "cue": step.cue,
    }


def _string(change: StringChange) -> Object:
    return {
        "string": change.string,
        "fret": {"before": change.fret_before, "after": change.fret_after},
        "finger": {"before": change.finger_before, "after": change.finger_after},
        "note": {"before": change.note_before, "after": change.note_after},
    }


def _fact(fact: Fact) -> Object:
    return {"what": fact.what, "before": fact.before, "after": fact.after}


def _affected(review: Review) -> Object:
    reach = review.comparison.reach
    later, rerouted = (
        [{"block": placed.block.id, "step": change.after.ordinal + 1} for placed, change in pairs if change.after]
        for pairs in (reach.later, reach.rerouted)
    )
    return {
        "record": "affected",
        "pages": [review.path(file) for file in reach.pages],
        "worded_pages": [review.path(file) for file in reach.worded],
        "later_steps": later,
        "rerouted_steps": rerouted,
        "chords": {
            "new": list(reach.chords_new), "gone": list(reach.chords_gone), "other_shapes": list(reach.chord_shapes),
            "other_sound": [
                {"symbol": chord.symbol, "capos_before": chord.capos_before, "capos_after": chord.capos_after}
                for chord in reach.chord_sounds
            ],
            "first_elsewhere": [
                {"symbol": symbol, "before": before, "after": after} for symbol, before, after in reach.chord_first
            ],
        },
        "takes": [
            {
                "file": review.path(take.file), "block": take.block, "step": take.step.ordinal + 1, "id": take.step.id,
                "cue": take.step.cue, "gone": take.gone,
            }
            for take in reach.takes
        ],
        "practice": list(reach.practice),
        "exports": {"pictures": reach.pictures},
        "ids_lost": [ident for lost in reach.ids_lost for ident in lost.ids],
        "difficulty": [{"block": block, "steps": count} for block, count in reach.reckoned],
    }  # fmt: skip
