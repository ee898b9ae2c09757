"""A finding accepted without a reason, under a name that there is not, against the rules, or for nothing.

Found in course/acceptance.py.
"""

from __future__ import annotations

from fingerpost.course.rules.explanation import Explanation
from fingerpost.diagnostics import Code

REASONS = {
    Code.ACCEPTANCE_WITHOUT_REASON: Explanation(
        "A finding accepted without a reason",
        "In a year nobody knows why it may stay. Until the comment says so, the finding counts.",
        "# accept name-is-loose\n- 3 off = C",
        "# accept name-is-loose: the recording says C\n- 3 off = C",
    ),
    Code.ACCEPTANCE_UNKNOWN: Explanation(
        "An acceptance of a finding that there is not",
        "The code is that in brackets at the end of the finding, so a misspelt one accepts nothing.",
        "# accept name-is-lose: the recording says C",
        "# accept name-is-loose: the recording says C",
    ),
    Code.ACCEPTANCE_REFUSED: Explanation(
        "An acceptance of what can't be accepted",
        "The page would be wrong or unreadable, and the reader would pay for it.",
        "- 5 off # accept unknown-finger: a big hand",
        "- 4 off",
    ),
    Code.ACCEPTANCE_LAPSED: Explanation(
        "An acceptance of what is no longer found",
        "It would silently accept the next slip that comes to stand there.",
        "# accept name-is-loose: the recording says C\n- 3 off = C6",
        "- 3 off = C6",
    ),
}
