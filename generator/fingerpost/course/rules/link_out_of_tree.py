"""A file from outside of the course.

Found in workspace/tree.py, workspace/course_folder.py and course/extras.py.
"""

from __future__ import annotations

from fingerpost.course.rules.explanation import Explanation
from fingerpost.diagnostics import Code

REASONS = {
    Code.LINK_OUT_OF_TREE: Explanation(
        "A file from outside the course",
        "A link or a path out of the sources could publish what is not meant for readers, or ask another host.",
        "image: https://example.org/thumb.png A thumb.",
        "image: thumb.png A thumb.",
    ),
}
