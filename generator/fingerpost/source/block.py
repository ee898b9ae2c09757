"""One block: what its keys and steps say. A line that can't be read is reported and left out; the rest is read."""

from __future__ import annotations

from dataclasses import replace

from fingerpost.diagnostics import Code, Diagnostic, Severity, Span
from fingerpost.source.findings import Findings
from fingerpost.source.grammar import Reading, read_start, read_strum
from fingerpost.source.keys import BLOCK_KEYS, STEP_KEYS, by_key
from fingerpost.source.outline import Entry, outline
from fingerpost.source.steps import Steps
from fingerpost.source.syntax import BlockSyntax, Fence
from fingerpost.source.values import Values, one_line, slug

MOST_BYTES = 200 * 1024
MOST_LINES = 2_000
"""A larger block is refused unread. Four hundred steps in a long form of four lines fit. By our own choice."""

MISSING = {
    "id": ("`id:` and a name that stays for ever: lower-case letters, digits and hyphens", "id: first-steps"),
    "steps": ("`steps:`, and below it a line a step, such as `- 1 off`", "steps:"),
}


def read_block(file: str, fence: Fence) -> Reading[BlockSyntax]:
    """Reads the block in a fence. Always gives a block, perhaps an empty one, and what is wrong with it."""
    empty = BlockSyntax(fence.span, "\n".join(fence.body))
    heading = Span(file, fence.span.line, fence.span.column, fence.span.line, fence.span.column + len(fence.opening))
    if fault := _too_large(empty.source, len(fence.body)):
        expected = f"at most {MOST_BYTES // 1024} KiB and {MOST_LINES} lines"
        return Reading(empty, (Diagnostic(heading, Severity.ERROR, Code.BLOCK_TOO_LARGE, fault, expected),))
    findings = Findings()
    block = _block(empty, fence, heading, findings)
    return Reading(block, findings.all(heading))


def _too_large(source: str, lines: int) -> str:
    size = len(source) if len(source) > MOST_BYTES else len(source.encode("utf-8", "replace"))
    if size <= MOST_BYTES and lines <= MOST_LINES:
        return ""
    return f"This block has {size // 1024} KiB in {lines} lines, which is too much to be read"


def _block(empty: BlockSyntax, fence: Fence, heading: Span, findings: Findings) -> BlockSyntax:
    entries = outline(fence.lines, findings, BLOCK_KEYS, STEP_KEYS)
    if not entries:
        if not findings.found:
            findings.error(heading, Code.BLOCK_EMPTY, "This block is empty", "`id:` and `steps:`")
        return empty
    keyed = by_key(entries, BLOCK_KEYS, findings)
    block = _filled(empty, keyed, Values(findings))
    for key, (expected, fix) in MISSING.items():
        if key not in keyed:
            named = f"id: {slug(block.title.text)}" if key == "id" and block.title and slug(block.title.text) else fix
            findings.error(heading, Code.MISSING_KEY, f"This block has no `{key}`", expected, named)
    return block


def _filled(empty: BlockSyntax, keyed: dict[str, Entry], values: Values) -> BlockSyntax:
    read = replace(
        empty,
        id=values.id(keyed.get("id")),
        title=values.words(keyed.get("title")),
        start=values.read(keyed.get("start"), read_start),
        strum=values.read(keyed.get("strum"), read_strum),
        key=values.words(keyed.get("key")),
        tuning=values.words(keyed.get("tuning")),
        capo=values.count(keyed.get("capo")),
        teaches=values.list(keyed.get("teaches")),
        fingers_per_step=values.count(keyed.get("fingers_per_step")),
        steps=Steps(values).all(keyed["steps"]) if "steps" in keyed else (),
    )
    unread = tuple(key for key in keyed if not getattr(read, key))
    return replace(
        read,
        unread=unread,
        unread_start=one_line(keyed["start"].words) if "start" in unread else None,
        unread_strum=one_line(keyed["strum"].words) if "strum" in unread else None,
    )
