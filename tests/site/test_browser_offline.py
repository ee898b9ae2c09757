"""A course without a network: kept when opened, kept whole, never two builds mixed, and never in an author's way."""

from __future__ import annotations

import json
import shutil
from collections.abc import Callable, Iterator
from contextlib import AbstractContextManager, contextmanager
from pathlib import Path

import pytest
from fingerpost.site.file_list import write_file_list
from playwright.sync_api import Browser, BrowserContext, Page

from .building import FIRST, INDEX, SECOND, Course
from .hosting import Host, hosted
from .looking import until

pytestmark = pytest.mark.xdist_group("offline")
Student = Callable[..., AbstractContextManager[Page]]
PICTURE = '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 9 9"><circle cx="4" cy="4" r="4"/></svg>'
# Whether a build is shown from here that has these files; its id.
HERE = """async (paths) => {
  const name = (await caches.keys()).find((one) => one.endsWith(' state'));
  if (!name) return false;
  const store = await caches.open(name);
  const entry = (await store.keys()).find(({ url }) => url.endsWith('?state'));
  const { current } = entry ? await (await store.match(entry)).json() : {};
  if (!current) return false;
  const build = await caches.open(name.replace(/state$/, current));
  const files = (await build.keys()).map(({ url }) => new URL(url).pathname);
  return paths.every((path) => files.includes(`/${path}`)) && current;
}"""
BUILDS = "async () => (await caches.keys()).filter((name) => !name.endsWith(' state')).length"


def course(folder: Path, first: str = FIRST) -> Path:
    """A course of two lessons and a picture, built."""
    folder.mkdir(parents=True, exist_ok=True)
    with_picture = first.replace("Words before.", "Words before.\n\n![A lamp](lamp.svg)")
    files: dict[str, str | bytes] = {
        "index.md": INDEX,
        "first.md": with_picture,
        "second.md": SECOND,
        "lamp.svg": PICTURE,
    }
    Course(folder).write(files).build(strict=True)
    return folder / "site"


@pytest.fixture(scope="module")
def builds(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, Path]:
    """The course, and the course a day later: other words in the first lesson, and another style sheet."""
    root = tmp_path_factory.mktemp("course")
    old = course(root / "old")
    new = course(root / "new", FIRST.replace("# The first", "# The first anew"))
    sheet = new / "css" / "pages.css"
    sheet.write_text(sheet.read_text() + "/* anew */\n")
    write_file_list(new, ["index.html", "first/index.html", "second/index.html"])
    return old, new


@pytest.fixture
def host(builds: tuple[Path, Path]) -> Iterator[Host]:
    with hosted({"": builds[0]}) as host:
        yield host


@pytest.fixture
def student(browser: Browser) -> Student:
    @contextmanager
    def student() -> Iterator[Page]:
        context: BrowserContext = browser.new_context(viewport={"width": 390, "height": 844})
        yield context.new_page()
        context.close()

    return student


def opened(page: Page, host: Host, path: str = "") -> Page:
    page.goto(host.address + path, wait_until="load")
    return page


def kept(page: Page, *paths: str) -> str:
    """Waits until these are kept and shown from here; the id of their build."""
    until(page, HERE, list(paths), seconds=20)
    return str(page.evaluate(HERE, list(paths)))


def build_of(folder: Path) -> str:
    return str(json.loads((folder / "files.json").read_text())["build"])


def test_a_lesson_once_opened_opens_again_with_all_it_needs(student: Student, host: Host) -> None:
    with student() as page:
        kept(opened(page, host, "first/"), "first/", "lamp.svg")
        host.down = True
        opened(page, host, "first/")
        assert page.inner_text("h1") == "The first"
        assert page.evaluate("document.querySelector('main img').naturalWidth") > 0
        assert page.evaluate("getComputedStyle(document.body).margin") == "0px"
        page.locator("button[data-practise]").first.click()
        until(page, "document.querySelector('dialog.practice[open] [data-picture] svg') !== null")
        assert page.evaluate("getComputedStyle(document.querySelector('.practice-ways')).display") == "grid"


def test_a_page_that_is_not_kept_says_so_and_what_opens(student: Student, host: Host) -> None:
    with student() as page:
        kept(opened(page, host, "first/"), "first/")
        host.down = True
        opened(page, host, "second/")
        assert page.inner_text("h1") == "No network, and this page isn’t here"
        until(page, "[...document.querySelectorAll('main li')].filter((one) => one.checkVisibility()).length === 2")
        assert page.locator("main li:visible").all_inner_texts() == ["Lock Six", "The first"]
        assert page.get_attribute("a[data-again]", "href") == host.address + "second/"
        page.click("main li:visible a >> nth=1")
        page.wait_for_url("**/first/")
        host.down = False
        page.goto(f"{host.address}not-kept.html#https%3A%2F%2Felsewhere.example%2F")
        until(page, "document.querySelector('a[data-again]').href.endsWith('/')")
        assert page.get_attribute("a[data-again]", "href") == host.address


def test_the_whole_course_is_kept_when_asked_and_its_size_is_said_beforehand(student: Student, host: Host) -> None:
    with student() as page:
        kept(opened(page, host), "")
        opened(page, host)
        until(page, "document.querySelector('[data-keep-whole]')?.checkVisibility()")
        size = sum(file["size"] for file in json.loads((host.folders[""] / "files.json").read_text())["files"])
        assert f"takes {size / 1e6:.1f} MB" in page.inner_text("[data-size]")
        assert host.asked["second/"] == 0
        page.click("[data-keep-whole]")
        until(page, "document.querySelector('[data-size]').textContent.startsWith('The whole course is kept')")
        assert page.is_hidden("[data-keep-whole]")
        kept(page, "second/", "search/search_index.json")
        host.down = True
        for path in ("second/", "chords/", "staying-unhurt/", "your-progress/", ""):
            opened(page, host, path)
            assert page.locator("[data-not-kept]").count() == 0, path
        page.click("button[data-search]")
        page.fill("dialog[data-search] input", "Cmaj7")
        until(page, "document.querySelectorAll('.found').length > 0")


def test_a_new_build_is_shown_only_when_complete_and_an_old_page_stays_old(
    student: Student, host: Host, builds: tuple[Path, Path]
) -> None:
    old, new = builds
    with student() as page:
        assert kept(opened(page, host, "first/"), "first/") == build_of(old)
        opened(page, host, "first/")
        host.folders[""] = new
        other = page.context.new_page()
        opened(other, host, "first/")
        assert other.inner_text("h1") == "The first"
        until(other, "document.querySelector('.notices button') !== null", seconds=20)
        assert kept(other, "first/") == build_of(new)
        # The page that was open all the time goes on with its own build, also where it fetches something only now.
        sheet = "(async () => (await (await fetch('../css/pages.css')).text()).includes('anew'))()"
        assert page.evaluate(sheet) is False
        page.locator("button[data-practise]").first.click()
        until(page, "document.querySelector('dialog.practice[open] [data-picture] svg') !== null")
        assert other.evaluate(BUILDS) == 2
        other.click(".notices button")
        other.locator("h1", has_text="The first anew").wait_for()
        assert other.evaluate(sheet) is True


def test_a_host_that_is_being_changed_is_not_taken_over(
    student: Student, host: Host, builds: tuple[Path, Path], tmp_path: Path
) -> None:
    old, new = builds
    half = shutil.copytree(old, tmp_path / "half")
    shutil.copy(new / "files.json", half / "files.json")
    with student() as page:
        kept(opened(page, host, "first/"), "first/")
        host.folders[""] = half
        opened(page, host, "first/")
        until(page, "async () => (await caches.keys()).length === 3", seconds=20)
        page.wait_for_timeout(300)
        assert kept(page, "first/") == build_of(old)
        host.down = True
        opened(page, host, "first/")
        assert page.inner_text("h1") == "The first"
        host.down = False
        host.folders[""] = new
        opened(page, host, "first/")
        until(page, "document.querySelector('.notices button') !== null", seconds=20)
        assert kept(page, "first/") == build_of(new)


def test_the_focus_stays_while_the_course_is_fetched_and_then_goes_to_what_is_told(
    student: Student, host: Host
) -> None:
    with student() as page:
        kept(opened(page, host), "")
        opened(page, host)
        until(page, "document.querySelector('[data-keep-whole]')?.checkVisibility()")
        host.refuses = lambda path: path == "search/search_index.json"
        page.focus("[data-keep-whole]")
        page.keyboard.press("Enter")
        until(page, "document.querySelector('.whole [data-says]').textContent.startsWith('The network')", seconds=20)
        until(page, "document.querySelector('[data-keep-whole]').ariaDisabled === 'false'")
        assert page.evaluate("document.activeElement.matches('[data-keep-whole]')"), "it can be tried again"
        host.refuses = lambda path: False
        page.keyboard.press("Enter")
        until(page, "document.querySelector('[data-size]').textContent.startsWith('The whole course is kept')")
        assert page.evaluate("document.activeElement.matches('[data-size]')")


def test_what_is_cut_goes_on_where_it_stopped(student: Student, host: Host, builds: tuple[Path, Path]) -> None:
    with student() as page:
        kept(opened(page, host), "")
        opened(page, host)
        until(page, "document.querySelector('[data-keep-whole]')?.checkVisibility()")
        host.refuses = lambda path: path == "search/search_index.json"
        page.click("[data-keep-whole]")
        until(
            page,
            "document.querySelector('.whole [data-says]').textContent.startsWith('The network is gone')",
            seconds=20,
        )
        host.refuses = lambda path: False
        asked = host.asked.copy()
        opened(page, host)
        kept(page, "second/", "search/search_index.json")
        until(page, "document.querySelector('[data-size]').textContent.startsWith('The whole course is kept')")
        again = {path for path, count in host.asked.items() if count > asked[path]}
        assert "search/search_index.json" in again
        assert again.isdisjoint({"second/", "first/", "chords/", "css/pages.css", "js/main.js"})


def test_who_forgets_everything_without_a_network_is_told_of_nothing_that_stays(student: Student, host: Host) -> None:
    with student() as page:
        kept(opened(page, host, "your-progress/"), "your-progress/")
        opened(page, host, "your-progress/")
        until(page, "document.querySelector('[data-keep-whole]')?.checkVisibility()")
        host.refuses = lambda path: path == "search/search_index.json"
        page.click("[data-keep-whole]")
        says = "document.querySelector('.whole [data-says]').textContent"
        until(page, f"{says}.startsWith('The network is gone')", seconds=20)
        until(page, "document.querySelector('[data-keep-whole]').ariaDisabled === 'false'")
        host.down = True
        page.click("[data-forget]")
        page.click("[data-yes]")
        assert page.evaluate(says) == ""
        until(page, f"({BUILDS})().then((n) => n === 0)")
        until(page, "document.querySelector('[data-keep-whole]').hidden")
        assert page.evaluate(says) == ""


def test_two_courses_on_one_host_keep_apart(student: Student, builds: tuple[Path, Path]) -> None:
    with hosted({"north/": builds[0], "north/south/": builds[1]}) as host, student() as page:
        kept(opened(page, host, "north/first/"), "north/first/")
        opened(page, host, "north/south/first/")
        until(page, f"({BUILDS})().then((count) => count === 2)", seconds=20)
        until(page, "async () => (await navigator.serviceWorker.getRegistrations()).length === 2")
        page.wait_for_timeout(300)
        host.down = True
        opened(page, host, "north/first/")
        assert page.inner_text("h1") == "The first"
        opened(page, host, "north/south/first/")
        assert page.inner_text("h1") == "The first anew"


def test_an_author_who_serves_the_course_sees_it_as_it_is(
    student: Student, host: Host, builds: tuple[Path, Path], tmp_path: Path
) -> None:
    served = shutil.copytree(builds[1], tmp_path / "served")
    (served / "files.json").write_text('{"version": 1, "serving": true}')
    with student() as page:
        kept(opened(page, host, "first/"), "first/")
        host.folders[""] = served
        opened(page, host, "first/")
        page.locator("h1", has_text="The first anew").wait_for()
        until(page, f"({BUILDS})().then((n) => n === 0)")


def test_a_full_device_keeps_what_fits_and_says_so(student: Student, host: Host) -> None:
    with student() as page:
        kept(opened(page, host), "")
        opened(page, host)
        until(page, "document.querySelector('[data-keep-whole]')?.checkVisibility()")
        session = page.context.new_cdp_session(page)
        session.send("Storage.overrideQuotaForOrigin", {"origin": host.address, "quotaSize": 1000})
        page.click("[data-keep-whole]")
        until(
            page,
            "document.querySelector('.whole [data-says]').textContent.startsWith('This device has no room')",
            seconds=20,
        )
        host.down = True
        opened(page, host)
        assert page.inner_text("h1") == "Lock Six"


def test_a_course_goes_on_without_a_worker(student: Student, host: Host) -> None:
    host.refuses = lambda path: path in ("worker.js", "files.json")
    with student() as page:
        faults: list[str] = []
        page.on("pageerror", lambda error: faults.append(str(error)))
        opened(page, host)
        page.wait_for_timeout(500)
        assert page.is_hidden(".whole")
        assert page.inner_text("h1") == "Lock Six"
        assert faults == []


def test_the_course_can_be_installed(student: Student, host: Host) -> None:
    with student() as page:
        opened(page, host, "first/")
        session = page.context.new_cdp_session(page)
        errors = session.send("Page.getInstallabilityErrors")["installabilityErrors"]
        # Each test has a private window, in which nothing is installed.
        assert [error["errorId"] for error in errors if error["errorId"] != "in-incognito"] == []
        found = session.send("Page.getAppManifest")
        assert found["errors"] == []
        manifest = json.loads(found["data"])
        assert manifest["name"] == "Lock Six"
        for icon in manifest["icons"]:
            assert (host.folders[""] / icon["src"]).is_file()
