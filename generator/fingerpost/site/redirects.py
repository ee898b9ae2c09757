"""Pages at old addresses that lead on to new ones: plain HTML without style or script, whatever the theme."""

from __future__ import annotations

from collections.abc import Iterator
from html import escape
from pathlib import Path
from urllib.parse import quote, urljoin

from mkdocs.config.defaults import MkDocsConfig
from mkdocs.structure.files import File, Files

from fingerpost.course.rules.dead_link import parted
from fingerpost.course.rules.dead_redirect import final
from fingerpost.course.settings import Settings
from fingerpost.diagnostics import Diagnostic, Span
from fingerpost.render.catalogue import Words
from fingerpost.site.course_model import CourseModel
from fingerpost.workspace.links import redirect_faults
from fingerpost.workspace.own_options import option_places, place_of_option
from fingerpost.workspace.settings_file import read_settings_file

PAGE = """\
<!doctype html>
<html lang="{language}">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="robots" content="noindex">
<meta http-equiv="refresh" content="0; url={to}">
<link rel="canonical" href="{canonical}">
<title>{title}</title>
</head>
<body>
<main>
<h1>{title}</h1>
<p>{lead} <a href="{to}">{name}</a></p>
</main>
</body>
</html>
"""


def faults(model: CourseModel, files: Files, config: MkDocsConfig) -> tuple[Diagnostic, ...]:
    """What is wrong with the redirects, at their lines of mkdocs.yml."""
    if not model.settings.redirects:
        return ()
    path = Path(config.config_file_path or "mkdocs.yml")
    # MkDocs keeps no lines, so the file is read once more for them; where it can't be, it stands for the place itself.
    places = option_places(read_settings_file(path, path.parent, path.name))

    def place(old: str) -> Span:
        return place_of_option(f"redirects.{old}", places, path.name)

    reads = tuple(model.reads.values())
    return tuple(redirect_faults(reads, model.course, model.settings, files.src_uris, place))


def redirect_pages(settings: Settings, files: Files, config: MkDocsConfig, words: Words) -> Iterator[tuple[str, str]]:
    """The path of each redirect's page in the site, and its text. One whose target is not there is left out."""
    redirects = {old: new for old, new in settings.redirects if old not in files.src_uris}
    for old in redirects:
        path, anchor = parted(final(old, redirects))
        target = files.get_file_from_path(path) if path else None
        if target is None:
            continue
        there = File(old, config.docs_dir, config.site_dir, config.use_directory_urls)
        end = f"#{quote(anchor)}" if anchor else ""
        to = target.url_relative_to(there) + end
        page = PAGE.format(
            language=escape(words.language),
            to=escape(to),
            canonical=escape(urljoin(config.site_url, target.url) + end if config.site_url else to),
            title=escape(words.say("redirect.title")),
            lead=escape(words.say("redirect.lead")),
            name=escape(str(target.page.title) if target.page is not None and target.page.title else path),
        )
        yield there.dest_uri, page


def write_redirects(settings: Settings, files: Files, config: MkDocsConfig, words: Words) -> None:
    """Writes the pages into the built site."""
    for path, text in redirect_pages(settings, files, config, words):
        file = Path(config.site_dir, path)
        file.parent.mkdir(parents=True, exist_ok=True)
        file.write_text(text, encoding="utf-8", newline="\n")
