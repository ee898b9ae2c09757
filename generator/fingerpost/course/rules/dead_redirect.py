"""A redirect that leads nowhere, or need not be.

An address stands in videos, in print and in bookmarks long after a page is renamed. A line of `redirects` keeps it
leading on: in one step, to a page that is there.

    redirects:
      gate.md: the-gaet.md          no such page
      door.md: gate.md              a redirect again: lead straight to where that one leads
      the-gate.md: fog.md           this page is there, so its address is its own

Write the old page on the left, as its file was called, and the page that is there now on the right, perhaps with the
anchor of a heading, a block or a step.
"""

from __future__ import annotations

import posixpath
from collections.abc import Callable, Iterator, Mapping
from urllib.parse import unquote

from fingerpost.course.option_values import nearest
from fingerpost.course.rules.dead_link import PRACTISE, TOP, Targets, nearest_file, parted, to_practise
from fingerpost.course.rules.explanation import Explanation
from fingerpost.course.slip import error, warning
from fingerpost.course.words import quoted
from fingerpost.diagnostics import Code, Diagnostic, Span


def dead_redirects(targets: Targets, place: Callable[[str], Span]) -> Iterator[Diagnostic]:
    """A finding for each redirect that does not do. place: where the redirect of an old page is written."""
    for old, new in targets.redirects.items():
        span = place(old)
        if old in targets.files:
            message = f"There is a page {quoted(old)}, so its address can't lead to another"
            yield error(span, Code.DEAD_REDIRECT, message, "a page that is gone", "take the redirect out")
        elif page_of(new) in targets.redirects and page_of(new) not in targets.files:
            yield _chained(old, new, targets, span)
        else:
            yield from _dead(old, new, targets, span)


def page_of(new: str) -> str:
    """The page that a redirect leads to, without its anchor."""
    return posixpath.normpath(parted(new)[0])


def final(old: str, redirects: Mapping[str, str]) -> str:
    """Where an old page leads to in the end; "" where it never ends."""
    seen, new = {old}, redirects[old]
    while (page := page_of(new)) in redirects:
        if page in seen:
            return ""
        seen.add(page)
        new = redirects[page]
    return new


def _chained(old: str, new: str, targets: Targets, span: Span) -> Diagnostic:
    end = final(old, {gone: to for gone, to in targets.redirects.items() if gone not in targets.files})
    if not end:
        message = f"The redirect of {quoted(old)} comes back to itself"
        return error(span, Code.DEAD_REDIRECT, message, "a page of the course")
    message = f"{quoted(old)} leads to {quoted(page_of(new))}, which is a redirect itself"
    return warning(span, Code.DEAD_REDIRECT, message, "the page where the way ends", f"{old}: {end}")


def _dead(old: str, new: str, targets: Targets, span: Span) -> Iterator[Diagnostic]:
    page, anchor = page_of(new), parted(new)[1]
    if page not in targets.files:
        near = nearest_file(page, targets.files)
        message = f"{quoted(old)} leads to {quoted(page)}, which is no page of the course"
        yield error(span, Code.DEAD_REDIRECT, message, "a page of the course", f"{old}: {near}" if near else "")
        return
    anchors = targets.anchors(page)
    if anchors is None or anchor in TOP:
        return
    asked = [unquote(one) for one in to_practise(new)]
    there, named = (targets.steps(page), asked) if asked else (anchors, [anchor])
    if not there.issuperset(named):
        meant = [one if one in there else nearest(one, sorted(there)) for one in named]
        message = f"{quoted(old)} leads to {quoted('#' + anchor)}, which is not on {quoted(page)}"
        expected = "the ids of one or two steps" if asked else "the anchor of a heading, or the id of a block or a step"
        fix = f"{old}: {page}#{PRACTISE * bool(asked)}{','.join(meant)}" if all(meant) else ""
        yield error(span, Code.DEAD_REDIRECT, message, expected, fix)


REASONS = {
    Code.DEAD_REDIRECT: Explanation(
        "A redirect that leads nowhere, or need not be",
        "Old addresses in videos and bookmarks are to lead on: in one step, to a page that is there.",
        "redirects: {gate.md: the-gaet.md}",
        "redirects: {gate.md: the-gate.md}",
    ),
}
