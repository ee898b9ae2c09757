"""A line that is no move.

Found in source/cursor.py.
"""

from __future__ import annotations

from fingerpost.course.rules.explanation import Explanation
from fingerpost.diagnostics import Code

REASONS = {
    Code.MOVE_UNREADABLE: Explanation(
        "A line that is no move",
        "The hand can't follow it. The finding points at the first word that makes no sense.",
        "- 3 of",
        "- 3 off",
    ),
}
