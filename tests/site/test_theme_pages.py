"""The theme by itself, without the plugin: titles with marks in them, a strict policy, lessons without a nav."""

from __future__ import annotations

import contextlib
import html
import re
import socket
import subprocess
import sys
import time
import urllib.request
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser

from .looking import build, served, visiting

pytestmark = pytest.mark.xdist_group("browser")
HOSTILE = "A < B & \"C\" 'D' </title><script>alert(1)</script>"
SETTINGS = """\
site_name: {name}
site_description: {name}
theme: {{name: fingerpost}}
plugins: [search]
nav:
  - index.md
  - Lessons:
      - one.md
      - {name}: two.md
      - three.md
  - {name}:
      - other.md
      - four.md
"""
PAGES = {
    "index.md": "Hello.\n",
    "one.md": f"---\ntitle: {HOSTILE!r}\nlead: {HOSTILE!r}\nminutes: {HOSTILE!r}\n---\nOne.\n",
    "two.md": "Two.\n",
    "three.md": '# Q & A: `<b>` and *"C"*\n\n## First `<i>` & more\n\n## Second\n\nThree.\n',
    "other.md": '# Other\n\n| a | b |\n| - | - |\n| 1 | `<td>` |\n\n<table class="own"><tr><td>x</td></tr></table>\n',
    "four.md": "# Four\n",
}
Titles = Callable[[str], str]

EXACT_POLICY = (
    "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self'; media-src 'self'; connect-src 'self'; "
    "manifest-src 'self'; worker-src 'self'; base-uri 'none'; form-action 'none'"
)
"""The course's own host and nothing else; no script or style inside a page (Content Security Policy Level 3)."""


def quoted(text: str) -> str:
    """A text in single quotes as YAML wants it."""
    return "'" + text.replace("'", "''") + "'"


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    root = tmp_path_factory.mktemp("plain")
    (root / "docs").mkdir()
    (root / "mkdocs.yml").write_text(SETTINGS.format(name=quoted(HOSTILE)), "utf-8")
    for name, text in PAGES.items():
        (root / "docs" / name).write_text(text.replace(repr(HOSTILE), quoted(HOSTILE)), "utf-8")
    return build(root / "mkdocs.yml", root / "site")


@pytest.fixture
def page(folder: Path) -> Titles:
    return lambda path: (folder / path / "index.html").read_text("utf-8")


@pytest.mark.parametrize("path", ["", "one", "two", "three", "other", "four"])
def test_a_title_is_text_wherever_it_stands(page: Titles, path: str) -> None:
    text = page(path)
    assert "<script>alert" not in text
    assert text.count("</title>") == 1
    (title,) = re.findall(r"<title>(.*?)</title>", text)
    assert html.unescape(title).endswith(HOSTILE)
    assert not re.search(r"&amp;(amp|lt|gt|quot|#)", text)


def test_titles_read_as_they_were_written(page: Titles) -> None:
    def headings(path: str) -> list[str]:
        return [
            html.unescape(re.sub(r"<[^>]*>", "", found)) for found in re.findall(r"<h1[^>]*>(.*?)</h1>", page(path))
        ]

    assert headings("one") == headings("two") == headings("") == [HOSTILE]
    assert headings("three") == ['Q & A: <b> and "C"']
    arms = [html.unescape(found) for found in re.findall(r'<span class="no">\d</span> <span>(.*?)</span>', page(""))]
    assert arms == [HOSTILE, HOSTILE, 'Q & A: <b> and "C"']
    assert 'content="' + html.escape(HOSTILE).replace("&#x27;", "&#39;").replace("&quot;", "&#34;") in page("one")


def test_lessons_are_those_of_the_nav_section(page: Titles) -> None:
    assert [re.findall(r"Lesson \d of \d", page(path)) for path in ("one", "two", "three", "other", "")] == [
        ["Lesson 1 of 3"],
        ["Lesson 2 of 3"],
        ["Lesson 3 of 3"],
        [],
        [],
    ]


def test_only_an_authors_plain_table_gets_a_frame_to_scroll_in(page: Titles) -> None:
    text = page("other")
    assert text.count('<div class="wide"><table>') == text.count("</table></div>") == 1
    assert '<table class="own">' in text


def test_a_course_without_a_lessons_section_counts_its_pages_with_blocks(tmp_path: Path) -> None:
    (tmp_path / "docs").mkdir()
    (tmp_path / "mkdocs.yml").write_text("site_name: x\ntheme: {name: fingerpost}\nplugins: [fingerpost]\n", "utf-8")
    block = "# L\n\n```moves\nid: b{n}\nstart: x02210 = Am\nsteps:\n- hold\n```\n"
    for name, text in {"index": "# Hi\n", "a": block.format(n=1), "b": block.format(n=2), "note": "# Note\n"}.items():
        (tmp_path / "docs" / f"{name}.md").write_text(text, "utf-8")
    site = build(tmp_path / "mkdocs.yml", tmp_path / "site")
    assert "Lesson 2 of 2" in (site / "b/index.html").read_text("utf-8")
    assert "Lesson" not in (site / "note/index.html").read_text("utf-8").split("</main>")[0].split("<main")[1]


def test_every_page_forbids_inline_script_and_style_and_has_none(demo: Path, folder: Path) -> None:
    policy = re.compile(r'<meta http-equiv="Content-Security-Policy" content="([^"]*)">')
    for file in [*demo.rglob("*.html"), *folder.rglob("*.html")]:
        text = file.read_text("utf-8")
        (found,) = policy.findall(text)
        assert found == EXACT_POLICY, file
        assert text.index("Content-Security-Policy") < text.index("<script"), file
        assert not re.search(r"<style|<[^>]* style=|<script(?![^>]* src=)|<[^>]* on[a-z]+=", text), file
        assert not re.search(r'(?:src|href)="(?:https?:)?//(?!fingerpost)', text.split("</head>")[0]), file


@contextlib.contextmanager
def live(folder: Path) -> Iterator[str]:
    """The address of `mkdocs serve`, once it answers."""
    with socket.socket() as free:
        free.bind(("127.0.0.1", 0))
        port = free.getsockname()[1]
    command = [sys.executable, "-m", "mkdocs", "serve", "--quiet", "--dev-addr", f"127.0.0.1:{port}"]
    process = subprocess.Popen(command, cwd=folder)
    address = f"http://127.0.0.1:{port}/"
    try:
        for _ in range(300):
            with contextlib.suppress(OSError), urllib.request.urlopen(address):
                break
            assert process.poll() is None, "mkdocs serve ended"
            time.sleep(0.1)
        yield address
    finally:
        process.terminate()
        process.wait(timeout=20)


def test_the_live_reload_of_mkdocs_runs_and_shows_a_changed_page(tmp_path: Path, browser: Browser) -> None:
    (tmp_path / "docs").mkdir()
    (tmp_path / "mkdocs.yml").write_text("site_name: x\ntheme: {name: fingerpost}\nplugins: [fingerpost]\n", "utf-8")
    (tmp_path / "docs" / "index.md").write_text("# Hi\n", "utf-8")
    with live(tmp_path) as address, visiting(browser, address) as student:
        page = student.open()
        (tmp_path / "docs" / "index.md").write_text("# Changed\n", "utf-8")
        page.wait_for_selector("h1:text('Changed')", timeout=30_000)
        student.means("404")
        student.open("no-such-page/")


def test_served_from_a_folder_of_its_host_everything_is_found(folder: Path, browser: Browser, tmp_path: Path) -> None:
    """As on a static host that gives each course a folder."""
    (tmp_path / "host").mkdir()
    (tmp_path / "host" / "course").symlink_to(folder, target_is_directory=True)
    with served(tmp_path / "host") as host, visiting(browser, host) as student:
        page = student.open("course/two/")
        page.click("button[data-search]")
        page.keyboard.type("Three")
        page.wait_for_selector("dialog ol a")
        page.keyboard.press("Enter")
        page.wait_for_url("**/course/three/**")
