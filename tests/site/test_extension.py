"""The extension in a plain Python-Markdown program: what becomes of blocks and mentions wherever they stand."""

from __future__ import annotations

import logging

import pytest
from fingerpost.site.extension import FingerpostExtension
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from markdown import Markdown, markdown

from .markup import Markup, read

BLOCK = """\
```moves
id: gates
title: From A minor
start: 2 D2, 3 G2, 1 B1, strum A-e = Am
steps:
- 3 to A3 = C
- 1 off = Cmaj7
```
"""
BROKEN = """\
```moves
id: torn
start: open
steps:
- 7 off
```
"""
OTHERS = ["fenced_code", "tables", "toc", "attr_list", "md_in_html", "footnotes", "smarty"]


def made(text: str, others: list[str] | None = None, **options: object) -> Markup:
    html = markdown(
        text, extensions=["fingerpost", *(others or ["fenced_code"])], extension_configs={"fingerpost": options}
    )
    return read(html)


def indented(text: str, by: str) -> str:
    return "".join(by + line if line.strip() else line for line in text.splitlines(keepends=True))


def names(page: Markup) -> list[str]:
    return [element.text for element in page.all("span", "fp-chord")]


def test_a_block_stands_between_its_paragraphs():
    page = made(f"Before.\n\n{BLOCK}\nAfter.\n")
    assert page.faults == []
    assert names(page) == ["Am", "C", "Cmaj7"]
    assert [p.text for p in page.all("p") if not p.around] == ["Before.", "After."]
    assert len(page.all("svg")) >= 3


@pytest.mark.parametrize("others", [["fenced_code"], ["pymdownx.superfences"], OTHERS, ["toc"]])
def test_it_does_not_matter_which_other_extensions_are_on(others):
    page = made(f"Close before\n{BLOCK}Close after\n", others)
    assert page.faults == []
    assert names(page) == ["Am", "C", "Cmaj7"]
    assert [p.text for p in page.all("p") if not p.around] == ["Close before", "Close after"]


@pytest.mark.parametrize(
    ("text", "around"),
    [
        (f"- An item\n\n{indented(BLOCK, '    ')}\n- Another\n", ["ul", "li"]),
        (f"1. One\n\n{indented(BLOCK, '    ')}\n2. Two\n", ["ol", "li"]),
        (f"- One\n    - Two\n\n{indented(BLOCK, '        ')}\n", ["ul", "li", "ul", "li"]),
        (f"> Said\n>\n{indented(BLOCK, '> ')}\n", ["blockquote"]),
        (f"> Said\n{indented(BLOCK, '> ')}> more\n", ["blockquote"]),
        (f"> > Said\n> >\n{indented(BLOCK, '> > ')}\n", ["blockquote", "blockquote"]),
        (f"> - Item\n>\n{indented(BLOCK, '>     ')}\n", ["blockquote", "ul", "li"]),
    ],
    ids=["list", "numbered", "deeper", "quote", "close quote", "quote in quote", "list in quote"],
)
def test_a_block_stays_in_its_list_or_quote(text, around):
    page = made(text)
    block = next(element for element in page.all("section") if "fp-block" in element.classes)
    assert page.faults == []
    assert [element.name for element in block.around] == around
    assert names(page) == ["Am", "C", "Cmaj7"]


@pytest.mark.parametrize(
    "text",
    [
        f"Text\n\n{indented(BLOCK, '    ')}\n",
        f"````markdown\n{BLOCK}````\n",
        f"~~~~\n{BLOCK}~~~~\n",
        f"<!--\n{BLOCK}-->\n",
        BLOCK.replace("```moves", "```python"),
        BLOCK.replace("```moves", "```movesx"),
    ],
    ids=["indented", "longer fence", "tildes", "comment", "other language", "longer word"],
)
def test_what_is_shown_as_code_stays_code(text):
    page = made(text)
    assert page.all("section") == []
    assert page.faults == []


def test_tildes_and_more_backticks_fence_a_block_too():
    for mark in ("~~~", "````", "~~~~~~"):
        assert names(made(BLOCK.replace("```", mark))) == ["Am", "C", "Cmaj7"]


def test_mentions_in_prose():
    page = made(f"{BLOCK}\nThink of `chord: C` and go to `step: gates Cmaj7`; now it is `now: Cmaj7`.\n")
    assert page.faults == []
    (paragraph,) = [p for p in page.all("p") if not p.around]
    assert paragraph.text.replace("\n", " ").endswith("now it is Cmaj7.")
    mention = page.all("span", "fp-mention")[0]
    assert any(svg.around[-1] is mention for svg in page.all("svg"))
    targets = {element.attributes.get("id") for element in page.elements}
    links = [a.attributes["href"] for a in page.all("a", "fp-link")]
    assert len(links) == 2
    assert all(href.startswith("#") and href[1:] in targets for href in links)
    assert page.all("code") == []


@pytest.mark.parametrize(
    ("line", "place"),
    [
        ("## Heading with `chord: C`", "h2"),
        ("Heading with `chord: C`\n===========", "h1"),
        ("> # Quoted `chord: C`", "h1"),
    ],
)
def test_headings_hold_words_only(line, place):
    page = made(f"{BLOCK}\n{line}\n", ["fenced_code", "toc"])
    heading = next(element for element in page.all(place) if "ith" in element.text or "Quoted" in element.text)
    assert heading.text.endswith(" C")
    assert not any(heading in svg.around for svg in page.all("svg"))
    assert heading.attributes["id"].endswith("-c")


def test_texts_of_images_and_links_hold_words_only():
    page = made(f"{BLOCK}\n![Picture of `chord: C`](x.png) and [see `chord: C` there](y.html)\n")
    assert [image.attributes["alt"] for image in page.all("img")] == ["Picture of C"]
    (link,) = [a for a in page.all("a") if a.attributes.get("href") == "y.html"]
    assert link.text == "see C there"
    assert page.faults == []


def test_a_mention_in_a_table_and_over_two_lines():
    page = made(f"{BLOCK}\n| A | B |\n| --- | --- |\n| `chord: C` | x |\n\nGo to `step:\ngates C` now.\n", OTHERS)
    assert page.faults == []
    assert any(element.inside("td") for element in page.all("span", "fp-mention"))
    assert "Go to C now." in page.text.replace("\n", " ")


@pytest.mark.parametrize(
    "text",
    [
        "<div>`chord: C`</div>",
        "````\n`chord: C`\n````",
        "    `chord: C`",
        "`` `chord: C` ``",
        "\\`chord: C`",
        "<!-- `chord: C` -->",
    ],
)
def test_mentions_that_are_shown_as_text_stay_as_written(text):
    html = markdown(f"{BLOCK}\nWords.\n\n{text}\n", extensions=["fingerpost", "fenced_code"])
    assert "chord: C`" in html
    assert "fp-mention" not in html
    assert "\x02" not in html


def test_an_unresolved_mention_is_plain_words_and_a_warning(caplog):
    with caplog.at_level(logging.WARNING, "fingerpost"):
        page = made("See `chord: Cmaj7` here.\n")
    assert page.text.strip() == "See Cmaj7 here."
    assert "unresolved-mention" in caplog.text


def test_a_block_whose_fence_does_not_say_that_it_is_one_is_told_and_shown_as_it_is(caplog):
    page = made(BLOCK.replace("```moves", "```Moves") + "\nYou hold `now: Cmaj7`.\n")
    assert page.all("section") == []
    assert "This fence says `Moves`" in caplog.text
    assert "fence-miswritten" in caplog.text
    assert caplog.text.count("page.md:") == 1


def test_a_broken_block_leaves_a_notice_in_its_place_and_the_page_goes_on(caplog):
    with caplog.at_level(logging.WARNING, "fingerpost"):
        page = made(f"Before.\n\n{BROKEN}\nBetween.\n\n{BLOCK}\nAfter.\n")
    notice, block = (element for element in page.all("section") if "fp-block" in element.classes)
    assert "fp-broken" in notice.classes
    assert "There is no finger 7" in notice.text
    assert "- 7 off" in notice.text
    assert "fp-broken" not in block.classes
    assert [p.text for p in page.all("p") if not p.around] == ["Before.", "Between.", "After."]
    assert "page.md:7:3: There is no finger 7" in caplog.text


def test_options_are_those_of_the_course(caplog):
    with caplog.at_level(logging.WARNING, "fingerpost"):
        page = made(BLOCK, handed="left", major_seventh="triangle", cappo=3)
    assert any(svg.attributes.get("data-hand") == "left" for svg in page.all("svg"))
    assert names(page)[2] == "CΔ7" or "△" in names(page)[2] or "Δ" in names(page)[2]
    assert "`cappo` is no option" in caplog.text


def test_a_converter_serves_for_many_pages():
    converter = Markdown(extensions=["fingerpost", "fenced_code"])
    first = converter.reset().convert(f"{BLOCK}\n`chord: C`\n")
    other = converter.reset().convert("Only words, `chord: D` and `code`.\n")
    assert "fp-block" not in other
    assert converter.reset().convert(f"{BLOCK}\n`chord: C`\n") == first


def test_two_converters_do_not_meet():
    left, right = (Markdown(extensions=[FingerpostExtension(handed=hand)]) for hand in ("left", "right"))
    once = left.convert(BLOCK), right.convert(BLOCK)
    assert once[0] != once[1]
    assert (left.reset().convert(BLOCK), right.reset().convert(BLOCK)) == once


PIECES = [
    *("Words here.", "`chord: C`", "`chord: C", "`step: gates C`", "- 1 off", "steps:", BLOCK, BROKEN),
    *("```", "```moves", "~~~", "> ", "- ", "    ", "<div>", "</div>", "<!--", "-->", "# ", "[", "](x)", "!["),
    *("\\`", "\x02", "\x03", "\x02fp0\x03", "\x02wzxhzdk:0\x03", "klzzwxh:0001", "\t", "\n", "\n\n", " ", "&amp;"),
]


@settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(st.lists(st.sampled_from(PIECES), max_size=14))
def test_whatever_stands_there_it_never_fails_and_leaves_no_marks(pieces):
    logging.getLogger("fingerpost").setLevel(logging.CRITICAL)
    html = markdown("".join(pieces), extensions=["fingerpost", "fenced_code"])
    assert "\x02" not in html
    assert "\x03" not in html
