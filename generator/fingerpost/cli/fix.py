"""Writing a course's safe fixes to its pages: each page is replaced whole or not at all, and never through a link."""

from __future__ import annotations

import os
import tempfile
from collections.abc import Iterator
from contextlib import suppress
from pathlib import Path

from fingerpost.cli.places import Places
from fingerpost.report.text import full_stop, place_of
from fingerpost.report.visible import visible
from fingerpost.workspace.fixing import Fixed, Rewritten


def write(fixed: Fixed) -> list[str]:
    """Writes every page that changes; what could not be written, a sentence each."""
    refused: list[str] = []
    for page in fixed.pages:
        try:
            replace(page)
        except OSError as problem:
            reason = (problem.strerror or str(problem)).lower()
            refused.append(f"{page.path} can't be written: {reason}; it was left as it is")
    return refused


def replace(page: Rewritten) -> None:
    """Puts a page's new bytes in its place at once, its permissions kept. Raises OSError, and then nothing is lost."""
    if page.path.is_symlink() or page.path.read_bytes() != page.before:
        raise OSError(None, "it has changed meanwhile")
    handle, name = tempfile.mkstemp(dir=page.path.parent, prefix=f".{page.path.name[:40]}.")
    try:
        with open(handle, "wb") as file:
            file.write(page.after)
            file.flush()
            os.fsync(file.fileno())
        os.chmod(name, os.stat(page.path).st_mode & 0o7777)
        os.replace(name, page.path)
    except BaseException:
        with suppress(OSError):
            Path(name).unlink()
        raise


def told(fixed: Fixed, places: Places) -> Iterator[str]:
    """What was done, a line a fix, and how much it was."""
    for finding in map(places.shown, fixed.made):
        yield f"{place_of(finding.span)}: fixed: {visible(full_stop(finding.message))} [{finding.code}]"
        if finding.fix:
            yield f"  now: {visible(finding.fix)}"
    for file, reason in sorted(fixed.untouched.items()):
        yield f"{visible(os.path.join(places.docs, file))}: left as it is: {reason}."
    count, pages = len(fixed.made), len(fixed.pages)
    if not count:
        yield "Nothing could be fixed safely."
        return
    yield f"Fixed {count} finding{'s' * (count != 1)} in {pages} page{'s' * (pages != 1)}."
