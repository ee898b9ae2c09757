"""The demo course built and served once, and one browser to look at it with."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from contextlib import AbstractContextManager
from functools import partial
from pathlib import Path

import pytest
from playwright.sync_api import Browser, sync_playwright

from .looking import ROOT, Visit, build, chromium, served, visiting


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """A test with a browser has a second try: on a busy machine the browser's own clocks and messages come late.

    A fault of the course fails twice. What needed its second try is told at the end of the run (tests/conftest.py), so
    that its test is made to wait for the right thing.
    """
    for item in items:
        if "browser" in getattr(item, "fixturenames", ()) or item.path.name.startswith("test_browser_"):
            item.add_marker(pytest.mark.flaky(reruns=1))


@pytest.fixture(scope="session")
def demo(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The demo course as its source builds it now."""
    return build(ROOT / "mkdocs.yml", tmp_path_factory.mktemp("demo") / "site")


@pytest.fixture(scope="session")
def address(demo: Path) -> Iterator[str]:
    """Where the demo course is served."""
    with served(demo) as where:
        yield where


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    """The browser."""
    with sync_playwright() as playwright:
        opened = chromium(playwright)
        yield opened
        opened.close()


@pytest.fixture
def visit(browser: Browser, address: str) -> Callable[..., AbstractContextManager[Visit]]:
    """Opens a visit to the demo course: visit(size=..., light=...)."""
    return partial(visiting, browser, address)


@pytest.fixture(scope="session")
def pages(demo: Path) -> list[str]:
    """The paths of every page of the demo course."""
    found = sorted(file.parent.relative_to(demo).as_posix() for file in demo.rglob("index.html"))
    return ["" if path == "." else f"{path}/" for path in found]


@pytest.fixture(scope="session")
def lessons(demo: Path, pages: list[str]) -> list[str]:
    """The paths of its lessons, in the order in which they are taught."""
    home = (demo / "index.html").read_text("utf-8")
    linked = re.findall(r'<li><a class="arm" href="([^"]+)"', home)
    assert set(linked) <= set(pages)
    return linked
