"""A file or a folder that can't be read.

Found in workspace/course_folder.py, workspace/settings_file.py and workspace/page_text.py.
"""

from __future__ import annotations

from fingerpost.course.rules.explanation import Explanation
from fingerpost.diagnostics import Code

REASONS = {
    Code.UNREADABLE_FILE: Explanation(
        "A file that can't be read",
        "It is missing, not yours to read, or larger than any page.",
        "docs_dir: corse",
        "docs_dir: course",
    ),
}
