"""An image of a step that is not there.

Found in workspace/checked.py.
"""

from __future__ import annotations

from fingerpost.course.rules.explanation import Explanation
from fingerpost.diagnostics import Code

REASONS = {
    Code.MISSING_IMAGE: Explanation(
        "An image that is not there", "The page would show a gap in its place.", "image: thumb.pgn", "image: thumb.png"
    ),
}
