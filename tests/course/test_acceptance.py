"""Acceptances beyond one page: what a memory keeps, what a build shows, what a review says of them."""

from __future__ import annotations

from fingerpost.course.acceptance import settle
from fingerpost.course.build import build
from fingerpost.course.comparison.courses import Side, compare
from fingerpost.course.memory import Memory
from fingerpost.course.settings import Settings
from fingerpost.diagnostics import Code
from fingerpost.source.page import PageRead, read_page

ACCEPTED = " # accept name-is-loose: the song book calls it so"


def page(accepted: str = "", above: str = "") -> PageRead:
    """A page whose block has a loose name: a G without its third."""
    return read_page("p.md", f"{above}```moves\nid: a\nstart: 3x0033/2---34 = G{accepted}\nsteps:\n- 4 off\n```\n")


def test_an_accepted_error_breaks_no_block_and_one_that_stands_does() -> None:
    course, found = build([page(ACCEPTED)], Settings())
    assert [finding.code for finding in found] == [Code.NAME_IS_LOOSE]
    assert [block.id for block in course.lessons[0].blocks] == ["a"]
    broken, _ = build([page()], Settings())
    assert [block.id for block in broken.lessons[0].broken] == ["a"]


def test_a_memory_is_right_though_only_an_acceptance_changes() -> None:
    memory = Memory()
    above = f"<!--{ACCEPTED[2:]} -->\n"
    for now in (page(), page(ACCEPTED), page(above=above), page(above="<!-- nothing at all -->\n"), page(), page("")):
        assert build([now], Settings(), memory) == build([now], Settings())


def test_an_acceptance_is_no_musical_change() -> None:
    def side(read: PageRead, text: str) -> Side:
        course, _ = build([read], Settings())
        sources = {block.id.text: block.source for block in read.syntax.blocks if block.id}
        return Side(course, Settings(), {"p.md": text}, sources)

    compared = compare(side(page(ACCEPTED), "with"), side(page(ACCEPTED + ", and so do we"), "with more"))
    assert (compared.musical, compared.blocks) == (False, ())


def test_no_acceptance_is_told_to_have_lapsed_while_an_error_stands() -> None:
    """What hangs on an error is held back after it, so nobody knows yet."""
    text = "```moves\nid: a\nstart: x02210/--231- = Am\nsteps:\n- 9 off\n- 3 off = Am7 # accept name-is-loose: so\n```"
    for written, codes in ((text, {Code.UNKNOWN_FINGER}), (text.replace("- 9 off\n", ""), {Code.ACCEPTANCE_LAPSED})):
        read = read_page("p.md", written)
        _, found = build([read], Settings())
        assert {f.code for f in settle((*read.findings, *found), read.acceptances).standing} == codes
