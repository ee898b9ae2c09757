"""The two courses that a review compares: where two branches parted, and at the head of one of them."""

from __future__ import annotations

import os
import posixpath
import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from pathlib import Path, PurePosixPath

from fingerpost.diagnostics import Diagnostic
from fingerpost.workspace.checked import Checked, check, moved
from fingerpost.workspace.commit_files import CommitFiles, commit_files
from fingerpost.workspace.course_folder import SETTINGS_NAMES, CourseSources, CourseUnreadableError, course_from
from fingerpost.workspace.git import Entry, Objects, Repository
from fingerpost.workspace.git_folder import GitError, git_folder

_RANGE = re.compile(r"(?P<base>(?!\.).+?)\.{2,3}(?P<head>(?!\.).*)", re.S)


@dataclass(frozen=True)
class CommitCourse:
    """The course of one commit: its id, what was read, and what was found; findings name files from the root.

    files: the other files of the sources, by path from their folder, with the ids of their objects.
    """

    commit: str
    sources: CourseSources
    checked: Checked
    findings: tuple[Diagnostic, ...]
    files: Mapping[str, str]

    @property
    def settings_file(self) -> str:
        """The path of mkdocs.yml from the repository's root."""
        return (self.sources.root / (self.sources.settings_name or "")).as_posix()

    @property
    def docs(self) -> str:
        """The folder of the sources, as a path from the repository's root; "" for the root itself."""
        path = PurePosixPath(self.sources.docs.as_posix()).as_posix()
        return "" if path == "." else path


@dataclass(frozen=True)
class BothSides:
    """The course before and after; base is the tip of the branch that the head is compared with."""

    base: str
    before: CommitCourse
    after: CommitCourse


def read_range(text: str) -> tuple[str, str]:
    """`main..topic` as base and head; the head may be left out. Raises GitError."""
    parts = _RANGE.fullmatch(text)
    if parts is None:
        example = f"`{text}..HEAD`" if text and ".." not in text else "`main..HEAD`"
        raise GitError(f"{text!r} is no range of commits", example)
    return parts["base"], parts["head"] or "HEAD"


def both_sides(folder: Path, commits: str) -> BothSides:
    """Reads both courses out of the repository around a folder. Raises GitError and CourseUnreadableError."""
    base, head = read_range(commits)
    where = git_folder(folder)
    repository = Repository(where)
    base_id, head_id = repository.commit(base), repository.commit(head)
    parting = repository.parting(base_id, head_id)
    inside = Path(folder).resolve().relative_to(where.root).parts
    with repository.objects() as objects:
        before = _course(repository, objects, parting, inside, f"{base} (where {head} parted from it)")
        after = _course(repository, objects, head_id, inside, head)
    return BothSides(base_id, before, after)


def _course(
    repository: Repository, objects: Objects, commit: str, inside: tuple[str, ...], called: str
) -> CommitCourse:
    entries = tuple(repository.entries(commit))
    folder, name = _settings_place(entries, inside, called)
    files = commit_files(objects, entries, folder)
    sources = course_from(files, name, Path(folder))
    _refuse_unreadable(sources, called)
    checked = check(sources)
    findings = tuple(_from_root(finding, sources) for finding in checked.findings)
    return CommitCourse(commit, sources, checked, findings, _beside_pages(files, sources))


def _beside_pages(files: CommitFiles, sources: CourseSources) -> dict[str, str]:
    docs = sources.docs.relative_to(sources.root).as_posix()
    pages = {page.file for page in sources.pages}
    return {file: files.blobs[posixpath.normpath(posixpath.join(docs, file))] for file in sources.files - pages}


def _settings_place(entries: Iterable[Entry], inside: tuple[str, ...], called: str) -> tuple[str, str]:
    """The folder that holds mkdocs.yml, looked for upwards from where the command runs, and the file's name."""
    names = {entry.name for entry in entries}
    for depth in range(len(inside), -1, -1):
        for name in SETTINGS_NAMES:
            if os.fsencode("/".join([*inside[:depth], name])) in names:
                return "/".join(inside[:depth]), name
    raise CourseUnreadableError(
        f"At {called} there is no mkdocs.yml in this folder, so there is no course to compare",
        "`--course DIR` names the folder of the course in both commits",
    )


def _refuse_unreadable(sources: CourseSources, called: str) -> None:
    """Says why where one side is no course; compared with nothing, everything would seem changed."""
    if not sources.readable:
        found = sources.findings[0]
        raise CourseUnreadableError(f"At {called} the course can't be read: {found.message}", found.fix)
    zeros = (page.file for page in sources.pages if "\0" in page.text)
    binary = next(iter((*sources.no_text, *zeros)), None)
    if binary is not None:
        raise CourseUnreadableError(
            f"At {called} the page {binary!r} is no text: it holds zero bytes",
            "take the file out, or give it the ending of its kind",
        )


def _from_root(finding: Diagnostic, sources: CourseSources) -> Diagnostic:
    folder = sources.root if finding.span.file == sources.settings_name else sources.docs
    path = folder.as_posix()
    return moved(finding, "" if path == "." else path)
