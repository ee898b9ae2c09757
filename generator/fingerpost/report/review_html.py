"""A review as one HTML file with pictures before and after: no script, no other file, readable on a phone."""

from __future__ import annotations

import base64
import hashlib
import html
from collections.abc import Callable, Iterable, Iterator
from importlib import resources

from fingerpost.course.comparison.block_difference import BlockChange
from fingerpost.course.comparison.step_difference import How, StepChange
from fingerpost.course.model import Step
from fingerpost.music.fretboard import Fretboard
from fingerpost.report import review_words as said
from fingerpost.report.quoted import clipped
from fingerpost.report.review import Review, counted, shortened
from fingerpost.report.review_blocks import block_became, of_block
from fingerpost.report.review_lists import affected, first_lists, last_lists, own_changes
from fingerpost.report.review_summary import summary, unchanged
from fingerpost.report.text import one_line

Draw = Callable[[Step, Fretboard, str], str]
MOST_PICTURES = 400
MOST_ITEMS = 200
"""How many steps are shown in pictures, and how many items of a list: a phone can't open more. By our own choice."""


def escaped(text: str) -> str:
    """A text of the branch: what can't be seen is made visible, what is markup is not."""
    return html.escape(clipped(text), quote=True)


def _code(text: str) -> str:
    return f"<q>{escaped(text)}</q>"


SPEECH = said.Speech(said.SIGNS, _code)


def write(review: Review, before: Draw, after: Draw) -> Iterator[str]:
    """The file, line by line. before, after: draw a step of either side as SVG, under an id of its own."""
    style = resources.files("fingerpost.report").joinpath("review.css").read_text(encoding="utf-8")
    digest = base64.b64encode(hashlib.sha256(style.encode()).digest()).decode()
    policy = f"default-src 'none'; style-src 'sha256-{digest}'; base-uri 'none'; form-action 'none'"
    yield "<!doctype html>"
    yield '<html lang="en">'
    yield f'<head><meta charset="utf-8"><meta http-equiv="Content-Security-Policy" content="{policy}">'
    yield '<meta name="viewport" content="width=device-width"><meta name="referrer" content="no-referrer">'
    yield f"<title>Review of {shortened(review.head)}</title>"
    yield f"<style>{style}</style></head>"
    yield "<body><main>"
    yield from _top(review)
    room = [MOST_PICTURES]
    for number, change in enumerate(own_changes(review), 1):
        yield from _block(change, number, review, (before, after), room)
    yield from _lists("What is affected", affected(review, SPEECH))
    yield f'<p class="kept">{unchanged(review)}</p>'
    yield "</main></body></html>"


def _top(review: Review) -> Iterator[str]:
    yield f"<h1>{summary(review)}</h1>"
    yield f'<p class="small">From {shortened(review.parting)} to {shortened(review.head)}.</p>'
    found = (("New findings", review.findings_new), ("Findings put right", review.findings_gone))
    yield from _lists(
        "",
        [
            *((f"{name} ({len(f)})", tuple(escaped(one_line(finding)) for finding in f)) for name, f in found if f),
            *first_lists(review, SPEECH),
            *last_lists(review, SPEECH),
        ],
        opened=True,
    )


def _lists(title: str, lists: Iterable[tuple[str, Iterable[str]]], opened: bool = False) -> Iterator[str]:
    """Folded lists; their items are markup already."""
    listed = list(lists)
    if listed and title:
        yield f"<h2>{title}</h2>"
    for name, items in listed:
        yield f"<details{' open' if opened else ''}><summary>{name}</summary><ul>"
        shown = list(items)
        yield from (f"<li>{item}</li>" for item in shown[:MOST_ITEMS])
        if len(shown) > MOST_ITEMS:
            yield f"<li>and {len(shown) - MOST_ITEMS} more</li>"
        yield "</ul></details>"


def _block(change: BlockChange, number: int, review: Review, draw: tuple[Draw, Draw], room: list[int]) -> Iterator[str]:
    here, became = change.here, block_became(change)
    title = escaped(here.block.title or here.block.id)
    count = f", {counted(len(here.block.steps), 'step')}" if became else ""
    yield f"<section><h2>{title}{' ' + became if became else ''}{count}</h2>"
    yield f'<p class="small">{escaped(here.block.id)}, in {escaped(review.path(here.file))}</p>'
    told = [*of_block(SPEECH, change), *(() if change.musical else ("No musical change.",))]
    told += [f"Words: {SPEECH.words(words)}" for words in change.words]
    if told:
        yield f"<ul>{''.join(f'<li>{item}</li>' for item in told)}</ul>"
    for index, step in enumerate(step for step in change.steps if step.how is not How.FOLLOWS):
        room[0] -= 1
        yield from _step(step, change, f"b{number}-{index}", draw if room[0] >= 0 else None)
    yield "</section>"


def _step(step: StepChange, change: BlockChange, ident: str, draw: tuple[Draw, Draw] | None) -> Iterator[str]:
    yield f"<article><h3>{SPEECH.step(step).replace('; ', '<br>', 1)}</h3>"
    if draw is not None and step.how is not How.MOVED:
        yield '<div class="pair">'
        sides = (("Before", step.before, change.before, draw[0]), ("After", step.after, change.after, draw[1]))
        for name, drawn, placed, picture in sides:
            if drawn is not None and placed is not None:
                svg = picture(drawn, placed.block.fretboard, f"{ident}-{name.lower()}")
                caption = f"{name}: {html.escape(SPEECH.name(drawn))}"
                yield f"<figure><figcaption>{caption}</figcaption>{svg}</figure>"
        yield "</div>"
    told = SPEECH.consequences(step)
    if told and change.before and change.after:
        yield f'<p class="small">{told}</p>'
    yield "</article>"
