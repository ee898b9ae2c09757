"""The Markdown extension: blocks of moves become pictures and words, mentions in the prose become links and figures.

It works in any Python-Markdown program: given nothing, it takes each page by itself. The MkDocs plugin gives it the
view of a page that the whole course has.
"""

from __future__ import annotations

import html
import logging
import re
from typing import Any
from xml.etree.ElementTree import Element

from markdown import Markdown
from markdown.extensions import Extension
from markdown.inlinepatterns import InlineProcessor
from markdown.postprocessors import Postprocessor
from markdown.preprocessors import Preprocessor
from markdown.util import ETX, STX

from fingerpost.course.model import MentionMeaning
from fingerpost.diagnostics import Diagnostic, Severity
from fingerpost.render.look import Look
from fingerpost.report.text import one_line
from fingerpost.site.expansion import expand
from fingerpost.site.located import Located, Shown, locate
from fingerpost.site.page_view import PageView, alone, of_options
from fingerpost.source.syntax import Mention

log = logging.getLogger("fingerpost")

# After the text is made even (30), before fenced code (25) and raw HTML (20) take what is ours for theirs.
PREPROCESSOR_PRIORITY = 28
# Before code spans (190), escapes and links.
MENTION_PRIORITY = 195
# After the stashed markup is back in its place (30).
LEFT_OVER_PRIORITY = 5
_MARK = f"{STX}fp([0-9]+){ETX}"


class FingerpostExtension(Extension):
    """Expands the blocks and mentions of a page. Options are those of the course (course.settings)."""

    def __init__(self, view: PageView | None = None, **options: Any) -> None:
        """view: what a course knows of the page that comes next; without one each page is taken by itself."""
        super().__init__()
        self.view, self.options = view, options

    def extendMarkdown(self, md: Markdown) -> None:  # noqa: N802 - the name is Python-Markdown's
        """Adds what expands blocks and mentions to a Markdown converter."""
        pages = _BlocksAndMentions(md, self.view, self.options)
        md.preprocessors.register(pages, "fingerpost", PREPROCESSOR_PRIORITY)
        md.inlinePatterns.register(_MentionInline(_MARK, pages), "fingerpost_mention", MENTION_PRIORITY)
        md.postprocessors.register(_LeftOver(pages), "fingerpost_left_over", LEFT_OVER_PRIORITY)


class _BlocksAndMentions(Preprocessor):
    """Puts marks for blocks and mentions; keeps, for the page under conversion, what each mention's mark stands for."""

    def __init__(self, md: Markdown, view: PageView | None, options: dict[str, Any]) -> None:
        super().__init__(md)
        self.markdown, self.given, self.options = md, view, options
        self.marked: list[tuple[str, str]] = []

    def run(self, lines: list[str]) -> list[str]:
        """The lines with marks in place of blocks and mentions."""
        self.marked = []
        view, located = self._seen("\n".join(lines))
        if located is None:
            return lines

        def block_mark(shown: Shown) -> str:
            return self.markdown.htmlStash.store(view.block(shown))

        def mention_mark(mention: Mention, meaning: MentionMeaning, plain: bool) -> str:
            shown = view.words(meaning) if plain else self.markdown.htmlStash.store(view.mention(meaning))
            self.marked.append((shown, _as_written(lines, mention)))
            return f"{STX}fp{len(self.marked) - 1}{ETX}"

        return expand(lines, located, block_mark, mention_mark)

    def _seen(self, text: str) -> tuple[PageView, Located | None]:
        """The page as the course sees it; by itself where there is no course, or where others changed its blocks."""
        if self.given is not None:
            located = locate(text, self.given.read, self.given.lesson)
            if located is not None:
                return self.given, located
            view, _ = alone(text, self.given.settings, self.given.look)
        else:
            settings, problems = of_options(self.options)
            view, findings = alone(text, settings, Look.of(settings))
            _tell((*problems, *findings))
        return view, locate(text, view.read, view.lesson)


class _MentionInline(InlineProcessor):
    """Gives the markup of a mention for its mark."""

    def __init__(self, pattern: str, pages: _BlocksAndMentions) -> None:
        super().__init__(pattern, pages.markdown)
        self.pages = pages

    def handleMatch(  # type: ignore[override]  # noqa: N802 - the name is Python-Markdown's
        self, m: re.Match[str], data: str
    ) -> tuple[Element | str | None, int | None, int | None]:
        """The markup's place in the stash, or plain words."""
        return self.pages.marked[int(m[1])][0], m.start(0), m.end(0)


class _LeftOver(Postprocessor):
    """A mark where no inline markup is read, such as in raw HTML, becomes again what the author wrote."""

    def __init__(self, pages: _BlocksAndMentions) -> None:
        super().__init__(pages.markdown)
        self.pages = pages

    def run(self, text: str) -> str:
        """The page without marks."""
        if f"{STX}fp" not in text:
            return text
        return re.sub(_MARK, lambda found: html.escape(self.pages.marked[int(found[1])][1], quote=False), text)


def _as_written(lines: list[str], mention: Mention) -> str:
    span = mention.span
    if span.line != span.end_line:
        return f"`{mention.kind}: {' '.join(word.text for word in mention.words)}`"
    return lines[span.line - 1][span.column - 1 : span.end_column - 1]


def _tell(findings: tuple[Diagnostic, ...]) -> None:
    for finding in findings:
        log.log(logging.INFO if finding.severity is Severity.NOTE else logging.WARNING, one_line(finding))


def makeExtension(**options: Any) -> FingerpostExtension:  # noqa: N802 - the name is Python-Markdown's
    """What Python-Markdown calls when the extension is named by its module."""
    return FingerpostExtension(**options)
