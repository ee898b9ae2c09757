"""A course from texts, for the tests of this folder."""

from __future__ import annotations

from typing import Any

from fingerpost.course.build import build
from fingerpost.course.memory import Memory
from fingerpost.course.model import Block, Course
from fingerpost.course.settings import Settings
from fingerpost.diagnostics import Diagnostic
from fingerpost.music.chord_symbol import write
from fingerpost.source.page import read_page


def course(
    *pages: str, options: dict[str, Any] | None = None, memory: Memory | None = None
) -> tuple[Course, list[Diagnostic]]:
    """The course of these pages, named p1.md, p2.md and so on, with all findings, those of reading first."""
    settings, problems = Settings.from_mapping(options or {})
    assert not problems
    read = [read_page(f"p{number}.md", text) for number, text in enumerate(pages, start=1)]
    made, found = build(read, settings, memory)
    return made, [*(finding for page in read for finding in page.findings), *found]


def block(text: str, options: dict[str, Any] | None = None) -> Block:
    """The one block of lines, which must have no finding."""
    made, found = course(f"```moves\n{text}\n```\n", options=options)
    assert [finding.message for finding in found] == []
    return made.lessons[0].blocks[0]


def names(one: Block) -> list[str | None]:
    """What each step is shown as."""
    return [None if step.naming.shown is None else write(step.naming.shown) for step in one.steps]
