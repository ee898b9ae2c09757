"""YAML's anchors, aliases, tags and merges: refused, since no lesson needs them and they can make a small text huge."""

from __future__ import annotations

import re

from fingerpost.diagnostics import Code
from fingerpost.source.block_lines import cut
from fingerpost.source.findings import Findings, quoted
from fingerpost.source.syntax import Token

REFERENCE = re.compile(r"(?:[&*]\w[^\s,\]]*|!\S*)(?=[\s,\]]|$)|<<(?=:|$)")


def reference(token: Token) -> Token | None:
    """The anchor, alias, tag or merge that a value begins with, or None."""
    found = REFERENCE.match(token.text)
    return cut(token, 0, found.end()) if found else None


def refuse(found: Token, findings: Findings) -> None:
    """The finding about it."""
    message = f"{quoted(found.text)} would refer to another part of the text or name a type, and neither is read here"
    findings.error(found.span, Code.ANCHOR_OR_TAG, message, "the words themselves")
