"""A start that leads nowhere, or to two places.

Found in course/start.py.
"""

from __future__ import annotations

from fingerpost.course.rules.explanation import Explanation
from fingerpost.diagnostics import Code

REASONS = {
    Code.UNRESOLVED_START: Explanation(
        "A start that leads nowhere, or to two places",
        "`previous`, `after` and `as taught` must point to one shape that comes earlier in the course.",
        "start: after nothing",
        "start: previous",
    ),
}
