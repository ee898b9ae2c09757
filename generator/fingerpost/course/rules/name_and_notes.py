"""A name that is not what sounds, says more than sounds, or is called near and is exact.

Found in course/naming.py.
"""

from __future__ import annotations

from fingerpost.course.rules.explanation import Explanation
from fingerpost.diagnostics import Code

REASONS = {
    Code.NAME_IS_WRONG: Explanation(
        "A name that is not what sounds",
        "With `=` root and notes are this chord, with a slash the bass too. The message says what sounds.",
        "start: x02210/--231- = Am\nsteps:\n- 3 off = C",
        "start: x02210/--231- = Am\nsteps:\n- 3 off = Am7",
    ),
    Code.NAME_IS_LOOSE: Explanation(
        "A name that says more than sounds",
        "Its root is there and nothing is foreign, but more is missing than custom leaves out, such as the third.",
        "start: 3x0033/2---34 = G",
        "start: 3x0033/2---34 = G5",
    ),
    Code.NAME_WOULD_HOLD: Explanation(
        "A near name that is exact",
        "`~` promises a footnote about what differs, and nothing does.",
        "- 3 off ~ Am7",
        "- 3 off = Am7",
    ),
}
