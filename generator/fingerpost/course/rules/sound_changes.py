"""A move that changes no sound, or one that says `silent` and is heard.

Found in course/sound.py.
"""

from __future__ import annotations

from fingerpost.course.rules.explanation import Explanation
from fingerpost.diagnostics import Code

REASONS = {
    Code.NO_SOUND_CHANGES: Explanation(
        "A move that changes no sound",
        "One changed note makes a new chord; where a finger only gets ready, the line says `silent`.",
        "start: 320003/32---4 = G\nsteps:\n- 1 to e2",
        "start: 320003/32---4 = G\nsteps:\n- 1 to e2 silent",
    ),
    Code.SOUND_CHANGES_AFTER_ALL: Explanation(
        "A silent move that is heard",
        "The line promises that no sound changes, and one does.",
        "- 3 off silent",
        "- 3 off",
    ),
}
