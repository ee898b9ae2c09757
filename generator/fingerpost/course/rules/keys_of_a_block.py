"""A key that is not known, is given twice, or is missing.

Found in source/keys.py, source/block.py and source/steps.py.
"""

from __future__ import annotations

from fingerpost.course.rules.explanation import Explanation
from fingerpost.diagnostics import Code

REASONS = {
    Code.UNKNOWN_KEY: Explanation(
        "A key that is not known",
        "What stands under it would be lost without a word.",
        "titel: A slip of the pen",
        "title: A slip of the pen",
    ),
    Code.DUPLICATE_KEY: Explanation(
        "A key that is given twice", "Only one of the two can count.", "key: G\nkey: Em", "key: Em"
    ),
    Code.MISSING_KEY: Explanation(
        "A key that is missing",
        "Links, takes and a student's progress need the `id`; a long step needs its `move`.",
        "start: open\nsteps:\n- hold",
        "id: first\nstart: open\nsteps:\n- hold",
    ),
}
