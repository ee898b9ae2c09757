"""What is kept between keystrokes changes nothing: after any typing, the findings are those of a check from nothing."""

from __future__ import annotations

from pathlib import Path

import pytest
from fingerpost.editor.course_at_work import CourseAtWork, inside
from fingerpost.workspace.checked import check
from fingerpost.workspace.course_folder import load
from hypothesis import given, settings
from hypothesis import strategies as st

FIRST = """\
# One

```moves
id: gauge
start: x32010/-32-1- = C
teaches: [C, Cmaj7, Am7]
steps:
- 1 off = Cmaj7
- 1 to B1 = C
- move: 4 to B3
  name: Cadd9
```

Now `now: Cadd9`, then `step: rain C`.

```moves
id: more
start: previous
steps:
- 4 off
```
"""
SECOND = "# Two\n\n```moves\nid: rain\nstart: after gauge\nsteps:\n- 4 off = C\n- rest\n- back\n```\n\n`chord: Am7`\n"
PIECES = st.sampled_from(
    [*"1234 =~@:-\n`#GABex/", "off", "to G2", "= C6", "previous", "after more", "```", "\r\n", "\ufeff"]
)
TYPED = st.tuples(st.sampled_from(["first.md", "second.md"]), st.floats(0, 1), st.integers(0, 6), PIECES)


@pytest.fixture(scope="module")
def course(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("course")
    (folder / "docs").mkdir()
    (folder / "mkdocs.yml").write_text("site_name: x\nplugins: [fingerpost]\n", "utf-8")
    (folder / "docs/first.md").write_text(FIRST, "utf-8")
    (folder / "docs/second.md").write_text(SECOND, "utf-8")
    return folder


@settings(max_examples=25)
@given(st.lists(TYPED, min_size=1, max_size=3))
def test_typing_ends_where_a_check_from_nothing_ends(course: Path, typed: list[tuple[str, float, int, str]]) -> None:
    texts = {"first.md": FIRST, "second.md": SECOND}
    work = CourseAtWork.of_folder(course / "mkdocs.yml", {})
    for file, where, gone, piece in typed:
        at = int(where * len(texts[file]))
        texts[file] = texts[file][:at] + piece + texts[file][at + gone :]
        work.write(file, texts[file])
        opened = {course / "docs" / name: text for name, text in texts.items()}
        anew = check(CourseAtWork.of_folder(course / "mkdocs.yml", opened).sources, for_pages=False)
        assert work.checked().findings == anew.findings
        assert work.checked().course == anew.course


def test_an_unchanged_block_is_told_what_other_pages_change(tmp_path: Path) -> None:
    """By pages, what is kept of a block that stays hangs on: chords taught, ties, hard changes, acceptances, places."""
    (tmp_path / "docs").mkdir()
    options = "{harder_step: 1.1, warm_up_steps: 2, rest_after_steps: 3}"
    (tmp_path / "mkdocs.yml").write_text(f"site_name: x\nplugins: [{{fingerpost: {options}}}]\n", "utf-8")
    second = SECOND + "\n```moves\nid: told\nstart: x02010/--2-1- = Am7\nteaches: [mute]\nsteps:\n- hold\n```\n"
    for file, text in (("first.md", FIRST), ("second.md", second)):
        (tmp_path / "docs" / file).write_text(text, "utf-8")
    work, seen = CourseAtWork.of_folder(tmp_path / "mkdocs.yml", {}), list[tuple[str, ...]]()
    accepted = FIRST.replace(
        "```moves\nid: gauge", "<!-- accept used-before-taught: so it is -->\n\n```moves\nid: gauge"
    )
    for first in (
        FIRST.replace("teaches: [C, Cmaj7, Am7]", "teaches: [C]"),
        FIRST.replace("teaches: [C, Cmaj7, Am7]\n", ""),
        FIRST.replace("= C\nteaches", "= C6\nteaches"),
        FIRST.replace("id: more\nstart: previous", "id: more\nstart: x35555/-13333 = C6"),
        FIRST.replace("- 1 off = Cmaj7\n", "- 1 to E12, 2 to e1\n"),
        FIRST.replace("id: more", "id: told"),
        f"A line more.\n\n{FIRST}",
        accepted,
        accepted.replace("teaches: [C, Cmaj7, Am7]", "teaches: [C]"),
        FIRST,
    ):
        work.write("first.md", first)
        opened = {tmp_path / "docs" / "first.md": first}
        anew = check(CourseAtWork.of_folder(tmp_path / "mkdocs.yml", opened).sources, for_pages=False)
        assert work.checked().findings == anew.findings
        assert work.checked().accepted == anew.accepted
        assert work.checked().course == anew.course
        seen.append(tuple(str(one.code) for one in anew.findings if one.span.file == "second.md"))
    assert len(set(seen)) > 3


def test_untouched_it_says_what_the_check_says(course: Path) -> None:
    work = CourseAtWork.of_folder(course / "mkdocs.yml", {})
    assert work.checked().findings == check(load(course)).findings


def test_a_link_that_leads_out_is_not_followed_though_it_is_open(course: Path, tmp_path: Path) -> None:
    (tmp_path / "secret.md").write_text("`now: C`\n", "utf-8")
    link = course / "docs" / "link.md"
    link.symlink_to(tmp_path / "secret.md")
    try:
        work = CourseAtWork.of_folder(course / "mkdocs.yml", {link: "`now: C`\n"})
        assert "link.md" not in {page.file for page in work.sources.pages}
        assert "link-out-of-tree" in {str(found.code) for found in work.checked().findings}
    finally:
        link.unlink()


def test_the_way_to_a_file(tmp_path: Path) -> None:
    assert inside(tmp_path / "a" / "b.md", tmp_path) == "a/b.md"
    assert inside(tmp_path / "b.md", tmp_path / "a") is None
