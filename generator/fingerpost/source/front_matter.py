"""The data before the body of a page, found where MkDocs finds it, and what it would quietly do to the text.

MkDocs takes a `---` block that is valid YAML and a mapping; failing that, lines of the form `Word: words` at the very
top (mkdocs 1.6.1, mkdocs.utils.meta).
"""

from __future__ import annotations

import re
from dataclasses import dataclass

import yaml

from fingerpost.diagnostics import Code, Diagnostic, Edit, Severity, Span

LARGEST = 64 * 1024
FENCED = re.compile(r"-{3}[ \t]*\n(.*?\n)(?:\.{3}|-{3})[ \t]*\n", re.DOTALL)
OPENED = re.compile(r"-{3}[ \t]*\n[A-Za-z0-9_-]+:(?:\s|$)")
WORD_AND_VALUE = re.compile(r"[ ]{0,3}(?P<key>[A-Za-z0-9_-]+):\s*(?P<value>.*)")
MORE = re.compile(r"(?:[ ]{4}|\t)\s*(?P<value>.*)")
KNOWN = frozenset(
    "title description template author authors date summary subtitle tags hide search status icon image "
    "redirect_from canonical lang language keywords copyright revision_date".split()
)
"""Words that a page's data commonly begins with; another word at the top is more likely the first of the prose."""


@dataclass(frozen=True, slots=True)
class FrontMatter:
    """How many lines stand before the body, the title they give, and findings."""

    lines: int = 0
    title: str | None = None
    findings: tuple[Diagnostic, ...] = ()


def front_matter(file: str, text: str) -> FrontMatter:
    """Reads the data before the body of a page. The text has no byte-order mark, and its lines end with LF."""
    if text.startswith("---"):
        return _fenced(file, text)
    return _words_and_values(file, text)


def _fenced(file: str, text: str) -> FrontMatter:
    found = FENCED.match(text)
    if found is None:
        if not OPENED.match(text):
            return FrontMatter()
        return _shown_as_prose(file, "has no end", "a line of `---` below the last of it")
    if found.end() > LARGEST:
        return _shown_as_prose(file, "is too large to be read", f"at most {LARGEST // 1024} KiB")
    fault, data = _mapping(found.group(1))
    if fault or data is None:
        return _shown_as_prose(
            file, fault or "is no list of `word: value` lines", "lines such as `title: First chords`"
        )
    title = data.get("title")
    return FrontMatter(found.group().count("\n"), str(title) if title is not None else None)


def _mapping(text: str) -> tuple[str, dict[object, object] | None]:
    """The data, or what is wrong with it; merges of aliases are refused, since they can grow without bound."""
    if "<<" in text and "*" in text:
        return "refers to other parts of itself", None
    try:
        data = yaml.load(text, yaml.SafeLoader)
    except (yaml.YAMLError, ValueError, RecursionError, TypeError) as error:
        mark = getattr(error, "problem_mark", None)
        where = f" (line {mark.line + 2})" if mark else ""
        return f"can't be read as YAML{where}", None
    return "", data if isinstance(data, dict) else None


def _shown_as_prose(file: str, fault: str, expected: str) -> FrontMatter:
    message = f"The data at the top of the page {fault}, so the page shows it as text"
    return FrontMatter(
        0, None, (Diagnostic(Span(file, 1, 1, 1, 4), Severity.ERROR, Code.FRONT_MATTER, message, expected),)
    )


def _words_and_values(file: str, text: str) -> FrontMatter:
    count, first, title = 0, None, None
    for line in text.split("\n"):
        if found := WORD_AND_VALUE.match(line):
            first = first or found
            if found.group("key").lower() == "title" and title is None:
                title = found.group("value").strip()
        elif not (count and line.strip() and MORE.match(line)):
            break
        count += 1
    if first is None or first.group("key").lower() in KNOWN:
        return FrontMatter(count, title)
    return FrontMatter(count, title, (_swallowed(file, first),))


def _swallowed(file: str, first: re.Match[str]) -> Diagnostic:
    """The finding about a first line of prose that is taken for data."""
    span = Span(file, 1, first.start("key") + 1, 1, first.end("key") + 2)
    message = f"`{first.group('key')}:` at the very top is taken for data about the page, and its line is not shown"
    edit = Edit(Span(file, 1, 1, 1, 1), "\n")
    fix = "Put an empty line above it."
    expected = "an empty line or a heading first"
    return Diagnostic(span, Severity.WARNING, Code.FRONT_MATTER, message, expected, fix, (edit,))
