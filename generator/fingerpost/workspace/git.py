"""Reading a repository's commits: the only place that runs git, with four commands that run nothing in turn.

`rev-parse`, `merge-base`, `ls-tree` and `cat-file` read objects and nothing else: no filter, hook, text conversion,
monitor or remote is asked, whatever the repository's own settings say. What is read is bounded.
"""

from __future__ import annotations

import os
import re
import shutil
import subprocess
from collections.abc import Iterator
from contextlib import ExitStack, contextmanager, suppress
from dataclasses import dataclass
from typing import IO

from fingerpost.workspace.files import TooLargeError
from fingerpost.workspace.git_folder import GitError, GitFolder

MOST_TREE_BYTES = 32_000_000
MOST_ENTRIES = 100_000
_CHUNK = 65_536
_WHOLE_CLONE = "a whole clone: `git fetch --refetch` where it was made with --filter, `git fsck` where it is damaged"
_OBJECT_ID = re.compile(r"[0-9a-f]{40}(?:[0-9a-f]{24})?")
_ENVIRONMENT = {
    "GIT_NO_LAZY_FETCH": "1",
    "GIT_ALLOW_PROTOCOL": "none",
    "GIT_CONFIG_NOSYSTEM": "1",
    "GIT_CONFIG_GLOBAL": os.devnull,
    "GIT_NO_REPLACE_OBJECTS": "1",
    "GIT_OPTIONAL_LOCKS": "0",
    "LC_ALL": "C",
}


@dataclass(frozen=True, slots=True)
class Entry:
    """One entry of a commit's tree: its mode as git writes it (`100644`), the id of its object, its name as bytes."""

    mode: str
    object_id: str
    name: bytes


@dataclass(frozen=True)
class Repository:
    """A repository on the disk."""

    folder: GitFolder

    def commit(self, revision: str) -> str:
        """The id of the commit that a revision means. Raises GitError where there is none."""
        if not revision or any(ord(char) < 32 or char == "\x7f" for char in revision):
            raise GitError("A commit has a name without line ends and other control characters", "main..HEAD")
        found = self._line("rev-parse", "--verify", "--end-of-options", f"{revision}^{{commit}}")
        if not _OBJECT_ID.fullmatch(found):
            raise GitError(f"This repository has no commit called {revision!r}", self._where_commits_are())
        return found

    def parting(self, base: str, head: str) -> str:
        """The commit from which two commits parted, all by their ids. Raises GitError where they share none."""
        found = self._line("merge-base", base, head)
        if not _OBJECT_ID.fullmatch(found):
            if self.folder.shallow:
                message = "The commit where the branches parted is not in this clone, which is shallow"
                raise GitError(message, self._where_commits_are())
            raise GitError("The two branches have no commit in common", "two branches of one history")
        return found

    def entries(self, commit: str) -> Iterator[Entry]:
        """Every file, link and submodule of a commit, by its id. Raises GitError beyond all bounds."""
        with self.running("ls-tree", "-rz", commit) as process:
            data = _read(process.stdout, MOST_TREE_BYTES + 1)
            if len(data) > MOST_TREE_BYTES or data.count(b"\0") > MOST_ENTRIES:
                raise GitError(
                    f"The commit {commit[:10]} holds more than {MOST_ENTRIES:,} files or names beyond all bounds",
                    "look at what the branch adds before you review it",
                )
            if process.wait() != 0:
                raise GitError(f"The files of the commit {commit[:10]} can't be listed", _WHOLE_CLONE)
        for line in data.split(b"\0"):
            head, found, name = line.partition(b"\t")
            if found:
                mode, _, object_id = head.decode("ascii").split(" ")
                yield Entry(mode, object_id, name)

    @contextmanager
    def objects(self) -> Iterator[Objects]:
        """A reader of objects; git runs as long as it is open."""
        with ExitStack() as stack:
            yield Objects(self, stack)

    def _line(self, *command: str) -> str:
        with self.running(*command) as process:
            return _read(process.stdout, 1000).decode("utf-8", "replace").strip()

    @contextmanager
    def running(self, *command: str, ask: bool = False) -> Iterator[subprocess.Popen[bytes]]:
        """A command of git while its output is read; afterwards it has ended, whatever it had still to say."""
        root = str(self.folder.root)
        settings = ("core.fsmonitor=false", f"core.hooksPath={os.devnull}", f"safe.directory={root}")
        arguments = [_program(), f"--git-dir={self.folder.entry}", *(part for s in settings for part in ("-c", s))]
        process = subprocess.Popen(
            [*arguments, *command],
            stdin=subprocess.PIPE if ask else subprocess.DEVNULL,
            stdout=subprocess.PIPE,
            stderr=subprocess.DEVNULL,
            cwd=root,
            env=_fresh(),
        )
        with process:
            try:
                yield process
            finally:
                process.kill()

    def _where_commits_are(self) -> str:
        if self.folder.shallow:
            return "`git fetch --unshallow`, or `git fetch --deepen=100`: this clone has only the newest commits"
        return "`git fetch`; `git branch --all` lists the branches there are"


@dataclass
class Objects:
    """Reads objects one after another from one running git, which a file beyond the bound makes start anew."""

    repository: Repository
    stack: ExitStack
    process: subprocess.Popen[bytes] | None = None

    def blob(self, object_id: str, most: int) -> bytes:
        """The bytes of a file by its object's id. Raises TooLargeError beyond `most` bytes, GitError if it is gone."""
        if self.process is None:
            self.process = self.stack.enter_context(self.repository.running("cat-file", "--batch", ask=True))
        asking, answer = self.process.stdin, self.process.stdout
        assert asking is not None
        assert answer is not None
        with suppress(OSError):  # It may have ended; that it says nothing then is noticed below.
            asking.write(f"{object_id}\n".encode("ascii"))
            asking.flush()
        head = answer.readline(200).split()
        size = int(head[2]) if len(head) == 3 and head[1] == b"blob" else -1
        if size > most:
            self.stack.close()
            self.process = None
            raise TooLargeError(size)
        data = _read(answer, size + 1)[:size]
        if size < 0 or len(data) != size:
            raise GitError(f"The object {object_id[:10]} can't be read in this clone", _WHOLE_CLONE)
        return data


def _read(stream: IO[bytes] | None, most: int) -> bytes:
    """Up to `most` bytes of what comes."""
    assert stream is not None
    parts: list[bytes] = []
    while most > 0 and (part := stream.read(min(_CHUNK, most))):
        parts.append(part)
        most -= len(part)
    return b"".join(parts)


def _program() -> str:
    """Where git is, looked for only in whole paths, never in the folder at hand."""
    found = shutil.which("git", path=_search_path())
    if found is None:
        raise GitError("git is not installed, or not on the search path", "install git")
    return found


def _search_path() -> str:
    return os.pathsep.join(part for part in os.environ.get("PATH", os.defpath).split(os.pathsep) if os.path.isabs(part))


def _fresh() -> dict[str, str]:
    """An environment without anything that could change what git does, but for what a system needs to run at all."""
    kept = {name: os.environ[name] for name in ("SYSTEMROOT",) if name in os.environ}
    return {**kept, "PATH": _search_path(), **_ENVIRONMENT}
