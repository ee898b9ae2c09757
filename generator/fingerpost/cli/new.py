"""Makes a small course that works: settings, three lessons, what comes next, and workflows that check and review."""

from __future__ import annotations

import argparse
from collections.abc import Iterator
from importlib import resources
from importlib.resources.abc import Traversable
from pathlib import Path

from fingerpost.cli.answer import FINE, WRONG_USAGE, complain

NAME = "new"
SUMMARY = "a small course that works, to start from"
EXAMPLES = """\
DIR must not exist yet, or be empty: nothing of yours is ever overwritten.

examples:
  fingerpost new my-course
  cd my-course && mkdocs serve"""

NEXT = """\
{folder} holds a course of three lessons. Next:

  cd {folder}
  mkdocs serve            see it in your browser while you write in course/
  fingerpost check        find every problem at once
  mkdocs build --strict   make the folder site/, for any web host

README.md there says more."""

_IGNORED = "# What the build makes, and an environment to build it in.\n/site/\n/.venv/\n__pycache__/\n"


WORKFLOWS = ".github/workflows/"


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Adds the arguments of `new`."""
    parser.add_argument("dir", metavar="DIR", help="the folder to make")


def run(args: argparse.Namespace) -> int:
    """Writes the course; the exit code is 2 if the folder is in use or can't be written."""
    folder = Path(args.dir)
    try:
        if folder.exists() and (not folder.is_dir() or any(folder.iterdir())):
            complain(f"{folder} is there already and not empty; it was left as it is", "a name that is not in use")
            return WRONG_USAGE
        for path, text in course_files():
            target = folder / path
            target.parent.mkdir(parents=True, exist_ok=True)
            with target.open("x", encoding="utf-8", newline="\n") as file:
                file.write(text)
    except OSError as problem:
        complain(f"{folder} can't be written: {(problem.strerror or str(problem)).lower()}", "another folder")
        return WRONG_USAGE
    print(NEXT.format(folder=folder))
    return FINE


def course_files() -> Iterator[tuple[str, str]]:
    """Each file of the new course: its path and its text."""
    ours = resources.files("fingerpost.cli")
    yield from _texts(ours / "new_course", "")
    yield from _texts(ours / "new_workflows", WORKFLOWS)
    yield ".gitignore", _IGNORED


def _texts(folder: Traversable, prefix: str) -> Iterator[tuple[str, str]]:
    for entry in sorted(folder.iterdir(), key=lambda entry: entry.name):
        if entry.is_dir():
            yield from _texts(entry, f"{prefix}{entry.name}/")
        else:
            yield prefix + entry.name, entry.read_text(encoding="utf-8")
