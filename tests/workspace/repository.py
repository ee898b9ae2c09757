"""A small course in a git repository of its own, made by a test and changed by it."""

from __future__ import annotations

import os
import subprocess
from dataclasses import dataclass
from pathlib import Path

SETTINGS = "site_name: Between Readings\nplugins: [fingerpost]\n"
BLOCK = """\
```moves
id: kettle
title: While it boils
start: 3 A3, 2 D2, 1 B1, strum A-e = C
teaches: [C, Cmaj7, Am]
steps:
- 1 off = Cmaj7 @0:10
- 1 to B1 = C
- move: hold
  say: Listen to the wind.
- 3 to G2 = Am
```
"""
PAGE = f"# The kettle\n\nThe water is on.\n\n{BLOCK}\nIt boils.\n"
GATE = """\
# The gate

```moves
id: gate
start: 2 D2, 3 G2, 1 B1, strum A-e = Am
steps:
- 1 off = Asus2
- 1 to B1 = Am
```
"""


@dataclass(frozen=True)
class Repo:
    """A repository in a folder; commits have a fixed author and date, so that ids are the same in every run."""

    folder: Path

    @classmethod
    def new(cls, folder: Path) -> Repo:
        """A repository with a course of two pages on `main`, and the branch `topic` to change it on."""
        folder.mkdir(parents=True)
        repo = cls(folder)
        repo.write("mkdocs.yml", SETTINGS)
        repo.write("docs/kettle.md", PAGE)
        repo.write("docs/gate.md", GATE)
        repo.begin("main", "topic")
        return repo

    def begin(self, main: str, topic: str) -> None:
        """Makes a repository of what lies in the folder, and a branch to change it on."""
        self.git("init", "-q", "-b", main)
        self.commit()
        self.git("checkout", "-q", "-b", topic)

    def git(self, *arguments: str, data: bytes | None = None) -> str:
        """What a command of git prints; the machine's own settings play no part."""
        fixed = {"GIT_CONFIG_GLOBAL": os.devnull, "GIT_CONFIG_NOSYSTEM": "1"}
        for who in ("AUTHOR", "COMMITTER"):
            fixed |= {f"GIT_{who}_NAME": "Ansa", f"GIT_{who}_EMAIL": "ansa@example.org"}
            fixed |= {f"GIT_{who}_DATE": "2026-01-01T07:00:00Z"}
        kept = {name: value for name, value in os.environ.items() if not name.startswith("GIT_")}
        done = subprocess.run(
            ["git", *arguments], cwd=self.folder, env={**kept, **fixed}, input=data, capture_output=True, check=False
        )
        assert done.returncode == 0, (arguments, done.stderr)
        return done.stdout.decode(errors="replace").strip()

    def write(self, path: str, content: str | bytes) -> None:
        """Writes a file of the working copy."""
        file = self.folder / path
        file.parent.mkdir(parents=True, exist_ok=True)
        file.write_bytes(content if isinstance(content, bytes) else content.encode())

    def commit(self) -> str:
        """Commits everything that lies there; the commit's id."""
        self.git("add", "-A")
        self.git("commit", "-q", "--no-verify", "--allow-empty", "-m", "a change")
        return self.git("rev-parse", "HEAD")

    def commit_tree(self, entries: dict[bytes, tuple[str, str]]) -> str:
        """Commits on `topic` what no working copy need be able to hold: (mode, object id) by name."""
        index = b"".join(f"{mode} {ident}\t".encode() + name + b"\0" for name, (mode, ident) in entries.items())
        self.git("update-index", "-z", "--index-info", data=index)
        commit = self.git("commit-tree", self.git("write-tree"), "-p", "HEAD", "-m", "odd names")
        self.git("update-ref", "refs/heads/topic", commit)
        return commit

    def blob(self, content: bytes) -> str:
        """The id of a new object with this content."""
        return self.git("hash-object", "-w", "--stdin", data=content)
