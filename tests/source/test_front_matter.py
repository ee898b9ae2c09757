"""The data before a body is what MkDocs takes for it, and Python-Markdown breaks a list where a finding says so."""

from __future__ import annotations

import re

import pytest
from fingerpost.diagnostics import Code
from fingerpost.source.front_matter import front_matter
from fingerpost.source.page import read_page
from hypothesis import given
from hypothesis import strategies as st
from markdown import markdown
from mkdocs.utils.meta import get_data

PARTS = (
    *(
        "---\n",
        "--- \n",
        "...\n",
        "title: A\n",
        "Note: x\n",
        "a: [1,\n",
        "- b\n",
        "    more\n",
        "\tmore\n",
        "\n",
        "  \n",
        "# h\n",
    ),
    *(
        "  b: 2\n",
        "a: &x 1\n",
        "c: 2024-13-45\n",
        "d: !t x\n",
        "words\n",
        "https://a.example\n",
        "Word:\n",
        "é: 1\n",
        "title:\n",
    ),
)
EMPTY_LINES = re.compile(r"\A(?:[ \t]*\n)*")
PAGES = st.lists(st.sampled_from(PARTS), max_size=8).map("".join)


@given(PAGES)
def test_the_body_begins_where_mkdocs_begins_it(page: str) -> None:
    # MkDocs 1.6.1, mkdocs.utils.meta.get_data: what MkDocs itself runs on every page.
    body, data = get_data(page)
    found = front_matter("page.md", page)
    rest = "\n".join(page.split("\n")[found.lines :])
    assert EMPTY_LINES.sub("", rest) == EMPTY_LINES.sub("", body)
    if found.title is not None:
        assert str(data["title"]).startswith(found.title)  # a title given twice is joined there


@given(PAGES.map("---\ntitle: A\n".__add__))
def test_data_that_mkdocs_shows_as_text_is_found(page: str) -> None:
    body, _ = get_data(page)
    codes = [finding.code for finding in front_matter("page.md", page).findings]
    assert codes == ([Code.FRONT_MATTER] if body == page else [])


@pytest.mark.parametrize(("blanks", "broken"), [(2, True), (3, True), (4, False)])
def test_a_list_is_broken_where_the_finding_says_so(blanks: int, broken: bool) -> None:
    # Python-Markdown itself: a paragraph in place of the block, since that is what the block becomes.
    pad = " " * blanks
    html = markdown(f"- one\n\n{pad}PLACE\n\n- two\n")
    page = f"- one\n\n{pad}```moves\n{pad}id: a\n{pad}start: open\n{pad}steps:\n{pad}- hold\n{pad}```\n\n- two\n"
    codes = [found.code for found in read_page("page.md", page).findings]
    assert (html.count("<ul>") == 2) is broken
    assert (codes == [Code.FENCE_INDENT]) is broken
