"""The outline of a block: which line is a key, which a step, which goes on with the words above.

A YAML reader stops at the first thing that it can't read and takes the rest of the block with it; and it reads `off`,
`1:20`, `#2` and `Note: x` otherwise than a teacher means them. So the lines are told apart here, each by itself:

    key: words        a key of the block, or of a step when it stands deeper than the step's hyphen
    - words           a step (or an entry of a list)
    - key: words      a step in its long form
    # words           a comment; so is an empty line
    (deeper) words    more words for the key above
    |  or  >          as the whole value: the deeper lines that follow are the words, line by line or joined

What follows the hyphen or the colon is kept as it was written; block.py gives it its meaning.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from typing import Literal

from fingerpost.diagnostics import Code, Diagnostic, Edit, Severity, Span
from fingerpost.source.syntax import Token

Style = Literal["plain", "lines", "joined"]

KEY = re.compile(r"([A-Za-z_<][A-Za-z_<\- ]{0,30}?)[ \t]*:(?=\s|$)")
RUN_ON_KEY = re.compile(r"([a-z_]+):(?=\S)")
ITEM = re.compile(r"-(?=\s|$)")
WORDS_BELOW = re.compile(r"([|>])[-+0-9]{0,2}\s*(?:\s#.*)?$")
TAB_STOP = 4


@dataclass(slots=True)
class Entry:
    """A key and what stands under it: the pieces of its words, line by line, and the items of its list."""

    key: Token
    indent: int
    words: list[Token] = field(default_factory=list)
    style: Style = "plain"
    items: list[Item] = field(default_factory=list)


@dataclass(slots=True)
class Item:
    """What follows one hyphen: words, or entries in the long form, or both where a key was hung under plain words."""

    hyphen: Token
    indent: int
    words: list[Token] = field(default_factory=list)
    entries: list[Entry] = field(default_factory=list)


@dataclass(slots=True)
class Outline:
    """The entries of a block in order, and what is wrong with its lines."""

    entries: list[Entry] = field(default_factory=list)
    findings: list[Diagnostic] = field(default_factory=list)


def outline(lines: tuple[Token, ...], block_keys: frozenset[str], step_keys: frozenset[str]) -> Outline:
    """Tells the lines of a block apart. The key sets decide what a line that could be either is."""
    return _Outliner(lines, block_keys, step_keys).run()


class _Outliner:
    def __init__(self, lines: tuple[Token, ...], block_keys: frozenset[str], step_keys: frozenset[str]) -> None:
        self.lines, self.at = lines, 0
        self.block_keys, self.step_keys = block_keys, step_keys
        self.out = Outline()
        self.base: int | None = None
        self.entry: Entry | None = None  # the key of the block that is open
        self.item: Item | None = None  # the step that is open
        self.inner: Entry | None = None  # the key of that step that is open
        self.lost: Span | None = None  # a run of lines that say nothing, reported once

    def run(self) -> Outline:
        while self.at < len(self.lines):
            line = self.lines[self.at]
            self.at += 1
            text = line.text.strip()
            if text and not text.startswith("#"):
                self.line(line, len(line.text) - len(line.text.lstrip()), text)
        self.report_lost()
        return self.out

    def line(self, line: Token, lead: int, text: str) -> None:
        indent = self.indent(line, lead)
        self.base = indent if self.base is None else self.base
        words = cut(line, lead, lead + len(text))
        if ITEM.match(text) and not self.belongs_to_prose(indent):
            self.open_item(words, indent)
        elif (key := self.key_of(words)) and not (self.belongs_to_prose(indent) and key.text not in self.all_keys):
            self.open_key(key, words, indent)
        else:
            self.more_words(words, indent)

    @property
    def all_keys(self) -> frozenset[str]:
        return self.block_keys | self.step_keys

    def indent(self, line: Token, lead: int) -> int:
        """The width of the indentation; a tab is found fault with, and counts to the next multiple of four."""
        blank = line.text[:lead]
        if "\t" not in blank:
            return lead
        width = 0
        for character in blank:
            width += TAB_STOP - width % TAB_STOP if character == "\t" else 1
        span = line.span.part(0, lead)
        self.find(
            *(span, Code.BAD_VALUE, "This line is indented with a tab, which is as wide as each program likes."),
            expected="blanks",
            fix=f"Indent it with {width} blanks.",
            edits=(Edit(span, " " * width),),
            severity=Severity.WARNING,
        )
        return width

    def belongs_to_prose(self, indent: int) -> bool:
        """Whether a line so deep can only go on with the words of the key above."""
        entry = self.inner or (None if self.item else self.entry)
        return entry is not None and bool(entry.words) and indent > entry.indent

    def key_of(self, words: Token) -> Token | None:
        if found := KEY.match(words.text):
            return cut(words, 0, found.end(1))
        found = RUN_ON_KEY.match(words.text)
        if found is None or found.group(1) not in self.all_keys:
            return None
        place = words.span.part(found.end(), found.end())
        self.find(
            *(place, Code.BAD_VALUE, f"After `{found.group(1)}:` a blank is missing."),
            expected="a blank after the colon",
            fix=f"{found.group()} {words.text[found.end() :]}",
            edits=(Edit(place, " "),),
            severity=Severity.WARNING,
        )
        return cut(words, 0, found.end(1))

    def open_item(self, words: Token, indent: int) -> None:
        rest = words.text[1:].lstrip()
        hyphen, start = cut(words, 0, 1), len(words.text) - len(rest)
        if self.inner and self.item and not self.inner.words and indent > self.item.indent:
            self.inner.items.append(Item(hyphen, indent, [cut(words, start, len(words.text))] if rest else []))
            return
        if self.entry is None or self.entry.words:
            self.entry = self.headless_steps(words)
        self.item, self.inner = Item(hyphen, indent), None
        self.entry.items.append(self.item)
        if not rest:
            return
        inner = cut(words, start, len(words.text))
        if key := self.key_of(inner):
            self.open_inner(key, inner, indent + start)
        else:
            self.item.words.append(inner)

    def headless_steps(self, words: Token) -> Entry:
        """Steps stand where no list is due: they are read as steps all the same, so that they are checked too."""
        known = next((entry for entry in self.out.entries if entry.key.text == "steps"), None)
        self.find(
            *(words.span, Code.BLOCK_UNREADABLE, "A step stands here, outside the list of steps."),
            expected="`steps:` on a line of its own above the first step",
            fix="Write `steps:` above this line." if known is None else "Move this line to the other steps.",
        )
        if known is not None:
            return known
        entry = Entry(Token("steps", words.span.part(0, 0)), self.base or 0)
        self.out.entries.append(entry)
        return entry

    def open_key(self, key: Token, words: Token, indent: int) -> None:
        if self.item is not None and (indent > self.item.indent or self.strayed(key, indent)):
            self.open_inner(key, words, indent)
            return
        self.item = self.inner = None
        self.entry = Entry(key, indent)
        self.out.entries.append(self.entry)
        self.fill(self.entry, words, len(key.text))
        if indent != self.base:
            self.find(
                *(key.span, Code.BAD_VALUE, f"`{key.text}` is not indented as the other keys of the block are."),
                expected=f"{self.base} blanks before it, and here are {indent}",
                severity=Severity.WARNING,
            )

    def strayed(self, key: Token, indent: int) -> bool:
        """A key that only a step has, not indented under its step: it is read as the step's."""
        if key.text in self.block_keys or key.text not in self.step_keys or self.item is None:
            return False
        self.find(
            *(key.span, Code.BAD_VALUE, f"`{key.text}` belongs to the step above, and is not indented under it."),
            expected=f"{self.item.indent + 2} blanks before it",
            edits=(Edit(key.span.part(0, 0), " " * (self.item.indent + 2 - indent)),),
            severity=Severity.WARNING,
        )
        return True

    def open_inner(self, key: Token, words: Token, indent: int) -> None:
        assert self.item is not None
        self.inner = Entry(key, indent)
        self.item.entries.append(self.inner)
        self.fill(self.inner, words, len(key.text))

    def fill(self, entry: Entry, words: Token, key_end: int) -> None:
        """Gives an entry what stands after its colon, and the lines of words below where it says so."""
        start = words.text.index(":", key_end) + 1
        start += len(words.text[start:]) - len(words.text[start:].lstrip())
        value = cut(words, start, len(words.text))
        if mark := WORDS_BELOW.fullmatch(value.text):
            entry.style = "lines" if mark.group(1) == "|" else "joined"
            entry.words.extend(self.words_below(entry.indent))
        elif value.text:
            entry.words.append(value)

    def words_below(self, indent: int) -> list[Token]:
        """The lines that follow and stand deeper, less the indentation of the first."""
        first, found = None, []
        while self.at < len(self.lines):
            line = self.lines[self.at]
            lead = len(line.text) - len(line.text.lstrip())
            if line.text.strip():
                if lead <= indent:
                    break
                first = lead if first is None else first
            start = min(lead, first or 0)
            found.append(cut(line, start, max(start, len(line.text.rstrip()))))
            self.at += 1
        while found and not found[-1].text:
            found.pop()
        while found and not found[0].text:
            found.pop(0)
        return found

    def more_words(self, words: Token, indent: int) -> None:
        entry = self.inner or (None if self.item else self.entry)
        if entry is not None and not entry.items and indent > entry.indent:
            entry.words.append(words)
        elif self.item is not None and not self.item.entries and indent > self.item.indent:
            self.item.words.append(words)
        else:
            self.lose(words)

    def lose(self, words: Token) -> None:
        if self.lost is not None and words.span.line == self.lost.end_line + 1:
            self.lost = self.lost.to(words.span)
            return
        self.report_lost()
        self.lost = words.span

    def report_lost(self) -> None:
        if self.lost is not None:
            self.find(
                *(self.lost, Code.BLOCK_UNREADABLE, "This is neither a key with its value nor a step."),
                expected="`key: words`, or a step that begins with a hyphen and a blank",
            )
            self.lost = None

    def find(
        self,
        span: Span,
        code: Code,
        message: str,
        expected: str = "",
        fix: str = "",
        edits: tuple[Edit, ...] = (),
        severity: Severity = Severity.ERROR,
    ) -> None:
        self.out.findings.append(Diagnostic(span, severity, code, message, expected, fix, edits))


def cut(token: Token, start: int, end: int) -> Token:
    """The piece of a one-line token between two offsets."""
    return Token(token.text[start:end], token.span.part(start, end))
