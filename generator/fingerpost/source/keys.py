"""The keys of a block and of a step, and what is said about one that is not known or stands twice."""

from __future__ import annotations

from fingerpost.diagnostics import Code, Edit
from fingerpost.source.findings import Findings
from fingerpost.source.mending import nearest, only_near
from fingerpost.source.outline import Entry
from fingerpost.source.references import refuse
from fingerpost.source.syntax import Token
from fingerpost.source.typing_slips import meant_by, slips_between

BLOCK_KEYS = ("id", "title", "start", "strum", "key", "tuning", "capo", "teaches", "fingers_per_step", "steps")
STEP_KEYS = ("move", "name", "taught_as", "cue", "say", "id", "beats", "pattern", "or", "image")
WHERE: dict[tuple[str, ...], str] = {BLOCK_KEYS: "the block", STEP_KEYS: "a step"}


def by_key(entries: list[Entry], known: tuple[str, ...], findings: Findings) -> dict[str, Entry]:
    """The entries by key; unknown and repeated ones are reported, and the first of a key counts.

    One that is misspelt beyond doubt is read as the key that it stands for, so that nothing else is found missing.
    """
    kept: dict[str, Entry] = {}
    there = {entry.key.text for entry in entries}
    for entry in entries:
        if findings.full:
            break
        key = entry.key
        if key.text == "<<":
            refuse(key, findings)
        elif key.text not in known:
            if meant := _unknown(key, known, there, findings):
                kept.setdefault(meant, entry)
        elif first := kept.get(key.text):
            where, line = WHERE[known], first.key.span.line
            message = f"`{key.text}` is given twice in {where}; the first, on line {line}, counts"
            findings.error(key.span, Code.DUPLICATE_KEY, message, f"`{key.text}` once")
        else:
            kept[key.text] = entry
    return kept


def _unknown(key: Token, known: tuple[str, ...], there: set[str], findings: Findings) -> str:
    """The finding about a key that is not known; gives the key that is meant, "" where that is not beyond doubt."""
    others = STEP_KEYS if known is BLOCK_KEYS else BLOCK_KEYS
    typed = key.text.replace(" ", "_")
    fix = nearest(typed, known) or meant_by(typed, [other for other in known if other not in there])
    message = f"`{key.text}` is not a key of {WHERE[known]}"
    if key.text in others:
        message, fix = f"`{key.text}` is a key of {WHERE[others]}, not of {WHERE[known]}", ""
    # A key that is there already can't be meant a second time; where two are near, the author has to say which.
    one_slip_away = [other for other in known if slips_between(key.text, other) is not None]
    meant = fix if fix not in there and (only_near(key.text, known) or one_slip_away == [fix]) else ""
    edits = (Edit(key.span, meant),) if meant else ()
    findings.error(key.span, Code.UNKNOWN_KEY, message, "one of " + ", ".join(known), fix, *edits)
    return meant
