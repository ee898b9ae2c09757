"""An option of the course with a value that it does not take.

Found in course/option_values.py, told in workspace/checked.py.
"""

from __future__ import annotations

from fingerpost.course.rules.explanation import Explanation
from fingerpost.diagnostics import Code

REASONS = {
    Code.BAD_SETTING: Explanation(
        "An option with a value that it does not take", "The default is used in its place.", "frets: many", "frets: 22"
    ),
}
