"""A string, a finger or a fret that there is not.

Found in source/actions.py and course/spots.py.
"""

from __future__ import annotations

from fingerpost.course.rules.explanation import Explanation
from fingerpost.diagnostics import Code

REASONS = {
    Code.UNKNOWN_STRING: Explanation(
        "A string that the instrument does not have",
        "The letters are those of this tuning; one that two strings share serves for neither, and numbers always do.",
        "- 3 to 7:2",
        "- 3 to 6:2",
    ),
    Code.UNKNOWN_FINGER: Explanation(
        "A finger that no hand has", "Fingers are 1 (index) to 4 (little), and T for the thumb.", "- 5 off", "- 4 off"
    ),
    Code.UNKNOWN_FRET: Explanation(
        "A fret that the neck does not have",
        "Frets count from 1, or from the capo; fret 0 is the open string, which no finger presses.",
        "- 3 to A99",
        "- 3 to A9",
    ),
}
