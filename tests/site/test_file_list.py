"""The list of files by which a browser keeps a course: right to the byte, the same for the same course, text first."""

from __future__ import annotations

import hashlib
import json
import os
from pathlib import Path

from fingerpost.site.file_list import NAME, listed, write_file_list

from .building import PAGES, Course


def write(site: Path, files: dict[str, str]) -> Path:
    for name, text in files.items():
        (site / name).parent.mkdir(parents=True, exist_ok=True)
        (site / name).write_text(text, encoding="utf-8")
    return site


def paths(site: Path, *pages: str) -> list[str]:
    return [file.path for file in listed(site, pages)]


def test_each_file_is_listed_with_its_size_and_digest(tmp_path: Path) -> None:
    text = "Höhe & Weite"
    (file,) = listed(write(tmp_path, {"fog/index.html": text}))
    assert (file.path, file.size) == ("fog/index.html", len(text.encode()))
    assert file.sha256 == hashlib.sha256(text.encode()).hexdigest()


def test_what_every_page_needs_comes_first_then_words_as_taught_then_pictures(tmp_path: Path) -> None:
    names = [
        "z.html",
        "a.html",
        "m.html",
        "song.ogg",
        "a.png",
        "css/look.css",
        "js/main.js",
        "search/search_index.json",
    ]
    site = write(tmp_path, dict.fromkeys([*names, "index.html", "extra/words.css"], "x"))
    assert paths(site, "m.html", "z.html") == [
        *["css/look.css", "extra/words.css", "index.html", "js/main.js"],
        *["m.html", "z.html", "a.html"],
        *["search/search_index.json", "a.png", "song.ogg"],
    ]


def test_what_no_page_loads_or_no_host_serves_is_left_out(tmp_path: Path) -> None:
    left_out = [
        *["files.json", "worker.js", "worker/keep.js", "sitemap.xml", "sitemap.xml.gz", "CNAME", "fog/LICENSE"],
        *[".nojekyll", ".well-known/a.json", "_headers", "_drafts/a.html", "js/main.js.map"],
    ]
    site = write(tmp_path, dict.fromkeys([*left_out, "worker/index.html", "a.html"], "x"))
    assert paths(site) == ["a.html", "worker/index.html"]


def test_a_page_needs_what_it_loads_of_the_course_itself(tmp_path: Path) -> None:
    page = """<link rel="icon" href="../img/icon.svg"><img alt="" src="../a%20b.png?x#y"><img src="c&amp;d.png">
      <audio controls src="song.ogg"></audio><source src="/absolute.png"><img src="https://elsewhere.example/e.png">
      <a href="../notes.pdf">notes</a><script src="../js/main.js"></script><img src="missing.png">"""
    loaded = ["a b.png", "fog/c&d.png", "fog/song.ogg", "notes.pdf", "js/main.js", "absolute.png"]
    other = '<link rel="icon" href="img/icon.svg">'
    files = {**dict.fromkeys(loaded, "x"), "fog/index.html": page, "gate.html": other, "img/icon.svg": "x"}
    found = {file.path: file for file in listed(write(tmp_path, files))}
    assert found["fog/index.html"].needs == ("a b.png", "fog/c&d.png", "fog/song.ogg")
    assert found["gate.html"].needs == ()
    assert found["img/icon.svg"].frame, "every page loads it"
    assert not found["a b.png"].frame


def test_the_build_is_named_by_what_is_in_it(tmp_path: Path) -> None:
    files = {"index.html": "one", "fog/index.html": "two", "a.png": "three"}
    names = []
    for folder, text in (("one", "two"), ("same", "two"), ("other", "2")):
        site = write(tmp_path / folder, {**files, "fog/index.html": text})
        for at, file in enumerate(sorted(site.rglob("*"))):
            os.utime(file, (at, at))
        write_file_list(site, ["fog/index.html"])
        names.append((site / NAME).read_bytes())
    assert names[0] == names[1]
    builds = [json.loads(text)["build"] for text in names]
    assert builds[0] != builds[2]
    assert len(builds[0]) == 64


def test_a_built_course_lists_all_that_was_built(tmp_path: Path) -> None:
    course = Course(tmp_path).write(PAGES).build(strict=True)
    found = json.loads(course.page(NAME))
    assert found["version"] == 1
    built = course.bytes()
    for file in found["files"]:
        assert hashlib.sha256(built[file["path"]]).hexdigest() == file["sha256"]
    unlisted = built.keys() - {file["path"] for file in found["files"]}
    assert {name for name in unlisted if not name.startswith("worker/")} == {
        *["files.json", "worker.js", "sitemap.xml", "sitemap.xml.gz"]
    }
    lessons = [file["path"] for file in found["files"] if file["path"] in ("first/index.html", "second/index.html")]
    assert lessons == ["first/index.html", "second/index.html"]
    page = course.page("first/index.html")
    assert '<link rel="manifest" href="../manifest.webmanifest">' in page
    assert "data-serving" not in page
    manifest = json.loads(course.page("manifest.webmanifest"))
    assert (manifest["name"], manifest["start_url"], manifest["scope"]) == ("Lock Six", "./", "./")


def test_a_name_with_signs_stays_that_name_in_the_manifest(tmp_path: Path) -> None:
    settings = "site_name: 'Fog & \"Bank\" </script> é'\ntheme: {name: THEME}\nplugins: [fingerpost]\n"
    course = Course(tmp_path).write(PAGES, settings).build(strict=True)
    assert json.loads(course.page("manifest.webmanifest"))["name"] == 'Fog & "Bank" </script> é'


def test_while_an_author_serves_nothing_is_to_be_kept(tmp_path: Path) -> None:
    course = Course(tmp_path).write(PAGES)
    course.build(strict=True)
    assert course.config is not None
    plugin = course.config.plugins["fingerpost"]
    plugin.serving = True
    plugin.on_post_build(config=course.config)
    assert json.loads(course.page(NAME)) == {"version": 1, "serving": True}


def test_a_foreign_theme_gets_no_list(tmp_path: Path) -> None:
    course = Course(tmp_path, theme="mkdocs").write(PAGES).build(strict=True)
    assert not (tmp_path / "site" / NAME).exists()
    assert course.config is not None
