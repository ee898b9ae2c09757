"""A block without its end, one that its list does not hold, or one whose fence does not say what it is.

Found in source/fence_body.py and source/meant_fence.py.
"""

from __future__ import annotations

from fingerpost.course.rules.explanation import Explanation
from fingerpost.diagnostics import Code

REASONS = {
    Code.FENCE_UNCLOSED: Explanation(
        "A block without its end",
        "Markdown takes everything down to the end of the page into the block, and the prose is lost.",
        "```moves\nid: first\nsteps:\n- hold",
        "```moves\nid: first\nsteps:\n- hold\n```",
    ),
    Code.FENCE_INDENT: Explanation(
        "A block that does not belong to its list",
        "With two or three blanks before it the list ends, and its numbers begin anew.",
        "1. Play this.\n\n   ```moves",
        "1. Play this.\n\n    ```moves",
    ),
    Code.FENCE_MISWRITTEN: Explanation(
        "A block in a fence that does not say `moves`",
        "Markdown would show the text of the block in place of its pictures. A fence that says `text` is left alone.",
        "```move\nid: first\nsteps:\n- hold\n```",
        "```moves\nid: first\nsteps:\n- hold\n```",
    ),
}
