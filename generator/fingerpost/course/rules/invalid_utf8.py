"""A page whose bytes are no text.

Found in source/decoding.py.
"""

from __future__ import annotations

from fingerpost.course.rules.explanation import Explanation
from fingerpost.diagnostics import Code

REASONS = {
    Code.INVALID_UTF8: Explanation(
        "Bytes that are no text",
        "They were saved in another encoding, and would be shown as marks.",
        "a page saved as Latin-1",
        "the same page saved as UTF-8",
    ),
}
