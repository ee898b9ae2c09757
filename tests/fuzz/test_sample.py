"""A short part of the long run (`make fuzz`), of one seed; and that the run would see what it looks for."""

from __future__ import annotations

import pytest
from fingerpost.diagnostics import Code, Diagnostic, Severity, Span

from . import trial
from .allowed import foreign
from .hostile import MARKUP
from .pages import Pages
from .run import part


def test_a_part_of_the_long_run_keeps_every_promise() -> None:
    tally, wrong = part(seed=2026, blocks=150, show_every=5, timely=False)
    assert wrong == []
    assert (tally.checked, tally.shown) == (150, 30)
    assert tally.findings > 150
    assert tally.drawn > 5


def test_the_same_seed_makes_the_same_pages() -> None:
    one, two = Pages(5), Pages(5)
    pages = [one.next() for _ in range(20)]
    assert pages == [two.next() for _ in range(20)]
    assert len(set(pages)) == 20


@pytest.mark.parametrize("markup", [text for text in MARKUP if text.startswith("<") and "CDATA" not in text])
def test_markup_that_is_let_through_is_seen(markup: str) -> None:
    assert foreign(f"<p>{markup}-->x</p>")


@pytest.mark.parametrize(
    "attribute", ["onclick=x", "style=x", 'href="java\tscript:x"', "src=//host/x", "href=' data:x'"]
)
def test_an_attribute_or_an_address_of_others_is_seen(attribute: str) -> None:
    assert foreign(f"<p><a {attribute}>x</a></p>")
    assert not foreign('<p><a href="../fog/#fog" class="x">x</a></p>')


def test_a_place_outside_the_page_is_seen() -> None:
    span = Span("page.md", 1, 3, 1, 9)
    finding = Diagnostic(span, Severity.ERROR, Code.BAD_VALUE, "Wrong")
    with pytest.raises(trial.BrokenPromiseError):
        trial.places_inside("short", (finding,))
