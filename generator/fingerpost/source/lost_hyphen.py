"""A step whose hyphen is lost, runs on, or is another mark of a list: told, and read as the step that it plainly is."""

from __future__ import annotations

import re

from fingerpost.diagnostics import Edit
from fingerpost.source.block_lines import BlockLine, cut, without_comment
from fingerpost.source.findings import Findings, quoted
from fingerpost.source.grammar import move_or_none

MARK = re.compile(r"(?:[-*+–—−•·]+|[0-9]{1,3}[.)](?=[ \t]))?[ \t]*")
MOVE_KEY = re.compile(r"move[ \t]*:(?=\s)")
EXPECTED = "a hyphen and a blank before each step"


def step_without_hyphen(line: BlockLine, findings: Findings) -> BlockLine | None:
    """The line as a step, with a finding; None where what it says is no move."""
    start = MARK.match(line.whole.text).end()  # type: ignore[union-attr]  # it matches nothing, too
    words = cut(line.whole, start, len(line.whole.text))
    if not (MOVE_KEY.match(words.text) or move_or_none(without_comment(words)) is not None):
        return None
    mark = line.whole.text[:start].rstrip()
    place, message = words.span, "The hyphen before this step is missing"
    if mark:
        place, message = line.whole.span.part(0, len(mark)), f"This step begins with {quoted(mark)}"
        message = "After the hyphen of this step a blank is missing" if mark == "-" else message
    edit = Edit(line.whole.span.part(0, start), "- ")
    findings.slip(place, message, EXPECTED, f"- {words.text}", edit)
    return BlockLine(line.indent, line.whole, cut(line.whole, 0, max(start, 1)), words)
