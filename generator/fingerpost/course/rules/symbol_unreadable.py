"""A name that is no chord symbol.

Found in course/naming.py and course/teaching.py.
"""

from __future__ import annotations

from fingerpost.course.rules.explanation import Explanation
from fingerpost.diagnostics import Code

REASONS = {
    Code.SYMBOL_UNREADABLE: Explanation(
        "A name that is no chord symbol", "It can't be held against what sounds.", "- 3 off = Amseven", "- 3 off = Am7"
    ),
}
