"""Whole pages: blocks, mentions, front matter and findings, each with its place."""

from __future__ import annotations

import dataclasses

import pytest
from fingerpost.diagnostics import Code
from fingerpost.source.decoding import read_bytes
from fingerpost.source.page import PageRead, read_body, read_page
from fingerpost.source.syntax import Token

from . import telling
from .cases import Case, pages

PAGE = (
    "---\ntitle: T\n---\n# One\n\n`chord: G` and\n\n> ```moves\n> id: a\n> start: open\n> steps:\n"
    "> - move: 1 to G2 = G\n>   say: |\n>     One é 🎸\n>     two\n> - 1 on G2\n> ```\n\n`now: G`\n"
)


def inside(read: PageRead, lines: list[str], token: Token) -> str:
    """What stands in the page where the token says it stands."""
    assert token.span.line == token.span.end_line
    return lines[token.span.line - 1][token.span.column - 1 : token.span.end_column - 1]


def one_line_tokens(read: PageRead) -> list[Token]:
    """The tokens that stand on one line and are written without an escape."""
    found = telling.tokens(read.syntax.parts)
    return [token for token in found if token.span.line == token.span.end_line]


@pytest.mark.parametrize("case", list(pages()), ids=str)
def test_a_page_reads_as_its_case_says(case: Case) -> None:
    assert telling.page(read_page("page.md", case.page)) == list(case.reads)


@pytest.mark.parametrize("case", list(pages()), ids=str)
def test_every_token_of_a_case_says_what_stands_at_its_place(case: Case) -> None:
    read, lines = read_page("page.md", case.page), case.page.split("\n")
    for token in one_line_tokens(read):
        assert inside(read, lines, token) in (token.text, token.text.replace('"', '\\"'))


@pytest.mark.parametrize("case", list(pages()), ids=str)
def test_every_finding_of_a_case_stands_inside_the_page(case: Case) -> None:
    lines = case.page.split("\n")
    for found in read_page("page.md", case.page).findings:
        span = found.span
        assert 1 <= span.line <= span.end_line <= len(lines)
        assert 1 <= span.column <= len(lines[span.line - 1]) + 1
        assert span.end_column <= len(lines[span.end_line - 1]) + 1
        assert (span.line, span.column) <= (span.end_line, span.end_column)


@pytest.mark.parametrize("case", list(pages()), ids=str)
def test_putting_the_slips_right_leaves_what_was_read(case: Case) -> None:
    read = read_page("page.md", case.page)
    lines = case.page.split("\n")
    # What stands under an unknown key was not read, so naming it rightly must change what is read.
    meant = [finding for finding in read.findings if finding.code is not Code.UNKNOWN_KEY]
    edits = sorted(edit for finding in meant for edit in finding.edits)
    for edit in reversed(edits):
        line = lines[edit.span.line - 1]
        lines[edit.span.line - 1] = line[: edit.span.column - 1] + edit.text + line[edit.span.end_column - 1 :]
    again = read_page("page.md", "\n".join(lines))
    assert [f for f in again.findings if f.edits and f.code is not Code.UNKNOWN_KEY] == []
    assert [token.text for token in telling.tokens(again.syntax.blocks)] == [
        token.text for token in telling.tokens(read.syntax.blocks)
    ]


@pytest.mark.parametrize("change", ["\r\n", "\r"])
def test_line_ends_change_nothing(change: str) -> None:
    assert read_page("page.md", PAGE.replace("\n", change)) == read_page("page.md", PAGE)


def test_a_byte_order_mark_changes_nothing() -> None:
    assert read_page("page.md", "\ufeff" + PAGE) == read_page("page.md", PAGE)
    assert read_bytes("page.md", "\ufeff".encode() + PAGE.encode()) == (PAGE, ())


def test_the_body_alone_is_read_at_the_lines_it_has_in_the_file() -> None:
    # MkDocs 1.6.1 hands over what follows the front matter, without empty lines at its beginning (design.md).
    body = PAGE.partition("---\n# One")[2]
    read = read_body("page.md", "# One" + body, 4)
    whole = read_page("page.md", PAGE)
    assert dataclasses.replace(read.syntax, title=None) == dataclasses.replace(whole.syntax, title=None)
    assert read.fences == whole.fences
    assert read.findings == whole.findings


def test_fences_and_blocks_go_together() -> None:
    read = read_page("page.md", PAGE + PAGE.partition("`chord: G`")[2])
    assert [fence.span for fence in read.fences] == [block.span for block in read.syntax.blocks]
    assert len(read.fences) == 2


def test_a_fence_knows_its_lines_and_its_prefix() -> None:
    (fence,) = read_page("page.md", PAGE).fences
    assert (fence.first_line, fence.last_line, fence.prefix, fence.opening) == (8, 17, "> ", "```moves")
    assert fence.body[:2] == ("id: a", "start: open")
    assert fence.lines[0].span.column == 3


def test_bytes_that_are_no_text_are_replaced_and_found() -> None:
    text, (first, second) = read_bytes("page.md", b"# T\r\n\r\nA \xff\xfe b\xe9\n")
    assert text == "# T\r\n\r\nA \ufffd\ufffd b\ufffd\n"
    assert [telling.place(found.span) for found in (first, second)] == ["3:3-5", "3:7-8"]
    assert first.message == "Here stand bytes that are no text in UTF-8; the page shows “\ufffd” for them"


def test_a_file_in_another_encoding_has_few_findings() -> None:
    text, findings = read_bytes("page.md", "à l'été\n".encode("latin-1") * 500)
    assert len(text.splitlines()) == 500
    assert len(findings) == 20
