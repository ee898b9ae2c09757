"""A hand that no hand can make, or a move that it can't make as it stands.

Found in course/objections.py; the limits are those of music/hand.py.
"""

from __future__ import annotations

from fingerpost.course.rules.explanation import Explanation
from fingerpost.diagnostics import Code

REASONS = {
    Code.IMPOSSIBLE_HAND: Explanation(
        "A hand that no hand can make",
        "It breaks one of the limits of the hand, which the course can set under `limits`.",
        "start: x32010/-32-1- = C\nsteps:\n- 4 to e8",
        "start: x32010/-32-1- = C\nsteps:\n- 4 to e3",
    ),
    Code.IMPOSSIBLE_MOVE: Explanation(
        "A move that the hand, as it stands, can't make",
        "The finger is there already, say, or there is no rest to come back from.",
        "start: x02210/--231- = Am\nsteps:\n- 3 to G2",
        "start: x02210/--231- = Am\nsteps:\n- hold",
    ),
}
