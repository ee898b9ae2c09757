"""A mention in the prose that is misspelt, that leads nowhere, or that the hand denies.

Found in source/near_mentions.py and course/mentions.py.
"""

from __future__ import annotations

from fingerpost.course.rules.explanation import Explanation
from fingerpost.diagnostics import Code

REASONS = {
    Code.MENTION_MISWRITTEN: Explanation(
        "A mention that is misspelt",
        "The page would show it as code, and nothing of what it says is checked.",
        "You hold `now:C`.",
        "You hold `now: C`.",
    ),
    Code.UNRESOLVED_MENTION: Explanation(
        "A mention that leads nowhere",
        "The prose points to a chord or a step that the course does not have.",
        "`step: lamb C`",
        "`step: lamp C`",
    ),
    Code.MENTION_DENIED: Explanation(
        "A mention that the hand denies",
        "`now:` says what the hand holds at this place of the page, after the blocks above it.",
        "You hold `now: Am`.     (after a block that ends on C)",
        "You hold `now: C`.",
    ),
}
