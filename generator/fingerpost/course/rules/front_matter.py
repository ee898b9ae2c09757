"""Data at the top of a page that MkDocs reads otherwise than it looks.

Found in source/front_matter.py.
"""

from __future__ import annotations

from fingerpost.course.rules.explanation import Explanation
from fingerpost.diagnostics import Code

REASONS = {
    Code.FRONT_MATTER: Explanation(
        "Data at the top of a page that is read otherwise than it looks",
        "MkDocs takes `Word: text` at the very top for data and drops it, and shows unreadable data as prose.",
        "Note: bring a capo.\n\n# The lesson",
        "# The lesson\n\nNote: bring a capo.",
    ),
}
