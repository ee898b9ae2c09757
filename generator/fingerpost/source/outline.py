"""The outline of a block: which line is a key, which a step, which goes on with the words above.

    key: words        a key of the block, or of a step where it stands deeper than the step's hyphen
    - words           a step (or an entry of a list)
    - key: words      a step in its long form
    # words           a comment; so is an empty line
    (deeper) words    more words for the key above
    |  or  >          as the whole value: the deeper lines that follow are the words, line by line or joined

A YAML reader stops at the first thing that it can't read and takes the rest of the block with it, and it reads `off`,
`1:20`, `#2` and `Note: x` otherwise than a teacher means them. So the lines are told apart here, one by one, and what
follows a hyphen or a colon is kept as it was written. Only words in quotes go through the YAML reader (quoting.py).
"""

from __future__ import annotations

from dataclasses import dataclass, field

from fingerpost.diagnostics import Code, Edit, Span
from fingerpost.source.block_lines import (
    COMMENT,
    WORDS_BELOW,
    BlockLine,
    block_line,
    cut,
    key_and_value,
    key_without_colon,
)
from fingerpost.source.findings import Findings
from fingerpost.source.lost_hyphen import step_without_hyphen
from fingerpost.source.references import reference, refuse
from fingerpost.source.syntax import Token

PROSE = frozenset(("say", "title", "image"))
"""Keys whose words are for reading: no comment is cut off from them."""


@dataclass(slots=True)
class Entry:
    """A key and what stands under it: its words, a piece a line, and the items of its list.

    lines: the words were written below, each line as a line of its own (`|`).
    """

    key: Token
    indent: int
    words: list[Token] = field(default_factory=list)
    lines: bool = False
    items: list[Item] = field(default_factory=list)


@dataclass(slots=True)
class Item:
    """What follows one hyphen: words, or entries in the long form, or both where keys hang under plain words."""

    hyphen: Token
    indent: int
    words: list[Token] = field(default_factory=list)
    entries: list[Entry] = field(default_factory=list)

    @property
    def span(self) -> Span:
        """The whole item, from its hyphen to its last word."""
        ends = [self.hyphen, *self.words[-1:]]
        for entry in self.entries[-1:]:
            ends.extend((entry.key, *entry.words[-1:], *(item.hyphen for item in entry.items[-1:])))
        return self.hyphen.span.to(max(end.span for end in ends))


def outline(
    lines: tuple[Token, ...], findings: Findings, block_keys: tuple[str, ...], step_keys: tuple[str, ...]
) -> list[Entry]:
    """The entries of a block in order. The key lists decide about a line that could be a key or words."""
    return _Outliner(lines, findings, frozenset(block_keys), frozenset(step_keys)).run()


@dataclass(slots=True)
class _Outliner:
    """Goes through the lines once; entry is the key of the block that is open, item the step, inner the step's key."""

    lines: tuple[Token, ...]
    findings: Findings
    block_keys: frozenset[str]
    step_keys: frozenset[str]
    at: int = 0
    base: int | None = None
    entries: list[Entry] = field(default_factory=list)
    entry: Entry | None = None
    item: Item | None = None
    inner: Entry | None = None
    lost: Span | None = None
    known: frozenset[str] = frozenset()

    def run(self) -> list[Entry]:
        self.known = self.block_keys | self.step_keys
        while self.at < len(self.lines) and not self.findings.full:
            line = block_line(self.lines[self.at], self.findings)
            self.at += 1
            if line is not None:
                self.base = line.indent if self.base is None else self.base
                self.line(line)
        self.report_lost()
        return self.entries

    def line(self, line: BlockLine) -> None:
        goes_on = self.goes_on_with_words(line.indent)
        if line.hyphen is not None and not goes_on:
            return self.open_item(line, line.hyphen)
        if not goes_on and self.steps_may_follow(line) and (step := step_without_hyphen(line, self.findings)):
            return self.open_item(step, step.hyphen or step.whole)
        pair = key_and_value(line.whole, self.known, self.findings)
        if pair is not None and (not goes_on or pair[0].text in self.known):
            return self.open_key(line.indent, *pair)
        return self.more_words(line)

    def steps_may_follow(self, line: BlockLine) -> bool:
        """Whether a step is due on a line; one that begins with `move:` is due where the step above has its move."""
        if self.entry is None or self.entry.key.text != "steps" or self.entry.words or line.indent < self.entry.indent:
            return False
        if self.item is None or not line.whole.text.startswith("move"):
            return self.item is None or line.indent <= self.item.indent
        has_move = bool(self.item.words) or any(entry.key.text == "move" for entry in self.item.entries)
        return has_move and line.indent <= self.item.indent

    @property
    def open_entry(self) -> Entry | None:
        """The key that further words would belong to."""
        return self.inner or (None if self.item else self.entry)

    def goes_on_with_words(self, indent: int) -> bool:
        """Whether a line so deep can only go on with the words of the key above."""
        entry = self.open_entry
        return entry is not None and bool(entry.words) and indent > entry.indent

    def open_item(self, line: BlockLine, hyphen: Token) -> None:
        item = Item(hyphen, line.indent)
        if self.item and self.inner and not self.inner.words and line.indent > self.item.indent:
            item.words = [line.words] if line.words.text else []
            self.inner.items.append(item)
            return
        if self.entry is None or (self.entry.words and self.entry.key.text != "steps"):
            self.entry = self.steps_without_key(line.whole)
        self.item, self.inner = item, None
        self.entry.items.append(item)
        if pair := key_and_value(line.words, self.known, self.findings) or self.move_without_colon(line.words):
            self.open_inner(line.words_indent, *pair)
        elif line.words.text:
            item.words.append(line.words)

    def move_without_colon(self, words: Token) -> tuple[Token, Token] | None:
        """The words after a hyphen as a key with its value, where they begin with `move` and its colon is missing."""
        return key_without_colon(words, frozenset(("move",)), self.findings)

    def steps_without_key(self, words: Token) -> Entry:
        """Steps stand where no list is due: they are read as steps all the same, so that they are checked too."""
        steps = next((entry for entry in self.entries if entry.key.text == "steps"), None)
        message = "A step stands here, outside the list of steps"
        expected = "`steps:` on a line of its own above the first step"
        fix = "Write `steps:` above this line." if steps is None else "Move it to the other steps."
        self.findings.error(words.span, Code.BLOCK_UNREADABLE, message, expected, fix)
        if steps is None:
            steps = Entry(Token("steps", words.span.part(0, 0)), self.base or 0)
            self.entries.append(steps)
        return steps

    def open_key(self, indent: int, key: Token, value: Token) -> None:
        if self.item is not None and indent > self.item.indent:
            return self.open_inner(indent, key, value)
        if self.item is not None and self.strayed(key, indent, self.item):
            return self.open_inner(self.item.indent + 2, key, value)
        self.item = self.inner = None
        self.entry = Entry(key, indent)
        self.entries.append(self.entry)
        self.fill(self.entry, value)
        if indent != self.base:
            message = f"`{key.text}` is not indented as the first key of the block is"
            wanted = f"{self.base} blanks" if self.base else "no blank"
            self.findings.slip(key.span, message, f"{wanted} before it", f"Write it with {wanted} before it.")
        return None

    def strayed(self, key: Token, indent: int, item: Item) -> bool:
        """Whether this is a key that only a step has, not indented under its step: it is read as the step's."""
        if key.text in self.block_keys or key.text not in self.step_keys:
            return False
        wanted = item.indent + 2
        edit = Edit(key.span.part(0, 0), " " * (wanted - indent))
        message = f"`{key.text}` belongs to the step above, and is not indented under it"
        self.findings.slip(key.span, message, f"{wanted} blanks before it", f"Indent it by {wanted} blanks.", edit)
        return True

    def open_inner(self, indent: int, key: Token, value: Token) -> None:
        assert self.item is not None
        self.inner = Entry(key, indent)
        self.item.entries.append(self.inner)
        self.fill(self.inner, value)

    def fill(self, entry: Entry, value: Token) -> None:
        """Gives an entry what stands after its colon, and the lines of words below where it says so."""
        below = WORDS_BELOW.fullmatch(value.text)
        if below and (words := self.words_below(entry.indent)):
            entry.lines = below.group(1) == "|"
            entry.words.extend(words)
        elif value.text and (entry.key.text in PROSE or not COMMENT.match(value.text)):
            entry.words.append(value)

    def words_below(self, indent: int) -> list[Token]:
        """The lines that follow and stand deeper, less the first one's indentation; empty ones only between others."""
        margin, found = None, []
        while self.at < len(self.lines):
            line = self.lines[self.at]
            lead = len(line.text) - len(line.text.lstrip())
            if line.text.strip():
                if lead <= indent:
                    break
                margin = lead if margin is None else margin
            start = min(lead, margin or 0)
            found.append(cut(line, start, max(start, len(line.text.rstrip()))))
            self.at += 1
        filled = [number for number, line in enumerate(found) if line.text]
        return found[filled[0] : filled[-1] + 1] if filled else []

    def more_words(self, line: BlockLine) -> None:
        entry, item = self.open_entry, self.item
        if entry is not None and not entry.items and line.indent > entry.indent:
            entry.words.append(line.whole)
        elif item is not None and not item.entries and line.indent > item.indent:
            item.words.append(line.whole)
        elif found := reference(line.whole):
            refuse(found, self.findings)
        elif pair := key_without_colon(line.whole, self.known, self.findings):
            self.open_key(line.indent, *pair)
        else:
            self.lose(line.whole.span)

    def lose(self, span: Span) -> None:
        """Lines that say nothing are reported together where they follow each other."""
        if self.lost is not None and span.line == self.lost.end_line + 1:
            self.lost = self.lost.to(span)
            return
        self.report_lost()
        self.lost = span

    def report_lost(self) -> None:
        if self.lost is not None:
            message = "This is neither a key with its value nor a step"
            expected = "`key: words`, or a step that begins with a hyphen and a blank"
            self.findings.error(self.lost, Code.BLOCK_UNREADABLE, message, expected)
            self.lost = None
