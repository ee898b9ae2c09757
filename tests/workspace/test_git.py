"""Commits read without a checkout: what is asked of git, what is read, and what is said where it can't be."""

from __future__ import annotations

import json
import os
import shutil
import sys
from pathlib import Path

import pytest
from fingerpost.workspace.both_sides import both_sides, read_range
from fingerpost.workspace.commit_files import commit_files
from fingerpost.workspace.course_folder import CourseUnreadableError, load
from fingerpost.workspace.files import TooLargeError
from fingerpost.workspace.git import Repository
from fingerpost.workspace.git_folder import GitError, git_folder

from .repository import GATE, PAGE, Repo


@pytest.fixture
def repo(tmp_path: Path) -> Repo:
    return Repo.new(tmp_path / "course")


def opened(repo: Repo) -> Repository:
    return Repository(git_folder(repo.folder))


@pytest.mark.parametrize(
    ("text", "read"),
    [
        ("main..topic", ("main", "topic")),
        ("main...topic", ("main", "topic")),
        ("main..", ("main", "HEAD")),
        ("v1.0..v1.1", ("v1.0", "v1.1")),
        ("HEAD~2..HEAD^", ("HEAD~2", "HEAD^")),
    ],
)
def test_ranges(text: str, read: tuple[str, str]) -> None:
    assert read_range(text) == read


@pytest.mark.parametrize("text", ["main", "..topic", "", "..."])
def test_what_is_no_range_is_refused_with_one_that_is(text: str) -> None:
    with pytest.raises(GitError) as refusal:
        read_range(text)
    assert "..HEAD" in refusal.value.fix


def test_a_course_in_a_commit_is_read_as_it_is_on_the_disk(repo: Repo) -> None:
    repo.write("docs/sub/index.md", "# Sub\n")
    repo.write("docs/sub/a.md", "# A\n")
    repo.write("docs/README.md", "# R\n")
    repo.write("docs/picture.svg", "<svg/>")
    repo.commit()
    on_disk, committed = load(repo.folder), both_sides(repo.folder, "main..").after.sources
    assert [page.file for page in committed.pages] == [page.file for page in on_disk.pages]
    assert committed.files == on_disk.files
    assert (committed.options, committed.findings) == (on_disk.options, on_disk.findings)


def test_it_compares_from_where_the_branches_parted(repo: Repo) -> None:
    parted = repo.git("rev-parse", "main")
    repo.write("docs/kettle.md", PAGE.replace("boils", "sings"))
    repo.commit()
    repo.git("checkout", "-q", "main")
    repo.write("docs/gate.md", GATE.replace("The gate", "Another"))
    repo.commit()
    sides = both_sides(repo.folder, "main..topic")
    assert sides.before.commit == parted
    assert "Another" not in "".join(page.text for page in sides.before.sources.pages)


def test_it_is_found_from_a_folder_inside_and_in_a_folder_of_the_repository(repo: Repo) -> None:
    assert both_sides(repo.folder / "docs", "main..").after.docs == "docs"
    repo.git("checkout", "-q", "main")
    repo.folder.joinpath("inner").mkdir()
    repo.git("mv", "mkdocs.yml", "docs", "inner")
    repo.commit()
    repo.git("checkout", "-q", "-b", "inside")
    assert both_sides(repo.folder / "inner", "main..").after.docs == "inner/docs"


def test_only_four_commands_are_run_with_nothing_of_the_environment(repo: Repo, tmp_path: Path, monkeypatch) -> None:
    log, real = tmp_path / "log", shutil.which("git")
    shim = tmp_path / "bin" / "git"
    shim.parent.mkdir()
    shim.write_text(
        f"#!{sys.executable}\nimport json, os, sys\nwith open({str(log)!r}, 'a') as log:\n"
        "    print(json.dumps([sys.argv[1:], dict(os.environ)]), file=log)\n"
        f"os.execv({real!r}, [{real!r}, *sys.argv[1:]])\n"
    )
    shim.chmod(0o755)
    monkeypatch.setenv("PATH", f"{shim.parent}{os.pathsep}{os.environ['PATH']}")
    monkeypatch.setenv("GIT_DIR", "/nowhere")
    monkeypatch.setenv("GIT_EXTERNAL_DIFF", "touch /nowhere")
    monkeypatch.setenv("GIT_ALTERNATE_OBJECT_DIRECTORIES", "/nowhere")
    monkeypatch.setenv("GIT_CONFIG_COUNT", "1")
    both_sides(repo.folder, "main..topic")
    runs = [json.loads(line) for line in log.read_text().splitlines()]
    kept = {"core.fsmonitor=false", "core.hooksPath=/dev/null", f"safe.directory={repo.folder}"}
    for arguments, environment in runs:
        assert {arguments[i + 1] for i, word in enumerate(arguments) if word == "-c"} == kept
        git = {name: value for name, value in environment.items() if name.startswith("GIT_")}
        assert git == {
            "GIT_NO_LAZY_FETCH": "1",
            "GIT_ALLOW_PROTOCOL": "none",
            "GIT_CONFIG_NOSYSTEM": "1",
            "GIT_CONFIG_GLOBAL": "/dev/null",
            "GIT_NO_REPLACE_OBJECTS": "1",
            "GIT_OPTIONAL_LOCKS": "0",
        }
    commands = [arguments[arguments.index(next(a for a in arguments if a[0] not in "-csg" or a == "cat-file")) :]
                for arguments, _ in runs]  # fmt: skip
    assert [command[0] for command in commands] == ["rev-parse"] * 2 + ["merge-base"] + [
        "ls-tree",
        "cat-file",
        "ls-tree",
    ]
    assert commands[0] == ["rev-parse", "--verify", "--end-of-options", "main^{commit}"]
    assert commands[3][:2] == ["ls-tree", "-rz"]
    assert commands[4] == ["cat-file", "--batch"]


def test_a_program_called_git_in_the_folder_at_hand_is_not_run(repo: Repo, tmp_path: Path, monkeypatch) -> None:
    marker = tmp_path / "marker"
    repo.write("git", f"#!/bin/sh\ntouch {marker}\n")
    (repo.folder / "git").chmod(0o755)
    monkeypatch.chdir(repo.folder)
    monkeypatch.setenv("PATH", f".{os.pathsep}{os.pathsep}{os.environ['PATH']}")
    both_sides(Path(), "main..")
    assert not marker.exists()


def test_a_file_beyond_all_size_is_not_read_and_the_next_is(repo: Repo) -> None:
    large, small = repo.blob(b"x" * 100_000), repo.blob(b"small")
    with opened(repo).objects() as objects:
        with pytest.raises(TooLargeError) as refusal:
            objects.blob(large, 1000)
        assert refusal.value.size == 100_000
        assert objects.blob(small, 1000) == b"small"
        assert objects.blob(repo.blob(b""), 1000) == b""


def test_a_tree_that_grows_beyond_all_bounds_is_refused(repo: Repo) -> None:
    """Ten trees, each holding the one before ten times: a few hundred bytes that unfold to ten thousand million."""
    line = f"100644 blob {repo.blob(b'x')}\tf"
    for _ in range(10):
        tree = repo.git("mktree", data="".join(f"{line}{n}\n" for n in range(10)).encode())
        line = f"040000 tree {tree}\tf"
    commit = repo.git("commit-tree", tree, "-m", "bomb")
    with pytest.raises(GitError) as refusal:
        tuple(opened(repo).entries(commit))
    assert "beyond all bounds" in refusal.value.message


def test_links_and_submodules_are_named_and_never_followed(repo: Repo) -> None:
    link = repo.blob(b"kettle.md")
    commit = repo.commit_tree({
        b"docs/link.md": ("120000", link),
        b"docs/far": ("160000", repo.git("rev-parse", "HEAD")),
    })  # fmt: skip
    repository = opened(repo)
    with repository.objects() as objects:
        files = commit_files(objects, repository.entries(commit), "")
        tree = files.walk("docs")
        assert tree.unfollowed == (("far", "a submodule"), ("link.md", "a symbolic link"))
        assert "link.md" not in tree.files
        assert files.leads_out("docs/link.md")
        assert files.leads_out("docs/far/inside.md")
        with pytest.raises(FileNotFoundError):
            files.read("docs/link.md", 100)


@pytest.mark.parametrize("path", ["../x", "/etc/passwd", "docs/../../x", ".."])
def test_paths_that_leave_the_folder_lead_out(repo: Repo, path: str) -> None:
    repository = opened(repo)
    with repository.objects() as objects:
        files = commit_files(objects, repository.entries(repository.commit("main")), "")
        assert files.leads_out(path)
        assert not files.is_file(path)
        assert files.is_file("docs/../docs/gate.md")


def test_a_second_working_copy_serves(repo: Repo, tmp_path: Path) -> None:
    repo.git("worktree", "add", "-q", str(tmp_path / "second"), "main")
    sides = both_sides(tmp_path / "second", "main..topic")
    assert len(sides.after.sources.pages) == 2


def test_a_repository_without_a_commit_in_common(repo: Repo) -> None:
    repo.git("checkout", "-q", "--orphan", "alone")
    repo.write("docs/other.md", "# Other")
    repo.commit()
    with pytest.raises(GitError) as refusal:
        both_sides(repo.folder, "main..alone")
    assert "no commit in common" in refusal.value.message


def test_a_side_without_a_course_is_said(repo: Repo) -> None:
    repo.git("mv", "mkdocs.yml", "other.yml")
    repo.commit()
    with pytest.raises(CourseUnreadableError) as refusal:
        both_sides(repo.folder, "main..topic")
    assert refusal.value.message.startswith("At topic there is no mkdocs.yml")
