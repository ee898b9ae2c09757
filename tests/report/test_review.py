"""The pieces a review is made of: texts made harmless, findings set against findings, and what a fold has room for."""

from __future__ import annotations

import re

import pytest
from fingerpost.diagnostics import Code, Diagnostic, Severity, Span
from fingerpost.report.quoted import clipped, spelled_out
from fingerpost.report.review import only_after
from fingerpost.report.review_html import escaped
from fingerpost.report.review_markdown import code
from hypothesis import given
from hypothesis import strategies as st
from markdown_it import MarkdownIt


def finding(file: str, line: int, message: str, code_: Code = Code.BAD_VALUE) -> Diagnostic:
    return Diagnostic(Span(file, line, 1, line, 2), Severity.ERROR, code_, message)


@pytest.mark.parametrize(
    ("text", "shown"),
    [
        ("plain, wörds 🎸", "plain, wörds 🎸"),
        ("a\x1b[31mb\x07", "a[U+001B][31mb[U+0007]"),
        ("a\u202eb\u200b\ufeff", "a[U+202E]b[U+200B][U+FEFF]"),
        ("a\r\nb\nc\td\u00a0e", "a ⏎ b ⏎ c d e"),
        ("\u3164\U000e0101\U000e0041", "[U+3164][U+E0101][U+E0041]"),
    ],
)
def test_what_can_not_be_seen_is_spelled_out(text: str, shown: str) -> None:
    assert spelled_out(text) == shown


@given(st.text(st.characters(codec="utf-8"), max_size=400))
def test_whatever_is_written_is_one_printable_line(text: str) -> None:
    assert clipped(text, 100).isprintable()
    assert len(clipped(text, 100)) <= 100


@given(st.text(st.characters(codec="utf-8"), max_size=60))
def test_a_text_of_the_branch_is_one_code_span_and_nothing_else(text: str) -> None:
    tokens = MarkdownIt("commonmark").parse(f"- Words: {code(text)} -> x")
    (inline,) = [token for token in tokens if token.type == "inline"]
    kinds = [child.type for child in inline.children or ()]
    assert kinds == (["text", "code_inline", "text"] if clipped(text).strip() else ["text"])
    if clipped(text).strip():
        assert [c.content.strip() for c in inline.children or () if c.type == "code_inline"] == [clipped(text).strip()]


@given(st.text(st.sampled_from("<>&\"'`abc/=\x1b\u202e "), max_size=60))
def test_a_text_in_html_holds_no_markup(text: str) -> None:
    assert not re.search(r"[<>\"']|&(?!(amp|lt|gt|quot|#x27);)", escaped(text))


def test_a_finding_that_moved_is_the_same_and_one_more_is_new() -> None:
    before = [finding("a.md", 3, "A, first on line 2"), finding("a.md", 9, "B")]
    moved = [finding("a.md", 8, "A, first on line 7"), finding("b.md", 9, "B")]
    assert only_after(before, moved) == ()
    more = [*moved, finding("a.md", 12, "A, first on line 7")]
    assert len(only_after(before, more)) == 1
    assert only_after(more, before) == ()
    assert only_after([], before) == tuple(before)
