"""What the policy of the course's pages blocks.

A page of the course runs only its own scripts and shows only its own files, so that a student's tap reaches nobody else
and no text that was slipped in can act. What asks for more is shown as a gap, or does nothing, without a word.

    ![the hand](https://host.example/hand.png)      [more](javascript:show())      <script>show()</script>

Put the picture among the files of the course. Links to other sites are welcome: they are followed only when tapped.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from fingerpost.course.rules.explanation import Explanation
from fingerpost.course.slip import error
from fingerpost.course.words import quoted
from fingerpost.diagnostics import Code, Diagnostic
from fingerpost.source.page import PageRead
from fingerpost.source.syntax import Token
from fingerpost.source.tags import Tag

ELSEWHERE = re.compile(r"[A-Za-z][A-Za-z0-9+.-]*:|//")
SCRIPT = re.compile(r"\s*(?:javascript|vbscript|data):", re.IGNORECASE)
LOADED = {"img": "picture", "video": "film", "audio": "sound", "source": "recording", "track": "caption"}
FRAMES = frozenset(("iframe", "embed", "object"))
A_FILE, AN_ADDRESS = "a file of the course", "a page of the course, or an address that begins with `https:`"


def blocked_by_policy(page: PageRead) -> Iterator[Diagnostic]:
    """A finding for each picture, link and tag of the prose that the policy blocks, at its target."""
    for link in page.links:
        if link.image and ELSEWHERE.match(link.target.text):
            yield _from_elsewhere(link.target, "picture")
        elif not link.image and SCRIPT.match(link.target.text):
            yield _script_address(link.target)
    for tag in page.tags:
        yield from _of_tag(tag)


def _of_tag(tag: Tag) -> Iterator[Diagnostic]:
    elsewhere = tag.target is not None and ELSEWHERE.match(tag.target.text)
    if tag.name == "a" and tag.target is not None and SCRIPT.match(tag.target.text):
        yield _script_address(tag.target)
    elif tag.name in LOADED and tag.target is not None and elsewhere:
        yield _from_elsewhere(tag.target, LOADED[tag.name])
    elif tag.name in FRAMES:
        message = f"The policy of the course's pages blocks `{tag.mark.text}>`, so a gap is shown in its place"
        yield _blocked(tag.mark, message, "a link to what it would show")
    elif tag.name == "script" and not tag.inert and (tag.target is None or elsewhere):
        message = "The policy of the course's pages blocks this script, so it is never run"
        yield _blocked(tag.target or tag.mark, message, "no script in a page")


def _from_elsewhere(target: Token, what: str) -> Diagnostic:
    message = f"The policy of the course's pages blocks a {what} from elsewhere, so a gap is shown in its place"
    return _blocked(target, message, A_FILE, "put the file into the course")


def _script_address(target: Token) -> Diagnostic:
    message = f"The policy of the course's pages blocks {quoted(target.text)}, so nothing happens when it is tapped"
    return _blocked(target, message, AN_ADDRESS)


def _blocked(at: Token, message: str, expected: str, fix: str = "") -> Diagnostic:
    return error(at.span, Code.BLOCKED_BY_POLICY, message, expected, fix)


REASONS = {
    Code.BLOCKED_BY_POLICY: Explanation(
        "Something that the policy of the pages blocks",
        "A page runs only its own scripts and shows only its own files; a student would see a gap, or tap in vain.",
        "![The hand](https://host.example/hand.png)",
        "![The hand](hand.png)",
    ),
}
