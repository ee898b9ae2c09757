"""A block that can't be read as a list of keys and steps, holds too much, or nothing at all.

Found in source/outline.py, source/block.py and source/steps.py.
"""

from __future__ import annotations

from fingerpost.course.rules.explanation import Explanation
from fingerpost.diagnostics import Code

REASONS = {
    Code.BLOCK_UNREADABLE: Explanation(
        "A block that is no list of keys",
        "Nothing of it can be told apart, so the page shows its text and this notice in its place.",
        "A minor, then lift finger 3.",
        "id: letting-go\nstart: x02210/--231- = Am\nsteps:\n- 3 off = Am7",
    ),
    Code.BLOCK_TOO_LARGE: Explanation(
        "A block with too much text or too many steps",
        "No lesson needs half a megabyte or a thousand steps in one block; one that has them was pasted by mistake, "
        "or means harm.",
        "a block of a thousand steps",
        "several blocks, each going on from the one before with `start: previous`",
    ),
    Code.BLOCK_EMPTY: Explanation(
        "An empty block",
        "There is nothing to show, so something was lost on the way.",
        "```moves\n```",
        "```moves\nid: first\nsteps:\n- hold\n```",
    ),
}
