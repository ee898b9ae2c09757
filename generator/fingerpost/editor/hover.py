"""What is said about the place under the pointer: a step, a mention, a key; and why a finding is one."""

from __future__ import annotations

from lsprotocol import types

from fingerpost.diagnostics import Span
from fingerpost.editor import explained_keys
from fingerpost.editor.as_lsp import explanation, findings_of, range_of
from fingerpost.editor.block_text import written
from fingerpost.editor.desk import Place
from fingerpost.editor.sheet import BlockHere, Sheet, holds
from fingerpost.editor.step_told import Told, tell

Said = tuple[list[Told], Span | None]


def hover(place: Place, line: int, column: int, markdown: bool) -> types.Hover | None:
    """The words for a place, counted from 1; None where there is nothing to say."""
    sheet = Sheet.of(place)
    told, span = ([], None) if sheet is None else _at(sheet, line, column)
    findings = [finding for finding in findings_of(place) if holds(finding.span, line, column)]
    told = [*told, *(_explained(explanation(finding)) for finding in findings)]
    if not told:
        return None
    span = span or findings[0].span
    write = _markdown if markdown else _plain
    kind = types.MarkupKind.Markdown if markdown else types.MarkupKind.PlainText
    return types.Hover(types.MarkupContent(kind, "\n\n".join(map(write, told))), range_of(span, place.text.lines))


def _explained(words: list[str]) -> Told:
    return Told(words[0], words=tuple(words[1:])) if words else Told("")


def _at(sheet: Sheet, line: int, column: int) -> Said:
    if (mention := sheet.mention_at(line, column)) is not None:
        meaning = sheet.meaning(mention)
        if meaning is None or meaning.step is None:
            return [], None
        where = Told("", words=(f"Block {meaning.block_id}, in {meaning.lesson}.",))
        ground = _ground(sheet, meaning.lesson, meaning.block_id)
        return ([tell(meaning.step, ground.ground), where] if ground is not None else [where]), mention.span
    here = sheet.block_at(line)
    return ([], None) if here is None else _in_block(here, line, column)


def _in_block(here: BlockHere, line: int, column: int) -> Said:
    at = written(here, line)
    if at is None:
        return [], None
    if at.key_token is not None and holds(at.key_token.span, line, column):
        about = (explained_keys.STEP if at.of_step else explained_keys.BLOCK).get(at.key_token.text)
        return ([Told(at.key_token.text, words=(about,))] if about else []), at.key_token.span
    step = here.step_at(line)
    if step is None or at.key not in (None, "move", "name", "taught_as", "start"):
        return [], None
    return [tell(step, here.ground)], at.words.span


def _ground(sheet: Sheet, file: str | None, block_id: str | None) -> BlockHere | None:
    """The block that a mention leads to, wherever in the course it stands."""
    read = next((page for page in sheet.checked.pages if page.syntax.file == file), None)
    if read is None or file is None:
        return None
    there = Sheet(sheet.place, sheet.checked, read, sheet.checked.course.lesson(file))
    return next((b for b in there.blocks() if b.syntax.id is not None and b.syntax.id.text == block_id), None)


def _markdown(told: Told) -> str:
    table = "```text\n" + "\n".join(told.table) + "\n```" if told.table else ""
    head = f"**{_escaped(told.head)}**" if told.head else ""
    return "\n\n".join(part for part in (head, table, *map(_escaped, told.words)) if part)


def _plain(told: Told) -> str:
    return "\n".join(part for part in (told.head, *told.table, *told.words) if part)


def _escaped(text: str) -> str:
    """Words that no reader of Markdown takes for markup; what is in backticks is code already."""
    parts = text.split("`")
    if len(parts) % 2 == 0:
        parts = [text.replace("`", "'")]
    return "`".join(part if index % 2 else _plainly(part) for index, part in enumerate(parts))


def _plainly(text: str) -> str:
    return "".join(f"\\{char}" if char in "\\*_[]<>#|~!&" else char for char in text)
