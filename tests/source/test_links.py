"""Links and headings as the page reads them, held against what Python-Markdown makes of the same text."""

from __future__ import annotations

import html
import re
import string
from pathlib import Path

import markdown
import pytest
from fingerpost.source.page import read_page
from hypothesis import given, settings
from hypothesis import strategies as st

GUIDE = sorted((Path(__file__).resolve().parents[2] / "course").rglob("*.md"))
HREF = re.compile(r"<(?:a [^>]*?href|img [^>]*?src)=\"([^\"]*)\"")
HEADING = re.compile(r"<h[1-6][^>]*? id=\"([^\"]*)\"")

words = st.text("abc xyz", min_size=1, max_size=6).map(str.strip).filter(bool)
paths = st.from_regex(r"[a-z]{1,6}(\.md)?(#[a-z]{1,4})?", fullmatch=True)
inline = st.one_of(
    st.builds("[{}]({})".format, words, paths),
    st.builds('[{}]({} "{}")'.format, words, paths, words),
    st.builds("[{}](<{}>)".format, words, paths),
    st.builds("[a *{}* `]`]({})".format, words, paths),
    st.builds("[{}]( {} )".format, words, paths),
    st.builds("`[{}]({})`".format, words, paths),
    st.builds("\\[{}]({})".format, words, paths),
    st.builds("[{}][one]".format, words),
    st.builds("[{}]".format, words),
    st.builds("**[{}]({})**".format, words, paths),
    st.builds("![{}]({})".format, words, paths),
    words,
)
lines = st.lists(inline, min_size=1, max_size=5).map(" and ".join)
blocks = st.one_of(lines, lines.map("> {}".format), lines.map("- {}".format), lines.map("## {}".format))
pages = st.lists(blocks, min_size=1, max_size=6).map("\n\n".join)


def shown(text: str, *extensions: str) -> str:
    return markdown.markdown(text, extensions=[*extensions, "toc", "tables", "fenced_code"])


@settings(max_examples=40, deadline=None)
@given(pages)
def test_targets_are_those_of_the_page_that_is_made(text: str) -> None:
    """A definition counts once here and at each use there, so sets are compared; `one` is defined last."""
    made = shown(f"{text}\n\n[one]: the-one.md\n")
    read = read_page("p.md", f"{text}\n\n[one]: the-one.md\n")
    found = {link.target.text for link in read.links if link.defined}
    assert found - {"the-one.md"} == set(map(html.unescape, HREF.findall(made))) - {"the-one.md"}
    assert [h.anchors[0] for h in read.headings] == HEADING.findall(made)


@settings(max_examples=40, deadline=None)
@given(pages)
def test_a_target_stands_where_it_is_said_to(text: str) -> None:
    written = text.split("\n")
    for link in read_page("p.md", text).links:
        span = link.target.span
        assert written[span.line - 1][span.column - 1 : span.end_column - 1] == link.target.text


@settings(max_examples=60, deadline=None)
@given(st.text(string.printable + "éßñ–“”&;<>_*`", max_size=30).filter(lambda text: "\n" not in text and text.strip()))
def test_a_plain_heading_has_the_anchor_of_the_table_of_contents(words: str) -> None:
    """Marks that open tags, entities or links are left to the examples below."""
    plain = re.sub(r"[<>&\[\]`\\{}!#*_\r\x0b\x0c\t]", "", words).strip()
    if plain:
        assert [h.anchors[0] for h in read_page("p.md", f"## {plain}").headings] == HEADING.findall(
            shown(f"## {plain}")
        )


@pytest.mark.parametrize(
    "heading",
    [
        "Plain", "A & B", "C# and D_flat", "`code` span", "*soft* and **strong**", "_soft_ and __strong__",
        "[linked](page.md) words", "![image](a.png) words", "Trailing ##", "Å ångström – dash", "x &amp; y",
        "Twice", "Twice_1", "a <em>b</em> c", "snake_case_name", "???", "",
    ],
)  # fmt: skip
def test_headings_of_all_kinds(heading: str) -> None:
    text = f"## {heading}\n\n## {heading}\n\n{heading or 'x'}\n---\n"
    made = HEADING.findall(shown(text))
    assert [h.anchors[0] for h in read_page("p.md", text).headings][: len(made)] == made


def test_an_own_id_is_the_anchor_where_the_extension_for_it_is_on() -> None:
    text = "## The door { #by-hand .wide }\n"
    (heading,) = read_page("p.md", text).headings
    assert HEADING.search(shown(text, "attr_list"))[1] in heading.anchors  # type: ignore[index]
    assert HEADING.search(shown(text))[1] in heading.anchors  # type: ignore[index]


@pytest.mark.parametrize("page", GUIDE, ids=lambda page: page.name)
def test_headings_of_the_demo_course(page: Path) -> None:
    text = page.read_text(encoding="utf-8")
    made = markdown.markdown(text, extensions=["toc", "tables", "fenced_code", "fingerpost.site.extension"])
    anchors = [h.anchors[0] for h in read_page(page.name, text).headings]
    assert [ident for ident in HEADING.findall(made) if ident in anchors] == anchors
