"""`fingerpost review` from outside: what it says of a change, its exit codes, and how far a hostile branch gets."""

from __future__ import annotations

import json
import os
import re
import shutil
import subprocess
import sys
from pathlib import Path

import pytest
from fingerpost.cli.main import main

from ..site.markup import read
from ..workspace.repository import PAGE, SETTINGS, Repo

FORMS = ("text", "markdown", "html", "json")


@pytest.fixture
def repo(tmp_path: Path) -> Repo:
    return Repo.new(tmp_path / "course")


def review(repo: Repo, capsys, commits: str = "main..topic", *more: str) -> tuple[int, str, str]:
    capsys.readouterr()
    code = main(["review", commits, "--course", str(repo.folder), *more])
    return code, *capsys.readouterr()


def in_every_form(repo: Repo, capsys) -> dict[str, str]:
    out = {}
    for form in FORMS:
        code, text, complaint = review(repo, capsys, "main..topic", "--format", form)
        assert code in (0, 1), complaint
        out[form] = text
    return out


def changed(repo: Repo, old: str, new: str) -> None:
    assert old in PAGE
    repo.write("docs/kettle.md", PAGE.replace(old, new))
    repo.commit()


def test_a_changed_step_is_told_in_music(repo: Repo, capsys) -> None:
    changed(repo, "- 1 to B1 = C\n", "- 4 to B3 = Cadd9\n")
    code, text, _ = review(repo, capsys)
    assert "  Step 3: C -> Cadd9; string 2: fret 1 -> fret 3; D instead of C" in text.splitlines()
    assert "Later steps whose hand or sound changes (2):" in text
    assert code in (0, 1)


def test_new_errors_make_the_exit_code_1_and_old_ones_do_not(repo: Repo, capsys) -> None:
    repo.git("checkout", "-q", "main")
    changed(repo, "= Am\n", "= F#m\n")
    repo.git("checkout", "-q", "-B", "topic")
    repo.write("docs/gate.md", "# The gate\n")
    repo.commit()
    assert review(repo, capsys)[0] == 0
    repo.write("docs/gate.md", "```moves\nid: new\nstart: open\nsteps:\n- 1 to Z1\n```\n")
    repo.commit()
    code, text, _ = review(repo, capsys)
    assert code == 1
    assert "New findings (1):" in text
    assert "docs/gate.md:5:8:" in text


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("- 1 off = Cmaj7 @0:10\n", "- move:   1 off\n  cue: 0:10\n  name: Cmaj7\n"),
        ("- 3 to G2 = Am", "- 3 to 3:2   = Am # round we go"),
        ("id: kettle\ntitle: While it boils\n", "# a comment\ntitle: While it boils\nid: kettle\n"),
        ("teaches: [C, Cmaj7, Am]", "teaches: [Am, C, Cmaj7]"),
        ("start: 3 A3, 2 D2, 1 B1, strum A-e = C", "start: 1 B1, 2 D2, 3 A3, strum A-e = C"),
        ("The water is on.", "The water is off."),
    ],
)
def test_what_is_only_written_otherwise_is_no_musical_change(repo: Repo, capsys, old: str, new: str) -> None:
    changed(repo, old, new)
    code, text, _ = review(repo, capsys)
    assert code == 0
    assert "No musical change." in text
    assert "Step " not in text
    assert "Unchanged: 2 of 2 pages, 2 of 2 blocks, 8 of 8 steps" in text


def test_a_page_with_another_name_and_its_redirect_are_reviewed(repo: Repo, capsys) -> None:
    repo.git("mv", "docs/kettle.md", "docs/pot.md")
    repo.write("mkdocs.yml", SETTINGS.replace("[fingerpost]", "[{fingerpost: {redirects: {kettle.md: pot.md}}}]"))
    repo.commit()
    forms = in_every_form(repo, capsys)
    assert "redirects: nothing -> kettle.md to pot.md" in forms["text"]
    assert "docs/kettle.md is now docs/pot.md; its old address leads to docs/pot.md" in forms["text"]


def test_a_block_that_can_be_read_on_neither_side_is_named(repo: Repo, capsys) -> None:
    repo.git("checkout", "-q", "main")
    changed(repo, "start: 3 A3, 2 D2, 1 B1, strum A-e = C", "start: as taught Ebm")
    repo.git("checkout", "-q", "-B", "topic")
    page = PAGE.replace("start: 3 A3, 2 D2, 1 B1, strum A-e = C", "start: as taught Ebm")
    repo.write("docs/kettle.md", page.replace("3 to G2 = Am", "2 off = B9"))
    repo.commit()
    forms = in_every_form(repo, capsys)
    for form, name in {"text": "kettle", "markdown": "`kettle`", "html": "<q>kettle</q>"}.items():
        assert "1 block can be read on neither side, and what changes there is not known." in forms[form]
        assert f"{name} has another text, and what that changes is not known" in forms[form]
    assert "1 of 2 pages, 1 of 2 blocks, 3 of 3 steps" in forms["text"]
    assert "the steps of 1 block can't be read" in forms["text"]
    (told,) = (thing for thing in map(json.loads, forms["json"].splitlines()) if thing["record"] == "unread")
    assert told == {"record": "unread", "file": "docs/kettle.md", "block": "kettle", "line": 5, "change": "changed"}


def test_steps_in_doubt_are_not_told_as_facts(repo: Repo, capsys) -> None:
    changed(repo, "- 1 to B1 = C\n", "- 1 to B31 = C\n")
    forms = in_every_form(repo, capsys)
    for form in ("text", "markdown", "html"):
        assert "3 steps not compared, in 1 block on 1 page." in forms[form]
        assert "steps from 3 on are not compared: errors leave them in doubt" in forms[form]


def test_a_capo_for_the_whole_course_is_told_once_and_what_it_does_to_each_block(repo: Repo, capsys) -> None:
    repo.write("mkdocs.yml", SETTINGS.replace("[fingerpost]", "[{fingerpost: {capo: 2}}]"))
    repo.commit()
    forms = in_every_form(repo, capsys)
    text = forms["text"]
    assert "8 steps sounding higher or lower, in 2 blocks on 2 pages. 1 setting of the course differs." in text
    assert text.count("capo: 0 -> 2\n") == 1
    said = "every shape keeps its fingers and sounds 2 semitones higher: Am sounds as Bm, not as Am"
    assert f"  docs/gate.md: gate; {said}\n" in text
    assert "Unchanged: 0 of 2 pages, 0 of 2 blocks, 0 of 8 steps, 0 of 4 chords" in text
    assert all("sounds 2 semitones higher" in forms[form] for form in ("markdown", "html"))
    (gate,) = (thing for thing in map(json.loads, forms["json"].splitlines()) if thing.get("block") == "gate")
    assert gate["retuned"] == {
        "semitones": 2, "strings": [], "example": {"symbol": "Am", "before": "Am", "after": "Bm"},
    }  # fmt: skip


def test_settings_that_only_draw_otherwise_change_no_step(repo: Repo, capsys) -> None:
    repo.write("mkdocs.yml", SETTINGS.replace("[fingerpost]", "[{fingerpost: {handed: left}}]"))
    repo.commit()
    text = review(repo, capsys)[1]
    assert "No step changed. 1 setting of the course differs.\n" in text
    assert "8 pictures to make again" in text
    assert "Unchanged: 2 of 2 pages, 2 of 2 blocks, 8 of 8 steps, 4 of 4 chords" in text


def test_words_of_a_page_are_told_beside_no_musical_change(repo: Repo, capsys) -> None:
    changed(repo, "The water is on.", "The water is <b onclick=x()>off</b>, see [here](javascript:alert(1)).")
    forms = in_every_form(repo, capsys)
    for form in ("text", "markdown", "html"):
        assert "No musical change. The words of 1 page changed." in forms[form]
        assert ": the words of the page changed; new: a link to " in forms[form]
    assert "docs/kettle.md: the words of the page changed" in forms["text"]
    assert "Pages with other words only" not in forms["text"], "it is named once"
    assert_harmless(forms)
    told = [json.loads(line) for line in forms["json"].splitlines()]
    assert {"record": "prose", "file": "docs/kettle.md", "links_new": ["javascript:alert(1)"], "images_new": [],
            "html_new": ["<b onclick=x()>", "</b>"]} in told  # fmt: skip
    assert {"record": "rewritten", "what": "kettle.md"} in told


def test_pages_full_of_links_leave_room_for_the_music_in_the_comment(repo: Repo, capsys) -> None:
    for number in range(20):
        repo.write(f"docs/p{number}.md", "# A page\n")
    repo.commit()
    repo.git("branch", "-f", "main", "topic")
    links = "".join(f"[x](https://evil.example/{'`' * 280}{n})\n" for n in range(300))
    for number in range(20):
        repo.write(f"docs/p{number}.md", f"# A page\n{links}")
    changed(repo, "- 1 to B1 = C\n", "- 4 to B3 = Cadd9\n")
    text = review(repo, capsys, "main..topic", "--format", "markdown")[1]
    assert len(text) < 60_000
    assert "Step 3: C -> Cadd9" in text
    assert "The words of 20 pages changed." in text
    assert "`docs/p0.md`: the words of the page changed; new: a link to" in text


def test_other_files_and_the_rest_of_mkdocs_yml_are_named(repo: Repo, capsys) -> None:
    repo.write("docs/images/lamp.svg", "<svg/>")
    repo.write("mkdocs.yml", SETTINGS + "hooks: [evil.py]\n")
    repo.commit()
    forms = in_every_form(repo, capsys)
    assert "No musical change. 2 other files differ." in forms["text"]
    assert "  mkdocs.yml differs\n  docs/images/lamp.svg is new\n" in forms["text"]
    told = [json.loads(line) for line in forms["json"].splitlines()]
    assert {"record": "file", "file": "docs/images/lamp.svg", "change": "new"} in told
    assert {"record": "file", "file": "mkdocs.yml", "change": "changed"} in told


def test_steps_that_change_places_are_said_to_be_elsewhere(repo: Repo, capsys) -> None:
    changed(
        repo, "- 1 off = Cmaj7 @0:10\n- 1 to B1 = C\n", "- 4 to B3\n- 4 off = C\n- 1 off = Cmaj7 @0:10\n- 1 to B1 = C\n"
    )
    repo.git("branch", "-f", "main", "topic")
    lines = "- 1 off = Cmaj7 @0:10\n- 1 to B1 = C\n- 4 to B3\n- 4 off = C\n"
    repo.write("docs/kettle.md", PAGE.replace("- 1 off = Cmaj7 @0:10\n- 1 to B1 = C\n", lines))
    repo.commit()
    forms = in_every_form(repo, capsys)
    assert "2 steps moved, in 1 block on 1 page." in forms["text"]
    assert "; at another place\n" in forms["text"]
    assert "new id" not in forms["text"]
    assert "<svg" not in forms["html"], "before and after would be the same picture"


def test_a_capo_for_one_block_is_told_in_it(repo: Repo, capsys) -> None:
    changed(repo, "title: While it boils\n", "title: While it boils\ncapo: 3\n")
    forms = in_every_form(repo, capsys)
    said = "every shape keeps its fingers and sounds 3 semitones higher: C sounds as Eb, not as C"
    assert f"  capo: 0 -> 3\n  {said}\n" in forms["text"]
    assert "<code>kettle</code>: no changed step, in <code>docs/kettle.md</code>" in forms["markdown"]
    assert "Unchanged: 1 of 2 pages, 1 of 2 blocks, 3 of 8 steps, " in forms["text"]


def test_one_file_is_written_and_only_where_it_is_asked_for(repo: Repo, capsys, tmp_path: Path) -> None:
    changed(repo, "= Cmaj7", "~ C6")
    before = sorted(tmp_path.rglob("*"))
    in_every_form(repo, capsys)
    assert sorted(tmp_path.rglob("*")) == before
    target = tmp_path / "review.html"
    _, printed, _ = review(repo, capsys, "main..", "--format", "html", "--out", str(target))
    assert printed == ""
    assert target.read_text(encoding="utf-8") == in_every_form(repo, capsys)["html"]
    assert review(repo, capsys, "main..", "--out", str(tmp_path / "no" / "where"))[0] == 2


def test_every_form_is_the_same_bytes_again(repo: Repo, capsys) -> None:
    changed(repo, "- 3 to G2 = Am", "- 3 to B3 = Cadd9")
    assert in_every_form(repo, capsys) == in_every_form(repo, capsys)


def test_a_block_that_can_no_longer_be_read_is_not_called_gone(repo: Repo, capsys) -> None:
    changed(repo, "start: 3 A3", "start: 3 Z3")
    code, text, _ = review(repo, capsys)
    assert code == 1
    assert "docs/kettle.md: kettle (While it boils) can no longer be read" in text
    repo.git("branch", "-f", "main", "topic")
    repo.write("docs/kettle.md", PAGE)
    repo.commit()
    code, text, _ = review(repo, capsys)
    assert code == 0
    assert "docs/kettle.md: kettle (While it boils) could not be read before" in text


def shallow(repo: Repo) -> Repo:
    for _ in range(3):
        repo.commit()
    clone = repo.folder.parent / "shallow"
    repo.git("clone", "-q", "--depth", "1", f"file://{repo.folder}", str(clone))
    return Repo(clone)


def none(repo: Repo) -> Repo:
    empty = repo.folder.parent / "empty"
    empty.mkdir()
    return Repo(empty)


def with_file(path: str | bytes, content: bytes):
    def make(repo: Repo) -> Repo:
        name = path.encode() if isinstance(path, str) else path
        repo.commit_tree({name: ("100644", repo.blob(content))})
        return repo

    return make


BAD = {
    "no repository": (none, "main..HEAD", "There is no git repository"),
    "no such base": (lambda repo: repo, "mian..topic", "no commit called 'mian'"),
    "no such head": (lambda repo: repo, "main..topik", "no commit called 'topik'"),
    "no range": (lambda repo: repo, "main", "no range of commits"),
    "control characters": (lambda repo: repo, "main\n..topic", "control characters"),
    "shallow": (shallow, "HEAD~2..HEAD", "git fetch --unshallow"),
    "a page that is no text": (with_file("docs/photo.md", b"\x89PNG\0\0"), "main..topic", "is no text"),
    "a name that is not UTF-8": (with_file(b"docs/caf\xe9.md", b"# x\n"), "main..topic", "not UTF-8"),
    "sources gone": (with_file("mkdocs.yml", b"docs_dir: elsewhere\n"), "main..topic", "elsewhere, does not exist"),
    "settings unreadable": (with_file("mkdocs.yml", b"a: [b\n"), "main..topic", "can't be read"),
    "settings too deep": (with_file("mkdocs.yml", b"[" * 5000), "main..topic", "can't be read"),
    "sources out of the tree": (with_file("mkdocs.yml", b"docs_dir: ../../etc\n"), "main..topic", "lies outside"),
}


@pytest.mark.parametrize(("make", "commits", "says"), BAD.values(), ids=BAD.keys())
def test_what_can_not_be_compared_is_one_sentence_and_nothing_is_written(
    repo: Repo, capsys, make, commits: str, says: str
) -> None:
    target = repo.folder.parent / "out.html"
    code, out, complaint = review(make(repo), capsys, commits, "--format", "html", "--out", str(target))
    assert (code, out) == (2, "")
    assert says in complaint
    assert complaint.count("\n") == 1
    assert "Try: " in complaint
    assert not target.exists()


def test_a_folder_of_sources_with_another_name_is_the_same_course(repo: Repo, capsys) -> None:
    repo.git("mv", "docs", "lessons")
    repo.write("mkdocs.yml", f"{SETTINGS}docs_dir: lessons\n")
    repo.commit()
    code, text, _ = review(repo, capsys)
    assert (code, "No musical change." in text) == (0, True)


def test_the_example_of_the_guide(tmp_path: Path, capsys) -> None:
    root = Path(__file__).resolve().parents[2]
    repo = Repo.new(tmp_path / "demo")
    shutil.rmtree(repo.folder / "docs")
    shutil.copytree(root / "course", repo.folder / "course")
    shutil.copy(root / "mkdocs.yml", repo.folder)
    repo.git("checkout", "-q", "main")
    repo.commit()
    repo.git("checkout", "-q", "-B", "topic")
    lesson = (root / "course" / "the-first-reading.md").read_text(encoding="utf-8")
    repo.write("course/the-first-reading.md", lesson.replace("4 to e3\n  name: Dsus4", "4 to e5\n  name: D5"))
    repo.commit()
    guide = (root / "course" / "teachers" / "reviewing.md").read_text(encoding="utf-8")
    (example,) = re.findall(r"^```text\n(.*?)^```", guide, re.M | re.S)
    text = review(repo, capsys, "main..")[1]
    assert text.partition(": ")[2].startswith(example)
    told = [json.loads(line) for line in review(repo, capsys, "main..", "--format", "json")[1].splitlines()]
    tables = dict(re.findall(r"^\| `(\w+)` \| (.*) \|$", guide.partition("## For programs")[2], re.M))
    for thing in told:
        missing = {key for key in thing if f"`{key}`" not in tables[thing["record"]]} - {"record"}
        assert thing["record"] == "finding" or not missing


def test_the_page_shows_the_changed_steps_before_and_after_and_no_others(repo: Repo, capsys) -> None:
    changed(repo, "- 1 to B1 = C\n", "- 4 to B3 = Cadd9\n")
    page = read(review(repo, capsys, "main..", "--format", "html")[1])
    assert len(page.all("svg")) == 2
    assert [caption.text for caption in page.all("figcaption")] == ["Before: C", "After: Cadd9"]
    policy = next(e for e in page.all("meta") if e.attributes.get("http-equiv") == "Content-Security-Policy")
    assert policy.attributes["content"].startswith("default-src 'none'; style-src 'sha256-")
    ids = [element.attributes["id"] for element in page.elements if "id" in element.attributes]
    assert len(ids) == len(set(ids))


# A hostile branch


RUNS = {
    "clean and smudge filters": ("filter.evil.smudge", "filter.evil.clean", "filter.evil.process"),
    "text conversion": ("diff.evil.textconv", "diff.evil.command", "diff.external"),
    "a monitor of files": ("core.fsmonitor",),
    "programs to talk with": ("core.sshCommand", "core.pager", "core.editor", "core.askPass", "pager.ls-tree"),
    "aliases": ("alias.cat-file", "alias.ls-tree", "alias.merge-base"),
}


@pytest.mark.parametrize("settings", RUNS.values(), ids=RUNS.keys())
def test_no_program_that_the_repository_names_is_run(repo: Repo, capsys, tmp_path: Path, settings) -> None:
    marker = tmp_path / "marker"
    changed(repo, "= Cmaj7", "~ C6")
    repo.git("checkout", "-q", "topic")
    repo.write(".gitattributes", "* filter=evil diff=evil merge=evil\n")
    repo.commit()
    for name in settings:
        repo.git("config", name, f"{'!' if name.startswith('alias') else ''}touch {marker}")
    in_every_form(repo, capsys)
    assert not marker.exists()


def test_no_hook_is_run(repo: Repo, capsys, tmp_path: Path) -> None:
    marker = tmp_path / "marker"
    hooks = repo.folder / "hooks"
    for name in ("post-checkout", "post-index-change", "reference-transaction", "fsmonitor-watchman"):
        repo.write(f"hooks/{name}", f"#!/bin/sh\ntouch {marker}\n")
        (hooks / name).chmod(0o755)
    repo.git("config", "core.hooksPath", str(hooks))
    in_every_form(repo, capsys)
    assert not marker.exists()


def test_a_partial_clone_asks_no_remote(repo: Repo, capsys, tmp_path: Path) -> None:
    marker = tmp_path / "marker"
    changed(repo, "= Cmaj7", "~ C6")
    ident = repo.git("rev-parse", "topic:docs/kettle.md")
    (repo.folder / ".git" / "objects" / ident[:2] / ident[2:]).unlink()
    for name, value in {
        "core.repositoryformatversion": "1",
        "extensions.partialClone": "origin",
        "remote.origin.promisor": "true",
        "remote.origin.url": f"ext::sh -c touch% {marker}",
        "remote.origin.uploadpack": f"touch {marker};",
        "protocol.ext.allow": "always",
    }.items():
        repo.git("config", name, value)
    code, out, complaint = review(repo, capsys)
    assert (code, out) == (2, "")
    assert "can't be read in this clone" in complaint
    assert not marker.exists()


def test_objects_that_lie_elsewhere_are_not_read(repo: Repo, capsys, tmp_path: Path) -> None:
    other = Repo.new(tmp_path / "other")
    (repo.folder / ".git" / "objects" / "info").mkdir(exist_ok=True)
    (repo.folder / ".git" / "objects" / "info" / "alternates").write_text(f"{other.folder}/.git/objects\n")
    code, _, complaint = review(repo, capsys)
    assert code == 2
    assert "borrows objects" in complaint


def test_replaced_objects_are_not_what_is_reviewed(repo: Repo, capsys) -> None:
    changed(repo, "= Cmaj7", "~ C6")
    honest = review(repo, capsys)
    repo.git("replace", repo.git("rev-parse", "topic:docs/kettle.md"), repo.git("rev-parse", "main:docs/kettle.md"))
    assert review(repo, capsys) == honest
    assert "C6" in honest[1]


@pytest.mark.parametrize("name", ["GIT_DIR", "GIT_OBJECT_DIRECTORY", "GIT_NAMESPACE", "GIT_EXEC_PATH", "GIT_TRACE"])
def test_variables_of_the_environment_change_nothing(repo: Repo, capsys, tmp_path: Path, monkeypatch, name) -> None:
    changed(repo, "= Cmaj7", "~ C6")
    honest = review(repo, capsys)
    monkeypatch.setenv(name, str(tmp_path / "elsewhere"))
    assert review(repo, capsys) == honest
    assert not (tmp_path / "elsewhere").exists()


SETTINGS_THAT_RUN = {
    "tags": "extra: !!python/object/apply:os.system ['touch MARKER']\nx: !!python/name:evil.run ''\n",
    "hooks": "hooks: [evil.py]\n",
    "plugins of the branch": "plugins: [evil, fingerpost, {evil2: {run: yes}}]\nmarkdown_extensions: [evil]\n",
    "a theme of the branch": "theme: {name: null, custom_dir: evil}\n",
}


@pytest.mark.parametrize("settings", SETTINGS_THAT_RUN.values(), ids=SETTINGS_THAT_RUN.keys())
def test_settings_of_the_branch_run_nothing(repo: Repo, capsys, tmp_path: Path, monkeypatch, settings: str) -> None:
    marker = tmp_path / "marker"
    for name in ("evil.py", "evil2.py", "sitecustomize.py", "evil/__init__.py", "yaml.py"):
        repo.write(name, f"import os\nos.system('touch {marker}')\n")
    text = settings if "plugins" in settings else f"plugins: [fingerpost]\n{settings}"
    repo.write("mkdocs.yml", f"site_name: x\n{text}".replace("MARKER", str(marker)))
    repo.commit()
    done = subprocess.run(
        [str(Path(sys.executable).with_name("fingerpost")), "review", "main..topic"],
        cwd=repo.folder,
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == 0, done.stderr
    assert not marker.exists()


def test_a_bomb_of_aliases_is_refused_at_once(repo: Repo, capsys) -> None:
    lines = ["a0: &a0 [x, x, x, x, x, x, x, x, x]"]
    lines += [f"a{n}: &a{n} [{', '.join([f'*a{n - 1}'] * 9)}]" for n in range(1, 10)]
    repo.write("mkdocs.yml", "\n".join(lines))
    repo.commit()
    code, _, complaint = review(repo, capsys)
    assert code == 2
    assert "aliases" in complaint


@pytest.mark.parametrize("target", [b"/etc/passwd", b"../../secret.md", b"kettle.md"])
def test_a_link_is_a_finding_and_is_not_followed(repo: Repo, capsys, target: bytes) -> None:
    (repo.folder.parent / "secret.md").write_text("# Top secret\n")
    repo.commit_tree({b"docs/odd.md": ("120000", repo.blob(target))})
    code, text, _ = review(repo, capsys)
    assert code == 1
    assert "docs/odd.md:1:1: odd.md is a symbolic link, which is not followed" in text
    assert not any(word in form for form in in_every_form(repo, capsys).values() for word in ("secret", "root:"))


def test_a_submodule_is_a_finding_and_is_not_followed(repo: Repo, capsys) -> None:
    repo.write(".gitmodules", '[submodule "far"]\npath = docs/far\nurl = ext::sh -c "touch /tmp/no"\n')
    repo.commit()
    repo.commit_tree({b"docs/far": ("160000", repo.git("rev-parse", "HEAD"))})
    code, text, _ = review(repo, capsys)
    assert code == 1
    assert "far is a submodule" in text


@pytest.mark.parametrize(
    "name", ["-rf.md", "--out=x.md", "a\nb.md", "\x1b[31mred.md", "<b>x.md", "`@all`.md", "\u202ex.md"]
)
def test_odd_names_are_shown_and_not_obeyed(repo: Repo, capsys, name: str) -> None:
    page = PAGE.replace("id: kettle", "id: odd")
    repo.commit_tree({b"docs/" + name.encode(): ("100644", repo.blob(page.encode()))})
    forms = in_every_form(repo, capsys)
    assert "odd" in forms["text"]
    assert_harmless(forms)
    assert json.loads(forms["json"].splitlines()[1])["after"] == f"docs/{name}"


HOSTILE = (
    "\x1b[31mred\x1b[0m \x07\x9b",
    "\u202egnihton\u200b\u2066",
    '"><script>alert(1)</script>',
    "<svg onload=alert(1)><img src=x onerror=alert(1)>",
    "</details></summary></code>",
    "`` ` ``` <b>out</b> ` @everyone #12 GH-12",
    "[x](javascript:alert(1)) ![x](https://example.org/x.png) https://example.org www.example.org a@example.org",
    "::error file=a::b %0A::set-output name=x::y",
    "<!-- x --> &lt;b&gt; ]]>",
    "*a* _b_ ~~c~~ | d | \\",
)
FIELDS = {
    "say": "id: new\nstart: open\nsteps:\n- move: hold\n  say: {x}\n",
    "title": "id: new\ntitle: {x}\nstart: open\nsteps:\n- hold\n",
    "id": "id: {x}\nstart: open\nsteps:\n- hold\n",
    "step id": "id: new\nstart: open\nsteps:\n- move: hold\n  id: {x}\n",
    "move": "id: new\nstart: open\nsteps:\n- {x}\n",
    "start": "id: new\nstart: {x}\nsteps:\n- hold\n",
    "teaches": "id: new\nstart: open\nteaches: [{x}]\nsteps:\n- hold\n",
    "tuning": "id: new\ntuning: {x}\nstart: open\nsteps:\n- hold\n",
    "cue": "id: new\nstart: open\nsteps:\n- move: hold\n  cue: {x}\n",
    "beats": "id: new\nstart: open\nsteps:\n- move: hold\n  beats: {x}\n",
    "strokes": "id: new\nstart: open\nsteps:\n- move: hold\n  pattern: {x}\n",
    "image": "id: new\nstart: open\nsteps:\n- move: hold\n  image: {x} {x}\n",
    "key": "id: new\n{x}: y\nstart: open\nsteps:\n- hold\n",
}


def assert_harmless(forms: dict[str, str]) -> None:
    for form, text in forms.items():
        controls = {char for char in text if not char.isprintable() and char != "\n"}
        assert not controls, (form, controls)
    page = read(forms["html"])
    assert page.faults == []
    names = {element.name for element in page.elements}
    assert not names & {"script", "img", "a", "iframe", "b", "object", "form", "link"}
    attributes = {key for element in page.elements for key in element.attributes}
    assert not {key for key in attributes if key.startswith("on") or key in ("href", "src", "style")}
    assert_inert(forms["markdown"])
    for line in forms["json"].splitlines():
        json.loads(line)
    assert not any(line.lstrip().startswith("::") for line in forms["text"].splitlines())


def assert_inert(markdown: str) -> None:
    """As CommonMark reads it: no link, image or foreign element, and nothing a host would act on outside code."""
    from markdown_it import MarkdownIt

    tokens = MarkdownIt("commonmark").parse(markdown)
    inline = [child for token in tokens for child in token.children or ()]
    assert not [t for t in inline if t.type in ("link_open", "image", "html_inline", "em_open")]
    assert len([t for t in inline if t.type == "strong_open"]) == 1
    for token in tokens:
        if token.type == "html_block":
            left = re.sub(r"</?(details|summary)>|<code>[^<>]*</code>", "", token.content)
            assert "<" not in left, token.content
    words = " ".join(child.content for child in inline if child.type == "text")
    assert not re.search(r"[@<`]|https?:|www\.|#\d|GH-\d|\]\(", words), words


@pytest.mark.parametrize("field", FIELDS)
def test_nothing_of_a_text_comes_through_that_could_act(repo: Repo, capsys, field: str) -> None:
    blocks = [f"```moves\n{FIELDS[field].format(x=hostile)}```\n" for hostile in HOSTILE]
    blocks = [block.replace("id: new\n", f"id: new-{number}\n") for number, block in enumerate(blocks)]
    repo.write("docs/gate.md", f"# {HOSTILE[2]}\n\n" + "\n".join(blocks))
    repo.commit()
    forms = in_every_form(repo, capsys)
    assert "docs/gate.md" in forms["text"]
    assert_harmless(forms)


def test_what_the_command_complains_of_is_harmless_too(repo: Repo, capsys) -> None:
    repo.write("mkdocs.yml", 'site_name: x\ndocs_dir: "\\e[31mred"\n')
    repo.commit()
    code, _, complaint = review(repo, capsys)
    assert code == 2
    assert "\x1b" not in complaint
    assert "red" in complaint


def test_the_comment_stays_below_what_hosts_take(repo: Repo, capsys) -> None:
    steps = "".join(f"- move: hold\n  say: {'tide ' * 200}\n" for _ in range(40))
    pages = {f"docs/p{n}.md": f"```moves\nid: long-{n}\nstart: open\nsteps:\n{steps}```\n" for n in range(30)}
    for path, text in pages.items():
        repo.write(path, text)
    repo.commit()
    repo.git("checkout", "-q", "-B", "main")
    repo.git("checkout", "-q", "-B", "topic")
    for path, text in pages.items():
        repo.write(path, text.replace("tide", "ebb"))
    repo.commit()
    code, text, _ = review(repo, capsys, "main..", "--format", "markdown")
    assert code == 0
    assert 30_000 < len(text) < 60_000
    assert re.search(r"\d+ more parts? left out here", text)
    assert text.count("<details>") == text.count("</details>")
    assert text.rstrip().splitlines()[-1].startswith("Unchanged: ")
    assert os.linesep == "\n"
