"""One block: what its keys and steps say. A line that can't be read is reported and left out; the rest is read."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import replace
from typing import TypeVar

from fingerpost.diagnostics import Code, Diagnostic, Edit, Severity, Span
from fingerpost.source.grammar import Reading, read_cue, read_move, read_start, read_strum
from fingerpost.source.mending import nearest
from fingerpost.source.outline import Entry, Item, cut, outline
from fingerpost.source.quoting import unquoted
from fingerpost.source.syntax import BlockSyntax, Fence, Image, MoveLine, NameSaid, StepSyntax, Token

MOST_BYTES = 512 * 1024
"""A larger block is refused unread. 10,000 steps in the long form take about 400 KiB. By our own choice."""

MOST_FINDINGS = 200
"""Findings of one block; what goes beyond is counted in a last one."""

BLOCK_KEYS = ("id", "title", "start", "strum", "key", "tuning", "capo", "teaches", "fingers_per_step", "steps")
STEP_KEYS = ("move", "name", "taught_as", "cue", "say", "id", "beats", "pattern", "or", "image")
PROSE = frozenset(("say", "title", "image"))
"""Keys whose words are for reading: no comment is cut off from them."""

COMMENT = re.compile(r"(?:^|\s+)#(?:\s|$)")
ID = re.compile(r"[a-z0-9]+(?:-[a-z0-9]+)*")
COUNT = re.compile(r"[0-9]{1,2}")
PATTERN = re.compile(r"(?:[DUdu\-.,|xX↓↑ ]|\b(?:down|up|rest)\b)+", re.IGNORECASE)
REFERENCE = re.compile(r"(?:&\w\S*|\*\w\S*|!\S*)(?=\s|$)|<<(?=:)")
OUTSIDE_BRACKETS = re.compile(r"(?:\([^()]*\)|[^,()]|[()])+")


_T = TypeVar("_T")


def read_block(file: str, fence: Fence) -> Reading[BlockSyntax]:
    """Reads the block that stands in a fence. Always gives a block, perhaps an empty one, and what is wrong with it."""
    source = "\n".join(fence.body)
    empty = BlockSyntax(fence.span, source)
    heading = replace(fence.span, end_line=fence.span.line, end_column=fence.span.column + len(fence.opening))
    if (size := len(source.encode("utf-8", "replace"))) > MOST_BYTES:
        message = f"This block has {size // 1024} KiB of text, which is too much to be read."
        return Reading(empty, (_error(heading, Code.BLOCK_TOO_LARGE, message, f"at most {MOST_BYTES // 1024} KiB"),))
    lines = tuple(map(Token, fence.body, fence.body_spans))
    reader = _Reader(heading)
    return Reading(reader.block(empty, lines), reader.capped())


def _error(span: Span, code: Code, message: str, expected: str = "", fix: str = "") -> Diagnostic:
    return Diagnostic(span, Severity.ERROR, code, message, expected, fix)


class _Reader:
    """Gathers the findings of one block while its values are read."""

    def __init__(self, heading: Span) -> None:
        self.heading, self.findings = heading, list[Diagnostic]()

    def capped(self) -> tuple[Diagnostic, ...]:
        kept = sorted(self.findings)[:MOST_FINDINGS]
        if more := len(self.findings) - len(kept):
            message = f"{more} more findings in this block are not listed."
            kept.append(_error(self.heading, Code.BLOCK_UNREADABLE, message, "a block that can be read"))
        return tuple(kept)

    def find(self, span: Span, code: Code, message: str, expected: str = "", fix: str = "") -> None:
        self.findings.append(_error(span, code, message, expected, fix))

    def block(self, empty: BlockSyntax, lines: tuple[Token, ...]) -> BlockSyntax:
        found = outline(lines, frozenset(BLOCK_KEYS), frozenset(STEP_KEYS))
        self.findings.extend(found.findings)
        if not found.entries:
            if not found.findings:
                self.find(self.heading, Code.BLOCK_EMPTY, "This block is empty.", "`id:` and `steps:`")
            return empty
        entries = self.by_key(found.entries, BLOCK_KEYS, "the block")
        for key in ("id", "steps"):
            if key not in entries:
                self.find(self.heading, Code.MISSING_KEY, f"This block has no `{key}`.", *MISSING[key])
        start, strum = entries.get("start"), entries.get("strum")
        steps = entries.get("steps")
        read = replace(
            empty,
            id=self.id(entries.get("id")),
            title=self.words(entries.get("title")),
            start=self.read(start, read_start),
            strum=self.read(strum, read_strum),
            key=self.words(entries.get("key")),
            tuning=self.words(entries.get("tuning")),
            capo=self.count(entries.get("capo")),
            teaches=self.list(entries.get("teaches")),
            fingers_per_step=self.count(entries.get("fingers_per_step")),
            steps=self.steps(steps) if steps else (),
        )
        return replace(read, unread=tuple(key for key in entries if not getattr(read, key)))

    def by_key(self, entries: list[Entry], known: tuple[str, ...], where: str) -> dict[str, Entry]:
        """The entries by key; unknown and repeated ones are reported, and the first of a key counts."""
        kept: dict[str, Entry] = {}
        for entry in entries:
            key = entry.key
            if key.text == "<<":
                self.reference(key)
            elif key.text not in known:
                self.unknown_key(key, known, where)
            elif key.text in kept:
                message = f"`{key.text}` is given twice in {where}; the first, on line {kept[key.text].key.span.line}, counts."
                self.find(key.span, Code.DUPLICATE_KEY, message, f"`{key.text}` once")
            else:
                kept[key.text] = entry
        return kept

    def unknown_key(self, key: Token, known: tuple[str, ...], where: str) -> None:
        near = nearest(key.text.replace(" ", "_").replace("-", "_"), known)
        other, others = ("a step", STEP_KEYS) if known is BLOCK_KEYS else ("the block", BLOCK_KEYS)
        message = f"`{key.text}` is not a key of {where}."
        if key.text in others:
            message = f"`{key.text}` is a key of {other}, not of {where}."
            near = ""
        self.find(key.span, Code.UNKNOWN_KEY, message, "one of " + ", ".join(known), near)

    def reference(self, token: Token) -> None:
        message = f"“{token.text}” would refer to another part of the text, and that is not read here."
        self.find(token.span, Code.ANCHOR_OR_TAG, message, "the words themselves")

    def words(self, entry: Entry | None) -> Token | None:
        """The words of a key as one token, or None with a finding where there are none."""
        if entry is None or not self.is_text(entry):
            return None
        prose = entry.key.text in PROSE
        if prose:
            return unquoted(joined(entry.words, "\n" if entry.style == "lines" else " "))
        if len(entry.words) > 1:
            self.find(
                *(entry.words[1].span, Code.BAD_VALUE, f"`{entry.key.text}` is one line, and this is a second one."),
                "one line",
            )
        return self.literal(entry.words[0])

    def literal(self, token: Token) -> Token | None:
        """A value that is not for reading: without its comment and its quotes; references are refused."""
        if comment := COMMENT.search(token.text):
            token = cut(token, 0, comment.start())
        if found := REFERENCE.match(token.text):
            self.reference(cut(token, 0, found.end()))
            return None
        return unquoted(token)

    def is_text(self, entry: Entry) -> bool:
        key = entry.key
        if entry.items:
            self.find(entry.items[0].hyphen.span, Code.BAD_VALUE, f"`{key.text}` is given a list.", "words on one line")
        elif not entry.words:
            self.find(key.span, Code.BAD_VALUE, f"`{key.text}` is given nothing.", f"words after `{key.text}:`")
        return not entry.items and bool(entry.words)

    def read(self, entry: Entry | None, reader: Callable[[Token], Reading[_T]]) -> _T | None:
        token = self.words(entry)
        return self.taken(reader(token)) if token else None

    def taken(self, reading: Reading[_T]) -> _T | None:
        self.findings.extend(reading.findings)
        return reading.value

    def id(self, entry: Entry | None) -> Token | None:
        token = self.words(entry)
        if token is None or ID.fullmatch(token.text):
            return token
        slug = "-".join(re.findall(r"[a-z0-9]+", token.text.lower()))
        message = f"“{token.text}” can't be an id."
        self.find(token.span, Code.BAD_VALUE, message, "lower-case letters, digits and single hyphens", slug)
        return None

    def count(self, entry: Entry | None) -> Token | None:
        token = self.words(entry)
        if token is None or COUNT.fullmatch(token.text):
            return token
        message = f"`{entry.key.text if entry else ''}` is “{token.text}”."
        self.find(token.span, Code.BAD_VALUE, message, "a whole number such as 2")
        return None

    def pattern(self, entry: Entry | None) -> Token | None:
        token = self.words(entry)
        if token is None or PATTERN.fullmatch(token.text):
            return token
        message = f"`pattern` is “{token.text}”."
        self.find(token.span, Code.BAD_VALUE, message, "strokes down and up with rests, such as `D DU -UDU`")
        return None

    def list(self, entry: Entry | None) -> tuple[Token, ...]:
        """A list: `[G, Gadd9]`, `G, Gadd9`, or an entry a line."""
        if entry is None:
            return ()
        if not entry.items and not entry.words:
            self.is_text(entry)
        pieces = [*entry.words, *(word for item in entry.items for word in item.words)]
        return tuple(filter(None, (self.literal(part) for piece in pieces for part in listed(piece))))

    def steps(self, entry: Entry) -> tuple[StepSyntax, ...]:
        if entry.words:
            self.find(
                entry.words[0].span, Code.BAD_VALUE, "`steps` is given words.", "a list, a step a line: `- 1 off`"
            )
        elif not entry.items:
            self.find(entry.key.span, Code.BAD_VALUE, "`steps` has no step.", "a list, a step a line: `- 1 off`")
        return tuple(self.step(item) for item in entry.items)

    def step(self, item: Item) -> StepSyntax:
        entries = self.by_key(item.entries, STEP_KEYS, "a step") if item.entries else {}
        span = item_span(item)
        line = self.short(item) if item.words else self.read(entries.get("move"), read_move)
        if not item.words and "move" not in entries:
            self.find(
                item.hyphen.span, Code.MISSING_KEY, "This step has no move.", "a move, such as `- 1 off`, or `move:`"
            )
        if not item.entries:
            return StepSyntax(span, line)
        image = self.words(entries.get("image"))
        return StepSyntax(
            span,
            self.completed(line, entries) if line else None,
            say=self.words(entries.get("say")),
            id=self.id(entries.get("id")),
            beats=self.count(entries.get("beats")),
            pattern=self.pattern(entries.get("pattern")),
            easier=self.words(entries.get("or")),
            image=image_of(image) if image else None,
        )

    def short(self, item: Item) -> MoveLine | None:
        """The move of a one-line step; keys that hang under it are read as if it were in the long form."""
        first = item.words[0]
        if item.entries:
            key, place = item.entries[0].key, first.span.part(0, 0)
            message = f"`{key.text}` hangs under a step that has no keys."
            expected = "`move:` before the move of a step in the long form"
            edits = (Edit(place, "move: "),)
            fix = f"- move: {first.text}"
            self.findings.append(
                Diagnostic(first.span, Severity.WARNING, Code.BAD_VALUE, message, expected, fix, edits)
            )
            entries = {entry.key.text for entry in item.entries}
            if "move" in entries:
                self.find(first.span, Code.DUPLICATE_KEY, "This step has two moves.", "one move")
        if len(item.words) > 1:
            self.find(item.words[1].span, Code.BAD_VALUE, "A move is one line, and this is a second one.", "one line")
        token = self.literal(first)
        return self.taken(read_move(token)) if token else None

    def completed(self, line: MoveLine, entries: dict[str, Entry]) -> MoveLine:
        """The move line with the name and the cue that the long form gives beside it."""
        for key, strict in (("name", True), ("taught_as", False)):
            if symbol := self.words(entries.get(key)):
                if line.name is not None:
                    message = f"This step is named twice: “{line.name.symbol.text}” and “{symbol.text}”."
                    self.find(symbol.span, Code.DUPLICATE_KEY, message, "one name")
                else:
                    line = replace(line, name=NameSaid(symbol, strict))
        cue = self.read(entries.get("cue"), read_cue)
        if cue and line.cue:
            self.find(cue.span, Code.DUPLICATE_KEY, "This step has two cues.", "one cue")
        return replace(line, cue=line.cue or cue)


MISSING = {
    "id": ("`id: ` and a name of lower-case letters, digits and hyphens that stays the same for ever", "id: my-block"),
    "steps": ("`steps:` and below it a line a step, such as `- 1 off`", "steps:"),
}


def joined(words: list[Token], with_what: str) -> Token:
    """Words of several lines as one token."""
    return Token(with_what.join(word.text for word in words), words[0].span.to(words[-1].span))


def listed(piece: Token) -> list[Token]:
    """The entries of a list in one line; a comma inside parentheses belongs to a chord."""
    if comment := COMMENT.search(piece.text):
        piece = cut(piece, 0, comment.start())
    text = piece.text
    start = len(text) - len(text.lstrip("[ "))
    end = len(text.rstrip("] "))
    parts = (OUTSIDE_BRACKETS.finditer(text, start, end)) if start < end else ()
    return [stripped for part in parts if (stripped := trimmed(cut(piece, part.start(), part.end()))).text]


def trimmed(token: Token) -> Token:
    """The token without blanks at its ends."""
    lead = len(token.text) - len(token.text.lstrip())
    return cut(token, lead, max(lead, len(token.text.rstrip())))


def image_of(token: Token) -> Image:
    """`file.png what is to be seen`: the file, and the words that stand for it."""
    file, _, _ = token.text.partition(" ")
    rest = trimmed(cut(token, len(file), len(token.text)))
    return Image(cut(token, 0, len(file)), rest if rest.text else None)


def item_span(item: Item) -> Span:
    """The whole step, from its hyphen to its last word."""
    ends = [*item.words[-1:], *(word for entry in item.entries[-1:] for word in (entry.key, *entry.words[-1:]))]
    return item.hyphen.span.to(ends[-1].span) if ends else item.hyphen.span
