"""A finger that moves away and is not down.

Found in course/objections.py.
"""

from __future__ import annotations

from fingerpost.course.rules.explanation import Explanation
from fingerpost.diagnostics import Code

REASONS = {
    Code.FINGER_NOT_DOWN: Explanation(
        "A finger moves away that is not down",
        "Either the finger or an earlier step is wrong; a student would stop here and look for it.",
        "start: x02210/--231- = Am\nsteps:\n- 4 off",
        "start: x02210/--231- = Am\nsteps:\n- 3 off",
    ),
}
