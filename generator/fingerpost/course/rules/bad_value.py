"""A value that a key of a block does not take.

Found in source/values.py and, where the meaning tells, course/ground.py and course/start.py.
"""

from __future__ import annotations

from fingerpost.course.rules.explanation import Explanation
from fingerpost.diagnostics import Code

REASONS = {
    Code.BAD_VALUE: Explanation(
        "A value that its key does not take",
        "It can't be used, and nothing near it may be guessed.",
        "capo: second",
        "capo: 2",
    ),
}
