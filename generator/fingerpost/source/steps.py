"""The steps of a block, in one line or in the long form. A step that can't be read keeps its place, without a move."""

from __future__ import annotations

from dataclasses import dataclass, replace

from fingerpost.diagnostics import Code, Edit
from fingerpost.source.findings import quoted
from fingerpost.source.grammar import read_cue, read_move
from fingerpost.source.keys import STEP_KEYS, by_key
from fingerpost.source.outline import Entry, Item
from fingerpost.source.syntax import MoveLine, NameSaid, StepSyntax, Token
from fingerpost.source.values import Values, one_line

A_LIST = "a list, a step a line, such as `- 1 off`"

MOST_STEPS = 400
"""What comes after so many is not read, so that a hostile block costs little. By our own choice: the longest that we
know of has under a hundred."""


@dataclass(frozen=True, slots=True)
class Steps:
    """Reads the items under `steps`."""

    values: Values

    def all(self, entry: Entry) -> tuple[StepSyntax, ...]:
        """Every step in order, up to the bounds on findings and on steps."""
        findings = self.values.findings
        if entry.words and self.values.literal(entry.words[0]):
            findings.error(entry.words[0].span, Code.BAD_VALUE, "`steps` is given words", A_LIST)
        elif not entry.items:
            findings.error(entry.key.span, Code.BAD_VALUE, "`steps` has no step", A_LIST)
        steps = []
        for item in entry.items[:MOST_STEPS]:
            if findings.full:
                break
            steps.append(self.step(item))
        return (*steps, *self.too_many(entry.items))

    def too_many(self, items: list[Item]) -> tuple[StepSyntax, ...]:
        """What stands for the steps beyond the bound: one without a move, so that the hand is not known there."""
        if len(items) <= MOST_STEPS:
            return ()
        first, left = items[MOST_STEPS], len(items) - MOST_STEPS
        unread = "the last one was" if left == 1 else f"the last {left} were"
        message = f"This block has {len(items)} steps, and {unread} not read"
        expected = f"at most {MOST_STEPS} steps in a block"
        fix = "End the block above this step, and begin another one here with `start: previous`."
        self.values.findings.error(first.hyphen.span, Code.BLOCK_TOO_LARGE, message, expected, fix)
        return (StepSyntax(first.span.to(items[-1].span), None),)

    def step(self, item: Item) -> StepSyntax:
        """One step."""
        if not item.entries:
            line = self.short(item)
            return StepSyntax(item.span, line, unread=self.unread(line, item.words))
        values, entries = self.values, by_key(item.entries, STEP_KEYS, self.values.findings)
        line = self.hung(item, entries) if item.words else self.long(item, entries)
        return StepSyntax(
            item.span,
            self.completed(line, entries),
            say=values.words(entries.get("say")),
            id=values.id(entries.get("id")),
            beats=values.count(entries.get("beats")),
            pattern=values.strokes(entries.get("pattern")),
            easier=values.words(entries.get("or")),
            image=values.image(entries.get("image")),
            unread=self.unread(line, entries["move"].words if "move" in entries else item.words),
            unread_name=self.unread_name(line, entries),
        )

    def unread(self, line: MoveLine | None, words: list[Token]) -> Token | None:
        """The words of a move that could not be read."""
        return one_line(words) if line is None else None

    def unread_name(self, line: MoveLine | None, entries: dict[str, Entry]) -> NameSaid | None:
        """The name that stands beside a move that could not be read."""
        symbol = one_line(entries["name"].words) if line is None and "name" in entries else None
        return None if symbol is None else NameSaid(symbol, True)

    def short(self, item: Item) -> MoveLine | None:
        """The move of a one-line step."""
        if not item.words:
            self.without_move(item)
            return None
        if len(item.words) > 1:
            message = "A move is one line, and here a second one follows"
            self.values.findings.error(item.words[1].span, Code.BAD_VALUE, message, "one line")
        token = self.values.literal(item.words[0])
        return self.values.taken(read_move(token)) if token else None

    def long(self, item: Item, entries: dict[str, Entry]) -> MoveLine | None:
        """The move of a step in the long form."""
        if "move" not in entries:
            self.without_move(item)
        return self.values.read(entries.get("move"), read_move)

    def hung(self, item: Item, entries: dict[str, Entry]) -> MoveLine | None:
        """The move of a one-line step under which keys hang; they are read as if it were in the long form."""
        first, key, findings = item.words[0], item.entries[0].key, self.values.findings
        if "move" in entries:
            findings.error(entries["move"].key.span, Code.DUPLICATE_KEY, "This step has a second move", "one move")
        message = f"`{key.text}` stands under a step in one line"
        expected = "`move:` before the move of a step that has keys"
        findings.slip(first.span, message, expected, f"- move: {first.text}", Edit(first.span.part(0, 0), "move: "))
        return self.short(item)

    def without_move(self, item: Item) -> None:
        """The finding about a step that says nothing of the hand."""
        span, expected = item.hyphen.span, "a move, such as `- 1 off`; `hold` where nothing changes"
        self.values.findings.error(span, Code.MISSING_KEY, "This step has no move", expected)

    def completed(self, line: MoveLine | None, entries: dict[str, Entry]) -> MoveLine | None:
        """The move line with the name and the cue that the long form gives beside it."""
        cue = self.values.read(entries.get("cue"), read_cue)
        for key, strict in (("name", True), ("taught_as", False)):
            symbol = self.values.words(entries.get(key))
            if symbol is None or line is None:
                continue
            if line.name is None:
                line = replace(line, name=NameSaid(symbol, strict, mark_of(entries[key].key)))
                continue
            message = f"This step is named twice, {quoted(line.name.symbol.text)} and {quoted(symbol.text)}"
            self.values.findings.error(symbol.span, Code.DUPLICATE_KEY, message, "one name")
        if line is None or cue is None:
            return line
        if line.cue is not None:
            self.values.findings.error(cue.span, Code.DUPLICATE_KEY, "This step has two cues", "one cue")
            return line
        return replace(line, cue=cue)


def mark_of(key: Token) -> Token | None:
    """The key as the mark of a name; None where its colon stands inside it, so that it is not what it says."""
    return key if key.span.end_column - key.span.column == len(key.text) else None
