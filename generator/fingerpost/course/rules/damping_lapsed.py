"""A string that rings again because the finger that damped it has moved.

Found in course/sound.py.
"""

from __future__ import annotations

from fingerpost.course.rules.explanation import Explanation
from fingerpost.diagnostics import Code

REASONS = {
    Code.DAMPING_LAPSED: Explanation(
        "A string that rings again",
        "The finger that damped it has moved. Perhaps that is meant; a name that takes the string in says so.",
        "- mute A by 2\n- 2 off",
        "- mute A by 2\n- 2 off, mute A",
    ),
}
