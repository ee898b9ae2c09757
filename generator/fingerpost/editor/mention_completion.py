"""What an editor offers to write in a mention: what the course holds, and what the hand holds here."""

from __future__ import annotations

import re

from fingerpost.editor import offers
from fingerpost.editor.offered import Offered
from fingerpost.editor.offers import Offer
from fingerpost.editor.sheet import Sheet, blocks_by_span, shown

MENTION = re.compile(r"`+\s*(chord|step|now):\s+([^`]*)$")


def in_mention(kind: str, typed: str, sheet: Sheet, line: int) -> Offered:
    """What a mention of this kind may say, after what is typed of it. kind: chord, now or step."""
    if kind == "chord":
        return Offered(
            tuple(Offer(e.symbol, f"first in {e.first[1]}, {e.first[0]}") for e in sheet.checked.course.chords),
            len(typed),
        )
    if kind == "now":
        above = sheet.block_above(line)
        steps = above.block.steps[-1:] if above is not None and above.block is not None else ()
        found = (offer for step in steps if above is not None for offer in offers.names(step.shape, above.ground))
        return Offered(tuple(found), len(typed))
    block_id, blank, word = typed.partition(" ")
    blocks = [(lesson.file, b) for lesson in sheet.checked.course.lessons for b in blocks_by_span(lesson).values()]
    if not blank:
        return Offered(tuple(Offer(b.id, f"{b.title or 'block'}, {file}") for file, b in blocks), len(typed))
    steps = next((block.steps for _, block in blocks if block.id == block_id), ())
    chords = dict.fromkeys(shown(step) for step in steps if step.naming.shown is not None and not step.rest)
    ids = [Offer(step.id, shown(step)) for step in steps]
    return Offered((*(Offer(chord, f"in {block_id}") for chord in chords), *ids), len(word))
