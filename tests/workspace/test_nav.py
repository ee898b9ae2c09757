"""The order of pages agrees with MkDocs itself, asked here as the outside reference."""

import logging

import pytest
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
