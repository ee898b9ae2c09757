"""The MkDocs plugin: hooks that translate between MkDocs and the course; the work is done in plain functions."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path
from typing import Any, Literal

from mkdocs.config.defaults import MkDocsConfig
from mkdocs.plugins import BasePlugin, CombinedEvent, event_priority, get_plugin_logger
from mkdocs.structure.files import File, Files, InclusionLevel
from mkdocs.structure.nav import Navigation
from mkdocs.structure.pages import Page
from mkdocs.utils.templates import TemplateContext

from fingerpost.course.option_values import Problem
from fingerpost.course.settings import OPTIONS, Settings
from fingerpost.diagnostics import Diagnostic, Severity
from fingerpost.render.catalogue import languages, words
from fingerpost.render.contents import BlockEntry
from fingerpost.render.contents import contents as lesson_contents
from fingerpost.render.course_pages import MAKERS, CoursePage
from fingerpost.render.look import Look
from fingerpost.report.text import one_line
from fingerpost.site.course_model import CourseModel, Kept, course_model, look_of, view_of, way_through
from fingerpost.site.course_pages import add_course_pages, append_to_nav, pages_in_order, unplaced
from fingerpost.site.extension import FingerpostExtension
from fingerpost.site.file_list import write_file_list, write_serving
from fingerpost.site.foreign_theme import FIGURES, figures_css, is_foreign
from fingerpost.site.name_styles import built_style, names_on, write_name_styles
from fingerpost.site.options import FingerpostOptions
from fingerpost.site.redirects import faults as redirect_faults
from fingerpost.site.redirects import write_redirects
from fingerpost.site.search_words import BLOCKS, STEPS, contents, our_ids, without_pictures
from fingerpost.workspace.checked import moved
from fingerpost.workspace.page_text import decode
from fingerpost.workspace.tree import leads_out, link_findings

log = get_plugin_logger(__name__)

OUR_EXTENSION = ("fingerpost", "fingerpost.site.extension", "fingerpost.site.extension:FingerpostExtension")


class FingerpostPlugin(BasePlugin[FingerpostOptions]):  # type: ignore[no-untyped-call]
    """Builds the course once before pages are made, and gives each page what it needs to know of it."""

    def __init__(self) -> None:
        """Nothing is known before the first build."""
        self.serving = False
        self.kept = Kept(None)

    def on_startup(self, *, command: Literal["build", "gh-deploy", "serve"], dirty: bool) -> None:
        """Notes whether the pages are for the author's own browser. MkDocs keeps the plugin between its builds."""
        self.serving = command == "serve"

    def on_serve(self, server: Any, **_: Any) -> Any:
        """`mkdocs serve --clean` says only here that it serves."""
        self.serving = True
        return server

    def on_config(self, config: MkDocsConfig) -> MkDocsConfig:
        """Tells the theme which way pictures face, and a foreign theme which style sheet they need."""
        self.model: CourseModel | None = None
        self.names: set[str] = set()
        self.kept = self.kept.by(config.config_file_path)
        self.language = _language(config)
        self.extensions = [name for name in config.markdown_extensions if name not in OUR_EXTENSION]
        if is_foreign(config):
            config.extra_css.append(FIGURES)
        else:
            config.theme["hand"], config.theme["view"] = self.config.handed, self.config.view
            config.theme["names"] = built_style(self.config)
            for name in ("practice_minutes", "rest_minutes"):
                config.theme[name] = self.config[name]
        return config

    def on_files(self, files: Files, *, config: MkDocsConfig) -> Files:
        """Leaves out links that lead out of the sources; adds the course's own pages."""
        self.refused = _refuse_links(files, config)
        self.added = add_course_pages(files, config)
        if is_foreign(config):
            files.append(File.generated(config, FIGURES, content=figures_css()))
        else:
            _leave_out_styles(files, config)
        return files

    def on_nav(self, nav: Navigation, *, config: MkDocsConfig, files: Files) -> Navigation:
        """Builds the course, now that the order of its lessons is known, and says what is wrong with it."""
        self.files = files
        in_order = pages_in_order(nav, files.documentation_pages(inclusion=_any_that_is_made))
        self.in_order = tuple(page.dest_uri for page in in_order)
        own = [page for page in in_order if page.src_uri not in self.added]
        settings, problems = _settings(self.config)
        self.model = course_model(own, files, settings, self.kept, unplaced(own, nav) if config.nav else ())
        self.pages = {name: self._course_page(name) for name in self.added}
        append_to_nav(nav, files, self.added)
        for problem in problems:
            log.warning(f"{problem.sentence}; expected {problem.expected}")
        _tell((*link_findings(self.refused), *self.model.findings), config)
        for fault in redirect_faults(self.model, files, config):
            log.warning(one_line(fault))
        return nav

    def _course_page(self, name: str) -> CoursePage:
        """A page of the course's own; its file gets the heading, its markup goes in when the page is made."""
        file = self.files.src_uris[name]
        assert self.model is not None
        look = look_of(file, self.model, self.files, self.language)
        page = MAKERS[name](self.model.course, self.model.settings, look)
        file.content_string = f"# {page.title}\n"
        return page

    def on_page_read_source(self, *, page: Page, config: MkDocsConfig) -> str | None:
        """The text of a page that is not UTF-8, which MkDocs would stop at."""
        data = page.file.content_bytes
        try:
            data.decode("utf-8-sig")
        except UnicodeDecodeError:
            return decode(page.file.src_uri, data)[0].text
        return None

    @event_priority(-100)
    def on_page_markdown(self, markdown: str, *, page: Page, config: MkDocsConfig, files: Files) -> str:
        """Gives the Markdown extension the view of the page that comes next."""
        assert self.model is not None
        view = view_of(page.file, self.model, files, self.language, self.kept)
        ours: list[Any] = [FingerpostExtension(view)] if view else []
        config.markdown_extensions = [*self.extensions, *ours]
        return markdown

    @event_priority(-100)
    def on_page_content(self, html: str, *, page: Page, config: MkDocsConfig, files: Files) -> str:
        """Puts in the markup of the course's own pages and the maps of lessons; names our places to MkDocs."""
        if page.file.src_uri in self.pages:
            html = f"{html}\n{self.pages[page.file.src_uri].html}"
        elif self.model is not None:
            html += way_through(page.file, self.model, files, self.language)
        if page.present_anchor_ids is not None:
            page.present_anchor_ids |= our_ids(html) | (self.model.practised if self.model is not None else set())
        if self._contents(page):
            page.toc = contents(without_pictures(html), page.toc, BLOCKS)
        return html

    @event_priority(100)
    def _on_page_context_first(
        self, context: TemplateContext, *, page: Page, config: MkDocsConfig, nav: Navigation
    ) -> TemplateContext:
        """Before the index is made: a page of words, each step a place of its own."""
        context["fingerpost_serving"] = self.serving  # type: ignore[typeddict-unknown-key]
        context["fingerpost_contents"] = self._contents(page)  # type: ignore[typeddict-unknown-key]
        self.shown = page.content or "", page.toc
        words = without_pictures(self.shown[0])
        if words is not self.shown[0]:
            page.content, page.toc = words, contents(words, page.toc, STEPS)
        return context

    @event_priority(-100)
    def _on_page_context_last(
        self, context: TemplateContext, *, page: Page, config: MkDocsConfig, nav: Navigation
    ) -> TemplateContext:
        """After the index is made: the page as it is shown."""
        page.content, page.toc = self.shown
        return context

    on_page_context = CombinedEvent(_on_page_context_first, _on_page_context_last)

    def on_post_page(self, output: str, *, page: Page, config: MkDocsConfig) -> str:
        """Notes which names the page shows."""
        self.names |= names_on(output)
        return output

    @event_priority(-100)
    def on_post_build(self, *, config: MkDocsConfig) -> None:
        """Writes every name in every style that a reader can choose; last, the list by which a browser keeps it all."""
        if self.model is not None:
            write_redirects(self.model.settings, self.files, config, words(self.language))
        if is_foreign(config):
            return
        site = Path(config.site_dir)
        write_name_styles(self.names, self.config.accidentals, site)
        if self.serving:
            write_serving(site)
        else:
            write_file_list(site, self.in_order)

    def on_template_context(
        self, context: TemplateContext, *, template_name: str, config: MkDocsConfig
    ) -> TemplateContext:
        """The 404 page, too, knows whether it is served."""
        context["fingerpost_serving"] = self.serving  # type: ignore[typeddict-unknown-key]
        return context

    def _contents(self, page: Page) -> tuple[BlockEntry, ...]:
        if self.model is None:
            return ()
        lesson = self.model.course.lesson(page.file.src_uri)
        look = Look.of(self.model.settings, self.language)
        return lesson_contents(lesson, look) if lesson else ()


def _settings(options: FingerpostOptions) -> tuple[Settings, tuple[Problem, ...]]:
    """The settings, and what is wrong with how they go together; each by itself has been read already."""
    settings = Settings(**{name: options[name] for name in OPTIONS})
    return Settings.from_mapping({"clean": settings.clean, "tries": settings.tries}, settings)


def _language(config: MkDocsConfig) -> str:
    """The language of the theme, where we have its words; else English."""
    locale = config.theme.locale
    wanted = str(getattr(locale, "language", locale) or "en")
    return wanted if wanted in languages() else "en"


def _refuse_links(files: Files, config: MkDocsConfig) -> tuple[str, ...]:
    docs = Path(config.docs_dir)
    own = [file for file in files if file.src_dir == config.docs_dir and file.abs_src_path]
    refused = [file for file in own if leads_out(Path(str(file.abs_src_path)), docs)]
    for file in refused:
        files.remove(file)
    return tuple(file.src_uri for file in refused)


def _leave_out_styles(files: Files, config: MkDocsConfig) -> None:
    """The style sheets that css/pages.css holds already are not published a second time."""
    for name in config.theme["styles"]:
        if (file := files.get_file_from_path(f"css/{name}.css")) is not None:
            files.remove(file)


def _any_that_is_made(level: InclusionLevel) -> bool:
    return bool(level.value >= InclusionLevel.DRAFT.value)


def _tell(findings: Iterable[Diagnostic], config: MkDocsConfig) -> None:
    """Says each finding; one that is more than advice makes `--strict` fail."""
    root = Path(config.config_file_path).parent if config.config_file_path else Path(config.docs_dir).parent
    docs = Path(config.docs_dir)
    folder = docs.relative_to(root).as_posix() if docs.is_relative_to(root) else docs.as_posix()
    for finding in findings:
        say = log.info if finding.severity is Severity.NOTE else log.warning
        say(one_line(moved(finding, folder)))
