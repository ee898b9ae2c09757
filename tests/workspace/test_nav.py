"""The order of pages agrees with MkDocs itself, asked here as the outside reference."""

import logging

import pytest
from fingerpost.workspace.checked import check
from fingerpost.workspace.course_folder import load
from mkdocs.config import load_config
from mkdocs.structure.files import get_files, set_exclusions
from mkdocs.structure.nav import get_navigation

FILES = ["index.md", "b.md", "a.md", "z/README.md", "z/index.md", "z/c.md", "y/README.md", "y/d.md", ".hidden.md"]
FILES += ["templates/t.md", "pic.png", "a-b.md", "drafts/x.md"]
CASES = {
    "no nav": "",
    "a flat nav": "nav: [b.md, index.md]\n",
    "a nested nav": "nav:\n- Start: a.md\n- Part:\n  - z/c.md\n  - Deep: {One: b.md, Two: y/d.md}\n- Out: https://example.org/\n",
    "left out": "exclude_docs: |\n  /drafts/\n  a-*\n",
    "not in nav": "nav: [index.md]\nnot_in_nav: |\n  a.md\n",
}


@pytest.mark.parametrize("settings", CASES.values(), ids=CASES.keys())
def test_pages_come_in_the_order_of_mkdocs(tmp_path, settings):
    for file in FILES:
        path = tmp_path / "docs" / file
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text("# x\n")
    (tmp_path / "mkdocs.yml").write_text(f"site_name: x\nplugins: []\n{settings}")
    logging.disable(logging.CRITICAL)
    try:
        config = load_config(str(tmp_path / "mkdocs.yml"))
        files = get_files(config)
        set_exclusions(files, config)
        nav = [page.file.src_uri for page in get_navigation(files, config).pages]
        theirs = list(dict.fromkeys(nav + [file.src_uri for file in files.documentation_pages()]))
    finally:
        logging.disable(logging.NOTSET)
    assert [page.file for page in load(tmp_path).pages] == theirs


GATE = "# Gate\n\n```moves\nid: gate\nstart: x02210/--231- = Am\nteaches: [Am]\nsteps:\n- hold\n```\n"
FOG = (
    "# Fog\n\n```moves\nid: fog\nstart: as taught Am\nteaches: [Am7]\nsteps:\n- 3 off = Am7\n```\n\n"
    "```moves\nid: mist\nstart: after gate\nsteps:\n- 3 off = Am7\n```\n"
)


def _course(tmp_path, nav, **pages):
    (tmp_path / "docs").mkdir()
    for name, text in {"gate": GATE, "fog": FOG, **pages}.items():
        (tmp_path / "docs" / f"{name}.md").write_text(text)
    (tmp_path / "mkdocs.yml").write_text(f"site_name: x\nplugins: [fingerpost]\nnav:\n{nav}")
    return check(load(tmp_path))


def _told(checked):
    return [(f.span.line, f.span.column, f.span.end_column, str(f.code), f.fix) for f in checked.findings]


def test_an_entry_of_nav_that_leads_nowhere_is_told_and_the_page_that_is_meant_takes_its_place(tmp_path):
    checked = _course(tmp_path, "- Gate: gaet.md\n- fog.md\n- Out: https://example.org/\n- Root: /fog/\n")
    assert _told(checked) == [(4, 9, 16, "dead-link", "gate.md")]
    assert [lesson.file for lesson in checked.course.lessons] == ["gate.md", "fog.md"]


def test_an_entry_of_a_list_is_told_too_and_no_page_stands_for_two(tmp_path):
    checked = _course(tmp_path, "- gaet.md\n- gate.mdd\n- fog.md\n- chords.md\n")
    assert _told(checked) == [(4, 3, 10, "dead-link", "gate.md"), (5, 3, 11, "dead-link", "gate.md")]


def test_a_lesson_left_out_of_nav_is_told_once_and_not_missed_elsewhere(tmp_path):
    checked = _course(tmp_path, "- fog.md\n")
    assert _told(checked) == [(3, 1, 4, "page-not-in-nav", "add gate.md where it is taught")]


def test_what_no_page_teaches_is_told_though_one_has_no_place(tmp_path):
    fog = FOG.replace("as taught Am", "x02210/--231- = Am").replace("teaches: [Am7]\n", "")
    checked = _course(tmp_path, "- fog.md\n", fog=fog)
    assert [told[:4] for told in _told(checked) if told[3] != "page-not-in-nav"] == [(7, 11, 14, "used-before-taught")]


def test_a_page_that_is_to_be_reached_otherwise_or_has_no_block_is_not_told(tmp_path):
    checked = _course(tmp_path, "- gate.md\nnot_in_nav: |\n  fog.md\n", about="# About\n")
    assert checked.findings == ()


def test_without_nav_every_page_has_its_place(tmp_path):
    assert [f.code for f in _course(tmp_path, "").findings if f.code == "page-not-in-nav"] == []
