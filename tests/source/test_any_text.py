"""Any text at all: never a traceback, every place inside the page, every token what stands at its place."""

from __future__ import annotations

import re

import yaml
from fingerpost.diagnostics import Code
from fingerpost.source.block import MOST_BYTES
from fingerpost.source.findings import MOST_FINDINGS
from fingerpost.source.page import read_page
from fingerpost.source.syntax import BlockSyntax
from hypothesis import assume, given
from hypothesis import strategies as st
from markdown_it import MarkdownIt

from . import telling

PARTS = (
    *(
        "```moves\n",
        "```\n",
        "````moves\n",
        "~~~moves\n",
        "~~~\n",
        "````\n",
        "> ",
        ">",
        "- ",
        "-\t",
        "1. ",
        "10) ",
        "\n",
        "\n\n",
    ),
    *(
        "id: a\n",
        "steps:\n",
        "start: open\n",
        "title: T # no\n",
        "teaches: [G, C7(b9, #11)]\n",
        "- 1 off\n",
        "- move: 1 to G2 = G\n",
    ),
    *(
        "  say: |\n",
        "    words\n",
        "  say: Keep #2: now\n",
        "  ",
        "    ",
        "\t",
        "say:\n",
        "- - x\n",
        "capo: x\n",
        "id:a\n",
        "\r\n",
    ),
    *(
        "`chord: G`",
        "`now: Am`",
        "``",
        "`",
        "<!--",
        "-->",
        "<div>\n",
        "<pre>\n",
        "</pre>",
        "---\n",
        "===\n",
        "# h\n",
        "Note: x\n",
    ),
    *(
        "word ",
        "é🎸",
        "\ufeff",
        "\u2028",
        "\x00",
        "\x0c",
        "&a ",
        "*a\n",
        '"',
        "'",
        "\\",
        "<<: *a\n",
        "| \n",
        "? x\n",
        "{",
        "[",
        "%",
    ),
)
PAGES = st.one_of(st.text(max_size=200), st.lists(st.sampled_from(PARTS), max_size=40).map("".join))
FENCED = st.lists(st.sampled_from(PARTS), max_size=30).map(lambda parts: f"```moves\nid: a\n{''.join(parts)}\n```\n")


@given(PAGES | FENCED)
def test_every_place_is_inside_the_page_and_holds_its_token(page: str) -> None:
    read = read_page("page.md", page)
    lines = page.removeprefix("\ufeff").replace("\r\n", "\n").replace("\r", "\n").split("\n")
    for token in telling.tokens(read.syntax.parts):
        span = token.span
        there = lines[span.line - 1][span.column - 1 : span.end_column - 1]
        assert 1 <= span.line <= span.end_line <= len(lines)
        assert span.line != span.end_line or there == token.text or "\\" in there or "''" in there
    for found in read.findings:
        assert 1 <= found.span.line <= found.span.end_line <= len(lines)
        assert 1 <= found.span.column <= len(lines[found.span.line - 1]) + 1
        assert 1 <= found.span.end_column <= len(lines[found.span.end_line - 1]) + 1


@given(PAGES | FENCED)
def test_no_line_belongs_to_two_fences_and_all_come_in_order(page: str) -> None:
    read = read_page("page.md", page)
    ends = [line for fence in read.fences for line in (fence.first_line, fence.last_line)]
    assert ends == sorted(ends)
    assert all(one.last_line < two.first_line for one, two in zip(read.fences, read.fences[1:], strict=False))
    assert [part.span for part in read.syntax.parts] == sorted(part.span for part in read.syntax.parts)
    assert [mention.ordinal for mention in read.syntax.mentions] == list(range(len(read.syntax.mentions)))


LINES = (
    *(
        "```moves\n",
        "```\n",
        "````moves\n",
        "````\n",
        "~~~moves\n",
        "~~~\n",
        "> ",
        "- ",
        "1. ",
        "  ",
        "    ",
        "\t",
        "\n",
    ),
    *(
        "\n\n",
        "word\n",
        "`chord: G`\n",
        "`` `now: G` ``\n",
        "`now: A` ",
        "# h\n",
        "***\n",
        "    `chord: B`\n",
        "- 1 off\n",
    ),
    "id: a\n",
)
MARKDOWN = st.lists(st.sampled_from(LINES), max_size=25).map("".join)


@given(MARKDOWN)
def test_fences_and_mentions_are_where_a_commonmark_parser_sees_them(page: str) -> None:
    # markdown-it-py, a general CommonMark parser. It can't be asked about what follows a block without its end, since
    # by the specification all that follows is the block's; nor about front matter; nor about a quote mark after four
    # blanks, which it takes for one where a quote stands above, against section 5.1.
    assume(not re.search(r"(?: {4}|\t).*>", page))
    read = read_page("page.md", "\n" + page)
    faults = [found.span.line for found in read.findings if found.code is Code.FENCE_UNCLOSED]
    end = min(faults, default=len(page) + 2)
    fences, mentions = by_reference("\n" + page, end)
    assert [fence.first_line for fence in read.fences if fence.first_line < end] == fences
    assert [(m.kind, m.words[0].text) for m in read.syntax.mentions if m.span.end_line < end] == mentions


def by_reference(page: str, end: int) -> tuple[list[int], list[tuple[str, str]]]:
    """The lines of the `moves` fences, and what the mentions say, up to a line."""
    fences, mentions = [], []
    for token in MarkdownIt("commonmark").parse(page):
        line = token.map[0] + 1 if token.map else 0
        if token.map is None or line >= end:
            continue
        if token.type == "fence" and token.info.split()[:1] == ["moves"]:
            fences.append(line)
        for child in (token.children or ()) if token.map[1] < end else ():
            said = re.fullmatch(r"\s*(chord|step|now):\s+(\S+)\s*", child.content)
            if child.type == "code_inline" and said:
                mentions.append((said[1], said[2]))
    return fences, mentions


TEXT = st.text(st.characters(exclude_categories=("C", "Zl", "Zp")), min_size=1, max_size=30).map(str.strip).filter(bool)


@given(
    TEXT,
    st.lists(st.fixed_dictionaries({"move": st.sampled_from(["1 off", "hold"]), "say": TEXT}), min_size=1, max_size=4),
)
def test_what_a_yaml_writer_writes_is_read_as_it_meant_it(title: str, steps: list[dict[str, str]]) -> None:
    # PyYAML's own writer, an outside check: an author who knows YAML gets what YAML says.
    body = yaml.safe_dump(
        {"id": "a", "title": title, "steps": steps}, allow_unicode=True, sort_keys=False, width=10_000
    )
    read = read_page("page.md", f"```moves\n{body}```\n")
    (block,) = read.syntax.blocks
    assert read.findings == ()
    assert block.title is not None
    assert block.title.text == title
    assert [step.say.text if step.say else None for step in block.steps] == [step["say"] for step in steps]


def block(body: str) -> BlockSyntax:
    (found,) = read_page("page.md", f"```moves\nid: a\nstart: open\n{body}```\n").syntax.blocks
    return found


def test_a_long_block_is_read() -> None:
    steps = "- move: 1 off = G\n  cue: 1:42\n  say: Keep it down: now.\n" * 400
    found = block("steps:\n" + steps)
    assert len(found.steps) == 400
    assert found.steps[-1].span.line == 5 + 3 * 399


def test_ten_thousand_steps_are_read() -> None:
    steps = "- move: 1 off = G\n  cue: 1:42\n  say: Keep it down: now.\n" * 400
    page = "".join(f"```moves\nid: a-{number}\nstart: open\nsteps:\n{steps}```\n\n" for number in range(25))
    read = read_page("page.md", page)
    assert read.findings == ()
    assert [len(found.steps) for found in read.syntax.blocks] == [400] * 25


def test_a_block_of_a_megabyte_is_refused_unread() -> None:
    page = "Before.\n\n```moves\nid: a\nsteps:\n" + "- 1 off = Gadd9\n" * 70_000 + "```\n\nAfter `now: G`.\n"
    assert len(page) > 1_000_000 > MOST_BYTES
    read = read_page("page.md", page)
    (found,) = read.findings
    assert found.code is Code.BLOCK_TOO_LARGE
    assert found.message == "This block has 1093 KiB in 70002 lines, which is too much to be read"
    assert found.expected == "at most 200 KiB and 2000 lines"
    assert read.syntax.blocks[0].steps == ()
    assert len(read.syntax.mentions) == 1


def test_a_block_full_of_faults_is_left_after_some() -> None:
    for line in ("- x\n", "foo: x\n", "-\n", "\t- 1 off\n", "- {a: b}\n"):
        read = read_page("page.md", "```moves\nid: a\nsteps:\n" + line * 1_500 + "```\n")
        assert MOST_FINDINGS <= len(read.findings) <= MOST_FINDINGS + 4
        assert any("what follows them was not read" in found.message for found in read.findings)
