"""What a line of Markdown stands in: block quotes and list items (CommonMark 0.31, 5.1 and 5.2), and how deep.

Besides, what Python-Markdown's extensions indent by four blanks: admonitions, tabs, definitions and footnotes. Site
generators turn these on, and a block may stand in them.

Tabs count to the next multiple of four columns; a tab that is used up in part leaves blanks behind, as the
specification has it (2.2).
"""

from __future__ import annotations

import re
from dataclasses import dataclass

TAB = 4
BLANKS = re.compile(r"[ \t]*")
BULLET = re.compile(r"[-+*](?=[ \t]|$)")
NUMBERED = re.compile(r"([0-9]{1,9})[.)](?=[ \t]|$)")
INDENTING = re.compile(r"(?:!!!|\?\?\?\+?|===[!+]?|:|\[\^[^\]\s]+\]:)[ \t]+(?=\S)")
RULE = re.compile(r"(?:(?:\*[ \t]*){3,}|(?:-[ \t]*){3,}|(?:_[ \t]*){3,})$")


@dataclass(frozen=True, slots=True)
class Container:
    """A block quote (width 0) or a list item; width is how far its text is indented from where the item stands.

    An admonition and its like count as list items.
    """

    width: int

    @property
    def is_list(self) -> bool:
        """Whether this is a list item."""
        return self.width > 0


DEEPEST = 24
"""Containers that stand deeper than this are taken for text, so that a hostile line stays cheap. By our own choice."""

QUOTE = Container(0)


class Walk:
    """A position in one line: `at` counts code points, `column` counts what is seen, `spare` is left of a cut tab."""

    def __init__(self, text: str) -> None:
        """Starts before the first character."""
        self.text, self.at, self.column, self.spare = text, 0, 0, 0

    @property
    def words_at(self) -> int:
        """Where the next character that is no blank stands."""
        return BLANKS.match(self.text, self.at).end()  # type: ignore[union-attr]  # it matches nothing, too

    def indent(self) -> int:
        """How many columns of blanks come next."""
        end = self.words_at
        if "\t" not in self.text:
            return end - self.at
        column = self.column + self.spare
        for character in self.text[self.at : end]:
            column += 1 if character == " " else TAB - column % TAB
        return column - self.column

    def eat(self, columns: int) -> None:
        """Uses up to so many columns of blanks."""
        if "\t" not in self.text:
            taken = min(columns, self.words_at - self.at)
            self.at, self.column = self.at + taken, self.column + taken
            return
        taken = min(columns, self.spare)
        self.spare, self.column, columns = self.spare - taken, self.column + taken, columns - taken
        while columns > 0 and self.text[self.at : self.at + 1] in (" ", "\t"):
            width = 1 if self.text[self.at] == " " else TAB - self.column % TAB
            taken = min(width, columns)
            self.at, self.column, self.spare, columns = self.at + 1, self.column + taken, width - taken, columns - taken

    def step(self, characters: int) -> None:
        """Passes over so many characters that are no blanks."""
        self.at += characters
        self.column += characters

    @property
    def blank(self) -> bool:
        """Whether only blanks are left."""
        return self.words_at == len(self.text)

    @property
    def rest(self) -> str:
        """What is left, without the blanks before it."""
        return self.text[self.words_at :]


def continued(walk: Walk, stack: tuple[Container, ...]) -> int:
    """How many of the open containers this line goes on with; the walk then stands inside the last of them."""
    for depth, container in enumerate(stack):
        if container.is_list:
            if not walk.blank and walk.indent() < container.width:
                return depth
            walk.eat(container.width)
        elif not _quote(walk):
            return depth
    return len(stack)


def opened(walk: Walk, depth: int, in_paragraph: bool) -> tuple[Container, ...]:
    """The containers that begin on this line where the walk stands, inside so many that are open already."""
    found: list[Container] = []
    while depth + len(found) < DEEPEST and walk.indent() < TAB:
        if _quote(walk):
            found.append(QUOTE)
        elif item := (_item(walk, in_paragraph and not found) or _indenting(walk)):
            found.append(item)
        else:
            break
    return tuple(found)


def _quote(walk: Walk) -> bool:
    indent = walk.indent()
    if indent >= TAB or not walk.rest.startswith(">"):
        return False
    walk.eat(indent)
    walk.step(1)
    if walk.indent():
        walk.eat(1)
    return True


def _item(walk: Walk, in_paragraph: bool) -> Container | None:
    rest = walk.rest
    marker = BULLET.match(rest) or NUMBERED.match(rest)
    if marker is None or RULE.match(rest):
        return None
    empty = not rest[marker.end() :].strip(" \t")
    if in_paragraph and (empty or (marker.lastindex and int(marker.group(1)) != 1)):
        return None
    before = walk.indent()
    walk.eat(before)
    walk.step(marker.end())
    after = walk.indent()
    after = 1 if empty or after > TAB else after
    walk.eat(after)
    return Container(before + marker.end() + after)


def _indenting(walk: Walk) -> Container | None:
    """An admonition or the like: what belongs to it is indented by four."""
    marker = INDENTING.match(walk.rest)
    if marker is None:
        return None
    before = walk.indent()
    walk.eat(before)
    walk.step(len(marker.group().rstrip()))
    walk.eat(walk.indent())
    return Container(before + TAB)
