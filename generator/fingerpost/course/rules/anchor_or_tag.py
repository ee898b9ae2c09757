"""A value that refers to another part of the text.

Found in source/references.py.
"""

from __future__ import annotations

from fingerpost.course.rules.explanation import Explanation
from fingerpost.diagnostics import Code

REASONS = {
    Code.ANCHOR_OR_TAG: Explanation(
        "A reference to another part of the text",
        "Such references can grow without bound and hide what a line says, so they are not read.",
        "start: *before",
        "start: previous",
    ),
}
