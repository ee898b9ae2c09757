"""A start that does not say which finger is where, while the moves name fingers.

Found in course/block.py.
"""

from __future__ import annotations

from fingerpost.course.rules.explanation import Explanation
from fingerpost.diagnostics import Code

REASONS = {
    Code.START_WITHOUT_FINGERS: Explanation(
        "A start that does not say which finger is where",
        "The moves below name fingers. The likeliest are taken, and they may not be the ones that you mean.",
        "start: x02210 = Am\nsteps:\n- 3 off",
        "start: x02210/--231- = Am\nsteps:\n- 3 off",
    ),
}
