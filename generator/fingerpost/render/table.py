"""The table that hangs on the strings: string, fret, finger, note and interval, a column a string of the picture."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from fingerpost.course.model import StringRow
from fingerpost.render.named import named
from fingerpost.render.parts import hidden, read_as, tag
from fingerpost.render.plain import escaped
from fingerpost.render.voice import Voice


@dataclass(frozen=True)
class Cell:
    """What a cell shows and how it is read aloud; quiet where there is nothing to say."""

    shown: str
    aloud: str
    quiet: bool = False


def string_table(rows: Sequence[StringRow], voice: Voice, transposed: bool = False, capo: bool = False) -> str:
    """The table of a step.

    rows: highest-numbered string first, as in the picture. transposed: a row a string instead, string 1 on top, to
    stand beside a picture in the player's view. capo: the notes that are heard are given too.
    """
    kinds = [kind for kind in _KINDS if capo or kind != "sounds"]
    caption = tag("caption", escaped(voice.words.say("table.caption")), "fp-hidden")
    body = _across(rows, kinds, voice) if not transposed else _down(rows, kinds, voice)
    classes = "fp-strings fp-strings-down" if transposed else "fp-strings"
    return tag("table", caption + body, classes, data_strings=str(len(rows)))


def _across(rows: Sequence[StringRow], kinds: Sequence[str], voice: Voice) -> str:
    """A column a string."""
    top = _row_head("string", voice) + "".join(_string_head(row, voice, "col") for row in rows)
    body = "".join(
        tag("tr", _row_head(kind, voice) + "".join(_cell(kind, row, voice) for row in rows), f"fp-row-{kind}")
        for kind in kinds
    )
    return tag("thead", tag("tr", top)) + tag("tbody", body)


def _down(rows: Sequence[StringRow], kinds: Sequence[str], voice: Voice) -> str:
    """A row a string, string 1 on top."""
    head = "".join(
        tag("th", escaped(voice.words.say(f"table.{kind}")), f"fp-row-{kind}", scope="col")
        for kind in ("string", *kinds)
    )
    body = "".join(
        tag("tr", _string_head(row, voice, "row") + "".join(_cell(kind, row, voice) for kind in kinds))
        for row in reversed(rows)
    )
    return tag("thead", tag("tr", head)) + tag("tbody", body)


def _row_head(kind: str, voice: Voice) -> str:
    return tag("th", escaped(voice.words.say(f"table.{kind}")), scope="row")


def _string_head(row: StringRow, voice: Voice, scope: str) -> str:
    letter = voice.letter(row.string)
    if letter is None:
        return tag("th", str(row.string), scope=scope, aria_label=voice.words.say("table.column", number=row.string))
    aloud = voice.words.say("table.column_letter", number=row.string, letter=letter)
    return tag("th", f"{named(letter)} <small>{row.string}</small>", scope=scope, aria_label=aloud)


def _cell(kind: str, row: StringRow, voice: Voice) -> str:
    cell = _KINDS[kind](row, voice)
    content = read_as(cell.shown, cell.aloud)
    if not row.changed or kind == "finger":
        return tag("td", content, "fp-quiet" if cell.quiet else "")
    mark = hidden(" " + voice.words.say("table.changed")) if kind in _SAID_TO_CHANGE else ""
    return tag("td", tag("ins", content) + mark, "fp-new fp-quiet" if cell.quiet else "fp-new")


def _fret(row: StringRow, voice: Voice) -> Cell:
    if row.fret is None:
        return Cell(voice.words.say("table.not_struck"), voice.words.say("table.not_struck_spoken"), quiet=True)
    if row.fret == 0:
        return Cell(voice.words.say("table.open"), voice.words.say("table.open_spoken"))
    return Cell(str(row.fret), str(row.fret))


def _nothing(voice: Voice) -> Cell:
    return Cell(voice.words.say("table.nothing"), voice.words.say("table.nothing_spoken"), quiet=True)


def _finger(row: StringRow, voice: Voice) -> Cell:
    return Cell(row.finger, row.finger) if row.finger else _nothing(voice)


def _note(row: StringRow, voice: Voice) -> Cell:
    return Cell(voice.note(row.note), voice.note_aloud(row.note)) if row.note else _nothing(voice)


def _interval(row: StringRow, voice: Voice) -> Cell:
    if row.interval is None:
        return _nothing(voice)
    return Cell(voice.interval_sign(row.interval), voice.interval(row.interval))


def _sounds(row: StringRow, voice: Voice) -> Cell:
    return Cell(voice.note(row.sounding), voice.note_aloud(row.sounding)) if row.sounding else _nothing(voice)


_KINDS: dict[str, Callable[[StringRow, Voice], Cell]] = {
    "fret": _fret,
    "finger": _finger,
    "note": _note,
    "interval": _interval,
    "sounds": _sounds,
}
_SAID_TO_CHANGE = frozenset({"note"})
