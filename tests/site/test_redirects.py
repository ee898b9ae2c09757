"""Old addresses lead on: what the build writes, and what the check says of redirects that do not do."""

from __future__ import annotations

from pathlib import Path
from urllib.parse import urljoin

import pytest
from fingerpost.diagnostics import Code
from fingerpost.workspace.checked import check
from fingerpost.workspace.course_folder import load

from .building import FIRST, INDEX, SETTINGS, Course
from .markup import read

PAGES = {"index.md": INDEX, "first.md": FIRST}
REDIRECTING = SETTINGS.replace("  - fingerpost\n", "  - fingerpost:\n      redirects: {%s}\n")


@pytest.fixture
def course(tmp_path: Path) -> Course:
    (tmp_path / "docs").mkdir()
    return Course(tmp_path)


@pytest.mark.parametrize("urls", ["true", "false"])
def test_an_old_address_leads_on_and_says_so(course, urls):
    settings = REDIRECTING % "old/gates.md: first.md#gates" + "site_url: https://example.org/course/\n"
    course.write(PAGES, settings.replace("use_directory_urls: true", f"use_directory_urls: {urls}")).build(strict=True)
    address, there = ("old/gates/index.html", "first/") if urls == "true" else ("old/gates.html", "first.html")
    page = read(course.page(address))
    assert page.faults == []
    (refresh,) = [m.attributes["content"] for m in page.all("meta") if m.attributes.get("http-equiv") == "refresh"]
    (link,) = page.all("a")
    assert refresh == f"0; url={link.attributes['href']}"
    assert urljoin(f"https://example.org/{address}", link.attributes["href"]) == f"https://example.org/{there}#gates"
    (canonical,) = [e.attributes["href"] for e in page.all("link")]
    assert canonical == f"https://example.org/course/{there}#gates"
    assert link.text == "The first"
    assert not page.all("script")
    assert not page.all("style")


def found(course, redirects: str) -> list[tuple[str, int, str, str]]:
    course.write(PAGES, REDIRECTING % redirects)
    sources = load(course.folder)
    return [
        (str(f.severity), f.span.column, f.message, f.fix)
        for f in check(sources).findings
        if f.code is Code.DEAD_REDIRECT and (f.span.file, f.span.line) == ("mkdocs.yml", 7)
    ]


@pytest.mark.parametrize(
    ("redirects", "weight", "fix"),
    [
        ("old.md: frist.md", "error", "old.md: first.md"),
        ("old.md: first.md#gate", "error", "old.md: first.md#gates"),
        ('old.md: "first.md#practise=gates"', "error", ""),
        ("index.md: first.md", "error", "take the redirect out"),
        ("old.md: old.md", "error", ""),
        ("chords.md: first.md", "error", "take the redirect out"),
    ],
)
def test_a_redirect_that_does_not_do_is_found_at_its_place(course, redirects, weight, fix):
    ((severity, column, _, said),) = found(course, redirects)
    assert (severity, column, said) == (weight, len("      redirects: {") + 1, fix)


def test_a_chain_is_told_where_it_ends_and_a_loop_that_it_does_not(course):
    chain = found(course, "a.md: b.md, b.md: first.md")
    assert [(weight, fix) for weight, _, _, fix in chain] == [("warning", "a.md: first.md")]
    assert [weight for weight, *_ in found(course, "a.md: b.md, b.md: a.md")] == ["error", "error"]
    assert found(course, "a.md: first.md, b.md: 'first.md#gates'") == []


def test_a_chain_is_one_step_in_the_site_and_what_leads_nowhere_is_not_written(course):
    redirects = "a.md: b.md, b.md: first.md, c.md: gone.md, d.md: d.md, first.md: index.md"
    course.write(PAGES, REDIRECTING % redirects).build()
    assert read(course.page("a/index.html")).all("a")[0].attributes["href"] == "../first/"
    assert not (course.folder / "site" / "c").exists()
    assert not (course.folder / "site" / "d").exists()
    assert "The first" in course.page("first/index.html")
    assert sum("redirect" in text or "leads to" in text for text in course.logged.said()) >= 3
    column = len("      redirects: {") + redirects.index("d.md: d.md") + 1
    assert any(f"mkdocs.yml:7:{column}: The redirect of `d.md`" in text for text in course.logged.said())


@pytest.mark.parametrize(
    "redirects", ["old: first.md", "old.md: https://example.org/a.md", "../old.md: first.md", "old.md: 3", "[a]: b.md"]
)
def test_a_redirect_that_is_none_is_a_bad_setting(course, redirects):
    course.write(PAGES, REDIRECTING % redirects)
    assert Code.BAD_SETTING in {f.code for f in check(load(course.folder)).findings}
