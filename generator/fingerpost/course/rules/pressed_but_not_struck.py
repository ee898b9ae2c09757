"""A finger put down on a string that nobody hears.

Found in course/sound.py.
"""

from __future__ import annotations

from fingerpost.course.rules.explanation import Explanation
from fingerpost.diagnostics import Code

REASONS = {
    Code.PRESSED_BUT_NOT_STRUCK: Explanation(
        "A finger on a string that nobody hears",
        "The string is not struck, or it is damped, so pressing it changes nothing.",
        "start: xx0232/---132 = D\nsteps:\n- 4 to A3",
        "start: xx0232/---132 = D\nsteps:\n- 4 to A3, strum A-e",
    ),
}
