"""An id that an author gave to a step, and that nothing in the course refers to.

A block must have an id, and a step without one gets one of its own from the change of shape. That one is the better of
the two: progress, takes and links hang on it as well, and it changes with the shape, so a student is told
that the step is another. An id by hand gives that up, to be referred to: by a mention, by a link, by `after`, or by a
redirect. Where nothing does, it was left behind, or the mention names something else.

    - move: 1 to B1
      id: the-easy-one          and nowhere    `step: several the-easy-one`

Refer to it, or leave it out. Where something outside of the course does, say so in an acceptance. Ids of blocks and of
headings are never told: a block must have one, and a heading's comes with its words.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from urllib.parse import unquote

from fingerpost.course.model import Course
from fingerpost.course.rules.dead_link import to_practise
from fingerpost.course.rules.explanation import Explanation
from fingerpost.course.slip import note
from fingerpost.course.words import quoted
from fingerpost.diagnostics import Code, Diagnostic
from fingerpost.source.page import PageRead
from fingerpost.source.syntax import AfterStart, BlockSyntax, Token

Redirects = tuple[tuple[str, str], ...]
"""Old pages, each with the new one."""


def unused_ids(pages: Sequence[PageRead], course: Course, redirects: Redirects) -> Iterator[Diagnostic]:
    """A note at each id that was given to a step by hand and is not referred to from anywhere in the course."""
    given = [(token, block) for page in pages for block in page.syntax.blocks for token in _of_steps(block)]
    if not given:
        return
    known = {*_mentioned(pages, course), *_linked(pages, redirects), *_gone_on(pages), *_given_twice(pages)}
    yield from (_finding(token, block) for token, block in given if token.text not in known)


def _of_steps(block: BlockSyntax) -> Iterator[Token]:
    return (step.id for step in block.steps if step.id is not None)


def _mentioned(pages: Iterable[PageRead], course: Course) -> Iterator[str]:
    """The words of all mentions, and the steps to which they lead by a chord."""
    for page in pages:
        yield from (word.text for mention in page.syntax.mentions for word in mention.words)
    for lesson in course.lessons:
        yield from (meaning.step.id for meaning in lesson.mentions if meaning.step is not None)


def _linked(pages: Iterable[PageRead], redirects: Redirects) -> Iterator[str]:
    """The anchors of all links and redirects, on whatever page, and the ids that they ask to practise."""
    targets = (*(link.target.text for page in pages for link in page.links), *(new for _, new in redirects))
    for target in targets:
        yield from map(unquote, to_practise(target) or [target.partition("#")[2]])


def _gone_on(pages: Iterable[PageRead]) -> Iterator[str]:
    """The ids that stand behind `after`."""
    for start in (block.start for page in pages for block in page.syntax.blocks):
        if start is not None and isinstance(start.form, AfterStart):
            yield start.form.id.text


def _given_twice(pages: Iterable[PageRead]) -> Iterator[str]:
    """The ids that must be given anew in any case, which is told by itself."""
    count: Counter[str] = Counter()
    for page in pages:
        count.update(token.text for block in page.syntax.blocks for token in (block.id, *_of_steps(block)) if token)
        count.update(anchor for heading in page.headings for anchor in heading.anchors)
    return (text for text, times in count.items() if times > 1)


def _finding(token: Token, block: BlockSyntax) -> Diagnostic:
    message = f"Nothing in the course refers to the step {quoted(token.text)}"
    mention = f"`step: {token.text}`" if block.id is None else f"`step: {block.id.text} {token.text}`"
    expected = f"a mention, such as {mention}, a link to it, or no `id`: the step then gets one of its own"
    return note(token.span, Code.UNUSED_ID, message, expected, "leave the id out, or refer to it")


REASONS = {
    Code.UNUSED_ID: Explanation(
        "An id of a step that nothing refers to",
        "The id that a step gets by itself serves links and progress as well, and tells students when the step has "
        "become another. One by hand is there to be referred to; perhaps the mention that should do so names another.",
        "- move: 1 to B1\n  id: the-easy-one     (and nowhere a mention of it, or a link to it)",
        "- move: 1 to B1\n  id: the-easy-one\n\nand in the prose `step: several the-easy-one`",
    ),
}
