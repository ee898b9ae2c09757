"""A lesson that the navigation of the course leaves out.

Found in workspace/nav.py.
"""

from __future__ import annotations

from fingerpost.course.rules.explanation import Explanation
from fingerpost.diagnostics import Code

REASONS = {
    Code.PAGE_NOT_IN_NAV: Explanation(
        "A lesson that the navigation leaves out",
        "Nobody said where in the course it is taught, so it comes last; what it teaches is not missed elsewhere.",
        "nav:\n- index.md",
        "nav:\n- index.md\n- the-gate.md",
    ),
}
