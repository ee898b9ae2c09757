"""More fingers in one step than the course promises.

Found in course/perform.py.
"""

from __future__ import annotations

from fingerpost.course.rules.explanation import Explanation
from fingerpost.diagnostics import Code

REASONS = {
    Code.TOO_MANY_FINGERS: Explanation(
        "More fingers move than were promised",
        "The course changes one finger at a time, unless a block says otherwise.",
        "- 1 off and 2 off",
        "- 1 off\n- 2 off",
    ),
}
