"""The ways back of a block and its wrap-around: those of many fingers at once to be seen, the easy ones folded."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from fingerpost.course.model import Block, WayBack
from fingerpost.render import wording, wording_notes
from fingerpost.render.catalogue import sentence
from fingerpost.render.figure import figure_svg, picture
from fingerpost.render.look import Look
from fingerpost.render.named import named
from fingerpost.render.parts import heading, tag
from fingerpost.render.plain import escaped, html_id
from fingerpost.render.voice import Voice

FEWEST_FOLDED = 2
"""One way alone is as soon seen as the line that it would be folded behind."""


def ways_back_html(block: Block, look: Look) -> str:
    """The section after the steps; "" where the steps themselves show every way back."""
    back = list(_not_among_the_steps(block))
    again = _round_again(block, back)
    if not (back or again):
        return ""
    voice = look.voice(block.fretboard)
    folded = _to_fold(back)
    shown = [_way(way, False, block, look, voice) for way in back if way not in folded]
    # The way round undoes nothing: it is a move of its own, with which the block is played as music.
    shown += [_way(way, True, block, look, voice) for way in again]
    title = heading(look.heading + 1, escaped(voice.words.say("back.title")), "fp-back-title")
    lead = tag("p", escaped(voice.words.say("back.lead")), "fp-back-lead")
    fold = _fold(folded, block, look, voice) if folded else ""
    return tag("section", title + lead + _listed(shown) + fold, "fp-back")


def _to_fold(back: list[WayBack]) -> list[WayBack]:
    """The ways that only undo what one finger did: a student who came here by that step knows them already."""
    easy = [way for way in back if way.fingers <= 1]
    return easy if len(easy) >= FEWEST_FOLDED else []


def _fold(ways: list[WayBack], block: Block, look: Look, voice: Voice) -> str:
    key = "back.folded" if all(way.fingers for way in ways) else "back.folded_or_none"
    summary = tag("summary", escaped(sentence(voice.words.count(key, len(ways)))))
    listed = _listed([_way(way, False, block, look, voice) for way in ways])
    return tag("details", summary + listed, "fp-ways-folded")


def _listed(ways: list[str]) -> str:
    return tag("ul", "".join(ways), "fp-ways") if ways else ""


def _not_among_the_steps(block: Block) -> Iterator[WayBack]:
    """The ways back that no step of the block shows, each change of shapes once: a page is long enough on a phone."""
    shown = {(before.shape, after.shape) for before, after in pairwise(block.steps) if not (before.rest or after.rest)}
    for way in block.ways_back:
        change = (way.transition.before, way.transition.after)
        if change not in shown:
            shown.add(change)
            yield way


def _round_again(block: Block, back: list[WayBack]) -> tuple[WayBack, ...]:
    """The way from the last shape to the first, if they differ and it is not among the ways back."""
    way = block.wrap_around
    if way is None or way.transition.before == way.transition.after:
        return ()
    return () if way.transition in [other.transition for other in back] else (way,)


def _way(way: WayBack, again: bool, block: Block, look: Look, voice: Voice) -> str:
    start, end = block.steps[way.from_step], block.steps[way.to_step]
    names = wording_notes.step_names(start, end, voice)
    title = tag("b", named(wording_notes.way_title(way, names, voice, again)))
    flag = wording_notes.way_flag(way, voice)
    ident = html_id(f"{block.id}-back-{way.from_step}-{way.to_step}")
    drawn = figure_svg(picture(end.shape, block.fretboard, end.naming, look, way.transition), ident, small=True)
    words = " ".join(
        part for part in (wording.stays(way.transition, voice), wording.moves(way.transition, voice)) if part
    )
    text = title + (" " + tag("strong", escaped(flag), "fp-flag") if flag else "") + tag("p", named(words))
    return tag(
        "li",
        tag("figure", drawn, "fp-figure") + tag("div", text, "fp-way-words"),
        "fp-way fp-round" if again else "fp-way",
        data_fingers=str(way.fingers),
    )
