"""How difficulty is reckoned: a page made from the very tables that check, routes and practice reckon with."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import Field, fields
from typing import Any

from fingerpost.course.settings import Settings
from fingerpost.music.hand import ChangeCosts, Costs, Hand, Limits
from fingerpost.render.catalogue import sentence
from fingerpost.render.course_page import CoursePage
from fingerpost.render.look import Look
from fingerpost.render.parts import heading, items, tag
from fingerpost.render.plain import escaped

TABLES = ("limits", "costs", "change_costs")
"""The three tables of a hand, in the order in which they are told."""
UNHURT = "staying-unhurt.md"
_REFERENCE = re.compile(r" ?\(standards\.md, [^)]*\)")


def how_difficulty_is_reckoned(settings: Settings, look: Look) -> CoursePage:
    """The page: what it is for, what it does not know, then limits, costs of a shape and costs of a change."""
    said = look.words
    lead = tag("p", escaped(said.say("reckoned.lead")), "fp-lead")
    unknown = _section("reckoned.unknown_title", _unknown(look), look)
    tables = "".join(_table(name, settings.hand, look) for name in TABLES)
    sources = tag("ul", items(escaped(text) for text in said.several("reckoned.sources")))
    body = lead + unknown + tables + _section("reckoned.sources_title", sources, look)
    return CoursePage(said.say("reckoned.title"), tag("div", body, "fp-page fp-reckoned"))


def _section(title: str, body: str, look: Look) -> str:
    return tag("section", heading(look.heading, escaped(look.words.say(title)), "fp-title") + body)


def _unknown(look: Look) -> str:
    """What the figures do not know; last, where to read on about pain."""
    said = look.words
    texts = "".join(tag("p", escaped(text)) for text in said.several("reckoned.unknown"))
    link = tag("a", escaped(said.say("unhurt.title")), href=look.links.page(UNHURT))
    return texts + tag("p", f"{escaped(said.say('reckoned.pain'))} {link}.")


def _table(name: str, hand: Hand, look: Look) -> str:
    """One table: what each figure says, with its source, and the figure; beside the course's own the usual one."""
    said, of_hand = look.words, getattr(hand, name)
    lead = tag("p", escaped(said.say(f"reckoned.{name}_lead")))
    heads = "".join(tag("th", escaped(said.say(f"reckoned.{column}")), scope="col") for column in ("what", "figure"))
    title = said.say(f"reckoned.{name}_title")
    caption = tag("caption", escaped(title), "fp-hidden")
    body = "".join(_rows(of_hand, look))
    table = tag("table", caption + tag("thead", tag("tr", heads)) + tag("tbody", body), "fp-reckoned-figures")
    return _section(f"reckoned.{name}_title", lead + tag("div", table, "wide"), look)


def _rows(of_hand: Limits | Costs | ChangeCosts, look: Look) -> Iterator[str]:
    usual = type(of_hand)()
    for one in fields(of_hand):
        value, default = getattr(of_hand, one.name), getattr(usual, one.name)
        figure = _figure(value, look)
        if value != default:
            figure = look.words.say("reckoned.own", figure=figure, usual=_figure(default, look))
        yield tag("tr", tag("th", escaped(about(one)), scope="row") + tag("td", escaped(figure)))


def about(one: Field[Any]) -> str:
    """What a figure says, as a sentence; references to the notes that the figures were taken from stay behind."""
    return sentence(_REFERENCE.sub("", str(one.metadata["about"])))


def _figure(value: object, look: Look) -> str:
    if isinstance(value, bool):
        return look.words.say("reckoned.yes" if value else "reckoned.no")
    if isinstance(value, tuple):
        return look.words.listed(_figure(one, look) for one in value)
    return f"{value:g}" if isinstance(value, float) else str(value)
