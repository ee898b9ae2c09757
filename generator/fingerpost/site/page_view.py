"""What the Markdown extension needs to know of one page: how it was read, what the course makes of it, how it looks."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from fingerpost.course.acceptance import settle
from fingerpost.course.build import build
from fingerpost.course.model import BrokenBlock, Lesson, MentionMeaning
from fingerpost.course.option_values import Problem
from fingerpost.course.settings import Settings
from fingerpost.diagnostics import Code, Diagnostic, Severity, Span
from fingerpost.render.look import Look
from fingerpost.render.page import block_html, broken_html, mention_html, mention_words
from fingerpost.site.located import Shown
from fingerpost.source.page import PageRead, read_page

ALONE = "page.md"
# Python-Markdown marks its own places with these; in our markup they would be taken for one of those places.
_PLACE_MARKS = {2: None, 3: None}


@dataclass(frozen=True)
class PageView:
    """One page of a course, read only. draw makes the markup of a block; another may keep it between builds."""

    read: PageRead
    lesson: Lesson | None
    settings: Settings
    look: Look
    draw: Callable[[Shown, Look], str]

    def block(self, shown: Shown) -> str:
        """The markup of a block, or of the notice in its place."""
        return self.draw(shown, self.look).translate(_PLACE_MARKS)

    def mention(self, meaning: MentionMeaning) -> str:
        """The markup of an inline mention."""
        return mention_html(meaning, self.look).translate(_PLACE_MARKS)

    def words(self, meaning: MentionMeaning) -> str:
        """An inline mention as plain words."""
        return mention_words(meaning).translate(_PLACE_MARKS)


def draw(shown: Shown, look: Look) -> str:
    """The markup of a block, or of the notice in place of a broken one."""
    return broken_html(shown, look) if isinstance(shown, BrokenBlock) else block_html(shown, look)


def alone(text: str, settings: Settings, look: Look, file: str = ALONE) -> tuple[PageView, tuple[Diagnostic, ...]]:
    """A page that belongs to no course, and everything that is wrong with it."""
    read = read_page(file, text)
    course, findings = build((read,), settings)
    settled = settle((*read.findings, *findings), read.acceptances)
    return PageView(read, course.lesson(file), settings, look, draw), settled.standing


def of_options(options: Mapping[str, object]) -> tuple[Settings, tuple[Diagnostic, ...]]:
    """The settings that an extension's options ask for, and what is wrong with them."""
    settings, problems = Settings.from_mapping(options)
    return settings, tuple(map(_of_setting, problems))


def _of_setting(problem: Problem) -> Diagnostic:
    span = Span("options", 1, 1, 1, 1)
    return Diagnostic(span, Severity.ERROR, Code.BAD_SETTING, problem.sentence, problem.expected, problem.nearest)
