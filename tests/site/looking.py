"""Opens a built course in a real browser, as a student would, and notes all that a student should never meet."""

from __future__ import annotations

import functools
import gzip
import http.server
import os
import random
import shutil
import subprocess
import sys
import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from dataclasses import dataclass, field
from pathlib import Path

from playwright.sync_api import Browser, BrowserContext, Error, Page, Playwright, Request

ROOT = Path(__file__).resolve().parents[2]
PHONE, DESK, NARROW = (390, 844), (1280, 900), (320, 700)
FLAGS = (
    "--no-sandbox --disable-gpu --disable-quic --no-first-run --disable-background-networking "
    "--disable-component-update --disable-sync --force-color-profile=srgb"
).split()
COMPRESSED = (".html", ".css", ".js", ".json", ".svg", ".webmanifest")
"""What static hosts compress."""
LATE = float(os.environ.get("LATE", 0))
"""Each script comes late by up to so many seconds, each time by others, to find a test that hopes for an order."""
NO_WORKER = "Service Worker registration blocked by Playwright"
NAMES = ("chromium-headless-shell", "chromium", "chromium-browser", "google-chrome")
"""The first is the same browser without its own windows, which cost more than most pages: a third of the work."""


class Quiet(http.server.SimpleHTTPRequestHandler):
    """Serves a folder as a static host does, its 404 page included."""

    def log_message(self, *_: object) -> None: ...

    def send_error(self, code: int, message: str | None = None, explain: str | None = None) -> None:
        page = Path(self.directory) / "404.html"
        if code != 404 or not page.is_file():
            super().send_error(code, message, explain)
            return
        body = page.read_bytes()
        self.send_response(404)
        self.send_header("Content-Type", "text/html; charset=utf-8")
        self.send_header("Content-Length", str(len(body)))
        self.end_headers()
        self.wfile.write(body)

    def do_GET(self) -> None:
        """A text goes compressed to who can read that; everything else as it is."""
        if LATE and self.path.endswith(".js"):
            time.sleep(random.uniform(0, LATE))
        file = Path(self.translate_path(self.path.split("?")[0]))
        file = file / "index.html" if file.is_dir() and self.path.endswith("/") else file
        if file.suffix not in COMPRESSED or "gzip" not in self.headers.get("Accept-Encoding", "") or not file.is_file():
            super().do_GET()
            return
        body = gzip.compress(file.read_bytes(), 6, mtime=0)
        self.send_response(200)
        self.send_header("Content-Type", self.guess_type(str(file)))
        self.send_header("Content-Encoding", "gzip")
        self.send_header("Content-Length", str(len(body)))
        self.end_headers()
        with suppress(ConnectionError):  # the page was left before it was all there
            self.wfile.write(body)


@contextmanager
def served(folder: Path) -> Iterator[str]:
    """The address of a folder on this machine while it is served."""
    handler = functools.partial(Quiet, directory=str(folder))
    with http.server.ThreadingHTTPServer(("127.0.0.1", 0), handler) as server:
        threading.Thread(target=server.serve_forever, daemon=True).start()
        try:
            yield f"http://127.0.0.1:{server.server_address[1]}/"
        finally:
            server.shutdown()


def build(config: Path, folder: Path) -> Path:
    """Builds a course with MkDocs, as a teacher does, and gives its folder."""
    # Not with --quiet: it keeps the warnings from --strict too.
    command = [sys.executable, "-m", "mkdocs", "build", "--strict", "--config-file", str(config)]
    environment = {**os.environ, "SOURCE_DATE_EPOCH": "1767225600"}
    done = subprocess.run([*command, "--site-dir", str(folder)], env=environment, capture_output=True, text=True)
    assert done.returncode == 0, done.stdout + done.stderr
    return folder


def chromium_path() -> str:
    """The browser of the system: CHROMIUM says which, else the first that is found."""
    found = next(filter(None, map(shutil.which, (os.environ.get("CHROMIUM", ""), *NAMES))), None)
    assert found, "no Chromium: `make browser` installs it"
    return found


def chromium(playwright: Playwright) -> Browser:
    """The browser, opened without a window."""
    return playwright.chromium.launch(executable_path=chromium_path(), args=FLAGS)


def until(page: Page, holds: str, arg: object = None, seconds: float = 10.0) -> None:
    """Waits until an expression, or a function of `arg`, is true on the page.

    Asked from outside, again and again: the browser library's own waiting asks from inside by `eval`, which the
    course's policy forbids, so it fails whenever the first answer is no.
    """
    end = time.monotonic() + seconds
    while not _holds(page, holds, arg):
        assert time.monotonic() < end, f"never true: {holds}"
        page.wait_for_timeout(20)


def _holds(page: Page, holds: str, arg: object) -> bool:
    """Whether it is true now; nothing is true of a page that is just being left for another."""
    try:
        return bool(page.evaluate(holds, arg))
    except Error as error:
        if "context was destroyed" not in str(error):
            raise
        return False


CUT_OFF = """() => [...document.querySelectorAll('.fp-step, .fp-ways, .fp-practice > ul, .fp-map, .fp-index-entry')]
  .flatMap((box) => {
    const { left, right } = box.getBoundingClientRect();
    return [...box.querySelectorAll('*')].filter((part) => {
      if (part.closest('.wide, .fp-hidden') || part.parentElement.closest('svg')) return false;
      const inner = part.getBoundingClientRect();
      return inner.width && (inner.left < left - 1 || inner.right > right + 1);
    });
  }).map((part) => `cut off: ${part.outerHTML.slice(0, 120)}`)"""
"""What reaches out of a box that waits at times (theme/js/waiting.js), and so would not be drawn there."""


@dataclass
class Visit:
    """A student at a course: the page, and what went wrong while it was open."""

    page: Page
    address: str
    faults: list[str] = field(default_factory=list)
    asked: list[str] = field(default_factory=list)
    coming: set[Request] = field(default_factory=set)
    meant: list[str] = field(default_factory=list)

    def open(self, path: str = "") -> Page:
        """Goes to a page of the course and waits until its scripts have run."""
        self.page.goto(self.address + path, wait_until="load")
        return self.settled()

    def settled(self) -> Page:
        """Waits until the page is loaded and so is every script and style that it fetches by itself.

        The load event does not wait for a part that is fetched only where a page has its place (theme/js/parts.js): a
        test that went on at once met that part before, or after, what the test did.
        """
        until(self.page, "document.readyState === 'complete'")
        end = time.monotonic() + 10
        # A script that has come asks for others once it is read, so nothing may be on its way for a while.
        quiet = 0
        while quiet < 2:
            assert time.monotonic() < end, f"never loaded: {sorted(one.url for one in self.coming)}"
            self.page.wait_for_timeout(5)
            self.page.evaluate("0")  # what the page was about to do is done before it answers
            quiet = 0 if self.coming else quiet + 1
        return self.page

    def means(self, part: str) -> None:
        """What the browser says with these words is what the test is about, whenever it comes to be said."""
        self.meant.append(part)

    def note(self) -> None:
        """Starts to note errors, broken policies and requests."""
        self.page.on("console", lambda said: self._hear(said.type, said.text))
        self.page.on("pageerror", lambda error: self.faults.append(str(error)))
        self.page.on("request", self._request)
        for end in ("requestfinished", "requestfailed"):
            self.page.on(end, lambda done: self.coming.discard(done))
        self.page.add_init_script(
            "addEventListener('securitypolicyviolation', (e) =>"
            " console.error(`policy: ${e.violatedDirective} ${e.blockedURI}`))"
        )

    def _hear(self, kind: str, text: str) -> None:
        if kind in ("error", "warning") and text != NO_WORKER and not any(part in text for part in self.meant):
            self.faults.append(text)

    def _request(self, request: Request) -> None:
        if request.is_navigation_request():
            self.coming.clear()  # what the page before still waited for
        if request.resource_type in ("script", "stylesheet"):
            self.coming.add(request)
        self.asked.append(request.url)
        if not request.url.startswith((self.address, "data:")):
            self.faults.append(f"asked another host: {request.url}")


@contextmanager
def visiting(
    browser: Browser, address: str, size: tuple[int, int] = PHONE, light: str = "light", **settings: object
) -> Iterator[Visit]:
    """A visit with a browser that remembers nothing from before; nothing may have gone wrong when it ends."""
    width, height = size
    # Keeping pages for later costs time, and has tests of its own: test_browser_offline.py.
    settings.setdefault("service_workers", "block")
    context: BrowserContext = browser.new_context(
        viewport={"width": width, "height": height},
        color_scheme=light,
        reduced_motion="reduce",
        **settings,  # type: ignore[arg-type]
    )
    # As a browser with a window does; the one without refuses it.
    context.grant_permissions(["screen-wake-lock"])
    visit = Visit(context.new_page(), address)
    visit.note()
    try:
        yield visit
    except Exception as error:
        error.add_note(f"went wrong in the page: {visit.faults}; still loading: {[one.url for one in visit.coming]}")
        raise
    finally:
        context.close()
    assert visit.faults == []
