"""What an editor offers to write at a cursor: in a block by its grammar, in a mention by what the course holds."""

from __future__ import annotations

from lsprotocol import types

from fingerpost.course.ledger import TECHNIQUES
from fingerpost.editor import explained_keys, mention_completion, move_completion, offers, start_completion
from fingerpost.editor.block_text import Written, written
from fingerpost.editor.desk import Place
from fingerpost.editor.offered import NOTHING, Offered, by_number, for_last_word
from fingerpost.editor.offers import Offer
from fingerpost.editor.sheet import BlockHere, Sheet
from fingerpost.music import chord_symbol
from fingerpost.music.tuning import NAMED


def completion(place: Place, line: int, column: int) -> types.CompletionList:
    """What may be written at a place, counted from 1; the likeliest first."""
    sheet = Sheet.of(place)
    offered = NOTHING if sheet is None else _offered(sheet, line, column)
    lines = place.text.lines
    start = types.Position(*lines.to_client(line, column - offered.replaced))
    where = types.Range(start, types.Position(*lines.to_client(line, column)))
    items = [_item(offer, index, where, offered.kind) for index, offer in enumerate(offered.offers)]
    # What is in reach depends on what was typed, so the editor has to ask again rather than keep the list.
    return types.CompletionList(is_incomplete=True, items=items)


def _item(offer: Offer, index: int, where: types.Range, kind: types.CompletionItemKind) -> types.CompletionItem:
    return types.CompletionItem(
        label=offer.text,
        kind=kind,
        detail=offer.about or None,
        sort_text=f"{index:04}",
        filter_text=offer.found_by or offer.text,
        text_edit=types.TextEdit(where, offer.text),
        preselect=index == 0 or None,
    )


def _offered(sheet: Sheet, line: int, column: int) -> Offered:
    here = sheet.block_at(line)
    if here is None:
        before = sheet.place.text.lines.line(line)[: column - 1]
        found = mention_completion.MENTION.search(before)
        return NOTHING if found is None else mention_completion.in_mention(found[1], found[2], sheet, line)
    at = written(here, line, column)
    if at is None:
        return NOTHING
    if at.key is None:
        return _keys(at)
    return _value(at, here, sheet, line)


def _keys(at: Written) -> Offered:
    about = explained_keys.STEP if at.of_step else explained_keys.BLOCK
    typed = at.words.text
    if typed and not typed.replace("_", "").isalpha():
        return NOTHING
    found = tuple(Offer(f"{key}:", says) for key, says in about.items())
    return Offered(found, len(typed), types.CompletionItemKind.Property)


def _value(at: Written, here: BlockHere, sheet: Sheet, line: int) -> Offered:
    if at.key == "move":
        return move_completion.in_move(at.words, move_completion.held_before(here, line), here)
    if at.key == "start":
        return start_completion.in_start(at.words, here, sheet, line)
    if at.key in ("name", "taught_as"):
        step = here.step_at(line)
        return Offered(tuple(offers.names(step.shape, here.ground)) if step else (), len(at.words.text))
    if at.key == "strum":
        return for_last_word(at.words.text, offers.strings(here.ground, by_number(at.words.text)))
    if at.key == "teaches":
        shown = (step for step in (here.block.steps if here.block else ()) if step.naming.shown is not None)
        chords = dict.fromkeys(chord_symbol.write(step.naming.shown) for step in shown if step.naming.shown)
        techniques = [Offer(technique, "technique") for technique in TECHNIQUES]
        return for_last_word(at.words.text, [*(Offer(chord, "shown in this block") for chord in chords), *techniques])
    if at.key == "tuning":
        found = tuple(Offer(name, str(tuning)) for name, tuning in NAMED.items())
        return Offered(found, len(at.words.text))
    return NOTHING
