"""The MkDocs plugin: the course on its pages, its own pages, findings, search, and builds that do not meet."""

from __future__ import annotations

import json
import logging
import re
from pathlib import Path

import pytest
from fingerpost.course.settings import OPTIONS, Settings, explanations
from fingerpost.site.options import FingerpostOptions
from mkdocs.exceptions import Abort

from .building import FIRST, INDEX, PAGES, SECOND, SETTINGS, Course
from .markup import read


@pytest.fixture
def course(tmp_path: Path) -> Course:
    return Course(tmp_path)


def options(**given: object) -> str:
    lines = "".join(f"      {key}: {value}\n" for key, value in given.items())
    return SETTINGS.replace("  - fingerpost\n", f"  - fingerpost:\n{lines}")


def test_the_options_are_those_of_the_course():
    assert [name for name, _ in FingerpostOptions._schema] == list(OPTIONS)
    for name, option in FingerpostOptions._schema:
        assert option.default == OPTIONS[name].default
        assert option.explains == explanations()[name]
        assert len(option.explains) > 20
    read_back = FingerpostOptions()
    read_back.load_dict({})
    assert read_back.validate() == ([], [])
    assert Settings(**read_back) == Settings()


def test_a_course_builds_strictly_without_a_word(course):
    course.write(PAGES).build(strict=True)
    assert course.logged.said() == []
    first = read(course.page("first/index.html"))
    assert first.faults == []
    assert [e.text for e in first.all("span", "fp-chord")] == ["Am", "C", "Cmaj7"]
    words = [p.text for p in first.all("p")]
    assert "Words before." in words
    assert any(text.startswith("Words after") for text in words)


def test_a_link_that_begins_to_practise_is_no_dead_anchor(course):
    settings = SETTINGS.replace("plugins:", "validation: {anchors: warn}\nplugins:")
    course.write(PAGES, settings).build(strict=True)
    steps = re.findall(r'<li[^>]* id="(gates--[^"]+)"', course.page("first/index.html"))[:2]
    assert len(steps) == 2
    for tail, dead in ((",".join(steps), []), (f"{steps[0]},gates", ["There is no step `gates`"])):
        text = f"{SECOND}\n[Back and forth](first.md#practise={tail})\n"
        course.write({**PAGES, "second.md": text}, settings).build()
        assert len(course.logged.said()) == len(dead)
        assert all(part in said for part, said in zip(dead, course.logged.said(), strict=True))


def test_links_lead_to_steps_on_other_pages(course):
    course.write(PAGES).build(strict=True)
    second, first = read(course.page("second/index.html")), read(course.page("first/index.html"))
    (href,) = [a.attributes["href"] for a in second.all("a", "fp-link")]
    path, _, ident = href.partition("#")
    assert path == "../first/"
    assert ident in {element.attributes.get("id") for element in first.elements}


@pytest.mark.parametrize("urls", ["true", "false"])
def test_course_pages_are_added_and_can_be_reached(course, urls):
    course.write(PAGES, SETTINGS.replace("use_directory_urls: true", f"use_directory_urls: {urls}")).build(strict=True)
    tail = "/index.html" if urls == "true" else ".html"
    for name, title in (
        ("chords", "Chord"),
        ("reading-the-pictures", "picture"),
        ("tuner", "tune"),
        ("staying-unhurt", "unhurt"),
    ):
        page = read(course.page(f"{name}{tail}"))
        assert title.casefold() in page.all("h1")[0].text.casefold()
        assert page.faults == []
    chords = read(course.page(f"chords{tail}"))
    links = [a.attributes["href"] for a in chords.all("a", "fp-link")]
    assert links
    for href in links:
        path, _, ident = href.partition("#")
        target = (course.folder / "site" / f"chords{tail}").parent / path
        target = target / "index.html" if urls == "true" else target
        assert f'id="{ident}"' in target.read_text(encoding="utf-8")


def test_course_pages_stand_where_the_nav_puts_them(course):
    nav = "nav:\n- index.md\n- Chords first: chords.md\n- first.md\n- second.md\n"
    course.write(PAGES, SETTINGS.replace("plugins:", nav + "plugins:")).build(strict=True)
    assert course.logged.said() == []
    assert "Chords first" in course.page("index.html")
    for name in ("reading-the-pictures", "tuner", "staying-unhurt"):
        assert f"{name}/" in course.page("first/index.html")


def test_a_lesson_that_the_nav_leaves_out_is_not_held_against_the_others(course):
    """As in `check`: nobody knows where it is taught, so what it teaches may be used from the beginning."""
    left_out = "nav:\n- index.md\n- second.md\n"
    course.write(PAGES, SETTINGS.replace("plugins:", left_out + "plugins:")).build(strict=True)
    course.write(PAGES, SETTINGS.replace("plugins:", left_out + "- first.md\nplugins:")).build()
    assert any("No earlier block shows `Am`" in said for said in course.logged.said())


def test_without_a_nav_they_come_after_the_lessons(course):
    course.theme = "mkdocs"
    course.write(PAGES).build(strict=True)
    nav = course.page("index.html")
    places = [nav.index(f'href="{name}/"') for name in ("first", "second", "chords", "staying-unhurt")]
    assert places == sorted(places)
    assert re.search(r'rel="next" href="../chords/"', course.page("second/index.html"))


def test_the_authors_own_page_of_that_name_wins(course):
    course.write({**PAGES, "staying-unhurt.md": "# Take care\n\nMy own words.\n"}).build(strict=True)
    page = course.page("staying-unhurt/index.html")
    assert "My own words." in page
    assert "fp-unhurt" not in page


def test_a_broken_block_is_a_notice_a_warning_and_a_failed_strict_build(course):
    broken = FIRST.replace("- 1 off = Cmaj7", "- 7 off")
    course.write({**PAGES, "first.md": broken}).build()
    (said,) = [line for line in course.logged.said() if "unknown-finger" in line]
    line = broken.splitlines().index("- 7 off") + 1
    assert f"docs/first.md:{line}:3: There is no finger 7." in said
    page = read(course.page("first/index.html"))
    assert len(page.all("section", "fp-broken")) == 1
    assert any(p.text == "Words before." for p in page.all("p"))
    assert "1 warning" in course.fails() or "warnings" in course.fails()


def test_advice_does_not_fail_a_strict_build(course):
    loose = FIRST.replace("- 1 off = Cmaj7", "- 1 off ~ C")
    course.write({"index.md": INDEX, "first.md": loose.replace(", Cmaj7", "")}).build()
    assert not [line for line in course.logged.said(logging.WARNING) if "error" in line]


def test_front_matter_moves_no_places(course):
    broken = "---\ntitle: A title\n---\n\n\n" + FIRST.replace("- 1 off = Cmaj7", "- 7 off")
    course.write({**PAGES, "first.md": broken}).build()
    (said,) = [line for line in course.logged.said() if "unknown-finger" in line]
    assert f":{broken.splitlines().index('- 7 off') + 1}:3:" in said
    assert len(read(course.page("first/index.html")).all("section", "fp-broken")) == 1


@pytest.mark.parametrize("data", [b"\xef\xbb\xbf" + FIRST.encode(), FIRST.replace("\n", "\r\n").encode()])
def test_marks_and_line_ends_of_other_systems(course, data):
    course.write({**PAGES, "first.md": data}).build(strict=True)
    assert [e.text for e in read(course.page("first/index.html")).all("span", "fp-chord")] == ["Am", "C", "Cmaj7"]


def test_bytes_that_are_no_text_do_not_stop_the_build(course):
    course.write({**PAGES, "first.md": FIRST.replace("Words before", "Caf\u00e9").encode("latin-1")}).build()
    assert any("invalid-utf8" in line for line in course.logged.said())
    page = read(course.page("first/index.html"))
    assert any(p.text == "Caf\ufffd." for p in page.all("p"))
    assert [e.text for e in page.all("span", "fp-chord")] == ["Am", "C", "Cmaj7"]


def test_links_out_of_the_sources_are_not_published(course, tmp_path):
    course.write(PAGES)
    (tmp_path / "secret.txt").write_text("secret words")
    (tmp_path / "secret.md").write_text("# secret words\n")
    (tmp_path / "outside").mkdir()
    (tmp_path / "outside" / "more.md").write_text("# secret words\n")
    for name in ("secret.txt", "secret.md", "outside"):
        (course.folder / "docs" / name).symlink_to(tmp_path / name)
    course.build()
    assert not any(b"secret words" in data for data in course.bytes().values())
    assert sum("link-out-of-tree" in line for line in course.logged.said()) == 3


def test_images_of_steps_are_found_from_any_page(course):
    folder_page = FIRST.replace("id: gates", "id: deep").replace("  say: Only", "  image: hand.png A hand\n  say: Only")
    course.write({**PAGES, "part/deep.md": folder_page.replace("teaches: [Am, C, Cmaj7]\n", ""), "part/hand.png": b"x"})
    course.build(strict=True)
    (image,) = [
        e for e in read(course.page("part/deep/index.html")).all("img") if "hand" in (e.attributes["src"] or "")
    ]
    assert (course.folder / "site" / "part" / "deep" / str(image.attributes["src"])).resolve().read_bytes() == b"x"
    (course.folder / "docs" / "part" / "hand.png").unlink()
    course.build()
    assert any("missing-image" in line for line in course.logged.said())


@pytest.mark.parametrize(
    ("given", "says"),
    [
        ({"capo": 99}, "`capo`"),
        ({"tuning": "nonsense"}, "`tuning`"),
        ({"limits": "{spam: 3}"}, "`limits.spam`"),
        ({"handed": "both"}, "right"),
    ],
)
def test_an_option_that_can_not_be_taken_ends_the_build_with_its_name(course, given, says):
    course.write(PAGES, options(**given))
    with pytest.raises(Abort):
        course.build()
    assert any(says in line for line in course.logged.said())


def test_an_unknown_option_is_a_warning(course):
    course.write(PAGES, options(cappo=3)).build()
    assert any("cappo" in line for line in course.logged.said())


def test_options_reach_the_pages(course):
    course.write(PAGES, options(handed="left", view="player", major_seventh="triangle", capo=2)).build(strict=True)
    page = course.page("first/index.html")
    assert 'data-hand="left"' in page
    assert 'data-view="player"' in page
    assert "capo" in read(page).all("p", "fp-capo")[0].text.casefold()
    assert re.search(r'class="fp-chord"[^>]*>C[Δ△]', page)


def test_the_bare_extension_beside_the_plugin_does_not_double(course):
    course.write(PAGES, SETTINGS + "markdown_extensions: [fingerpost]\n").build(strict=True)
    assert len(read(course.page("first/index.html")).all("section", "fp-block")) == 1


def test_the_bare_extension_alone_serves_in_mkdocs(course):
    settings = SETTINGS.replace("  - fingerpost\n", "") + "markdown_extensions: [fingerpost]\n"
    course.theme = "mkdocs"
    course.write({"index.md": INDEX, "first.md": FIRST}, settings).build()
    assert len(read(course.page("first/index.html")).all("section", "fp-block")) == 1


def test_search_is_given_words_and_a_place_for_each_step(course):
    course.write(PAGES).build(strict=True)
    docs = json.loads(course.page("search/search_index.json"))["docs"]
    by_place = {entry["location"]: entry for entry in docs}
    step = next(entry for place, entry in by_place.items() if place.startswith("first/#gates--x02210-to-x32010"))
    assert step["title"] == "C"
    assert "Only the ring finger crosses over." in step["text"]
    assert "first/#gates" in by_place
    assert any(place.startswith("chords/#chord-") and entry["title"] == "Am" for place, entry in by_place.items())
    # The figures' own words, numerals and coordinates are no words of the course.
    assert not any("<" in entry["text"] for entry in docs)
    description = read(course.page("first/index.html")).all("desc")[0].text
    assert description
    assert description not in by_place["first/"]["text"]
    html = course.page("first/index.html")
    for place in by_place:
        if place.startswith("first/#"):
            assert f'id="{place.partition("#")[2]}"' in html


def test_the_table_of_contents_names_the_blocks(course):
    course.theme = "mkdocs"
    course.write(PAGES).build(strict=True)
    assert 'href="#gates"' in course.page("first/index.html")


def test_anchors_of_blocks_are_known_to_the_link_check(course):
    settings = SETTINGS + "validation: {links: {anchors: warn}}\n"
    course.write(PAGES, settings).build(strict=True)
    course.write({**PAGES, "second.md": SECOND.replace("first.md#gates", "first.md#nowhere")}, settings)
    assert course.fails()


def test_two_builds_give_the_same_bytes(course, monkeypatch):
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "1700000000")
    course.write(PAGES).build(site="one").build(site="two")
    one, two = course.bytes("one"), course.bytes("two")
    assert one == two


def test_two_courses_in_one_process_do_not_meet(tmp_path):
    left, right = Course(tmp_path / "left"), Course(tmp_path / "right")
    for one in (left, right):
        one.folder.mkdir()
    left.write(PAGES, options(handed="left"))
    right.write({"index.md": INDEX, "first.md": FIRST.replace("gates", "doors")}, options(handed="right"))
    left.build(strict=True)
    before = left.bytes()
    right.build(strict=True)
    left.build(strict=True)
    assert {name: data for name, data in left.bytes().items() if not name.startswith("sitemap")} == {
        name: data for name, data in before.items() if not name.startswith("sitemap")
    }
    assert "doors" not in left.page("chords/index.html")
    assert 'data-hand="left"' not in right.page("first/index.html")


def test_a_plugin_that_rewrites_pages_gets_its_blocks_shown(course):
    hook = course.folder / "hook.py"
    hook.write_text(
        "def on_page_markdown(markdown, page, **_):\n"
        "    return 'Put in before.\\n\\n' + markdown.replace('CHORD', 'Cmaj7')\n"
    )
    course.write(
        {**PAGES, "first.md": FIRST.replace("- 1 off = Cmaj7", "- 1 off = CHORD")}, SETTINGS + "hooks: [hook.py]\n"
    )
    course.build()
    page = read(course.page("first/index.html"))
    assert "Put in before." in [p.text for p in page.all("p")]
    assert [e.text for e in page.all("span", "fp-chord")] == ["Am", "C", "Cmaj7"]


def test_the_policy_is_strict_unless_served(course):
    course.write(PAGES).build(strict=True)
    assert "'unsafe-inline'" not in course.page("index.html")
    assert course.config is not None
    plugin = course.config.plugins["fingerpost"]
    plugin.on_startup(command="serve", dirty=False)
    assert plugin.serving
