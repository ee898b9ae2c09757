"""A step in words and figures: its name, what each string does, what the hand does, how hard it is."""

from __future__ import annotations

from dataclasses import dataclass

from fingerpost.course.ground import Ground
from fingerpost.course.model import Step, StringRow
from fingerpost.course.table import table
from fingerpost.music.difficulty import difficulty
from fingerpost.music.shape_text import write_shape
from fingerpost.render import wording
from fingerpost.render.catalogue import sentence
from fingerpost.render.voice import REAL_SIGNS, Voice
from fingerpost.render.wording_notes import capo_names, step_notes


@dataclass(frozen=True)
class Told:
    """head: the name. table: lines to be shown in letters of one width. words: lines of text."""

    head: str
    table: tuple[str, ...] = ()
    words: tuple[str, ...] = ()


def tell(step: Step, ground: Ground) -> Told:
    """All that an author wants to know of a step."""
    voice = Voice(tuning=ground.fretboard.tuning, style=ground.style or REAL_SIGNS)
    words = [*_hand(step, ground, voice), *map(sentence, step_notes(step, voice))]
    if capo := capo_names(step.naming, voice):
        words.append(capo)
    if step.transition is not None:
        words.append(_difficulty(step, ground))
    return Told(_head(step, voice), () if step.rest else tuple(_table(step, ground, voice)), tuple(words))


def _head(step: Step, voice: Voice) -> str:
    if step.rest:
        return "The hand rests"
    if step.naming.shown is None:
        return "Nothing sounds"
    short, exact = voice.chord(step.naming.shown), _exact(step, voice)
    return short if exact in ("", short) else f"{short} (exactly {exact})"


def _exact(step: Step, voice: Voice) -> str:
    """The name of just what sounds: the reading that is shown, with what it leaves out said."""
    naming = step.naming
    wanted = naming.strict or naming.shown
    found = next((name for name in naming.ranked if name.chord == wanted), None)
    return voice.chord(found.exact_chord if found is not None else naming.strict)


def _table(step: Step, ground: Ground, voice: Voice) -> list[str]:
    rows = table(step.shape, None, step.naming.shown, step.naming.sounding, ground.fretboard)
    lines = [
        ("string", [voice.letter(row.string) or str(row.string) for row in rows]),
        ("fret", ["×" if row.fret is None else str(row.fret) for row in rows]),
        ("finger", [row.finger or "–" for row in rows]),
        ("note", [voice.note(row.note) if row.note else "–" for row in rows]),
        ("interval", [voice.interval_sign(row.interval) if row.interval else "–" for row in rows]),
    ]
    if ground.fretboard.capo:
        lines.append(("sounds", [_sounding(row, voice) for row in rows]))
    width = max(len(cell) for _, cells in lines for cell in cells) + 1
    return [f"{label:<9}" + "".join(f"{cell:<{width}}" for cell in cells).rstrip() for label, cells in lines]


def _sounding(row: StringRow, voice: Voice) -> str:
    return voice.note(row.sounding) if row.sounding else "–"


def _hand(step: Step, ground: Ground, voice: Voice) -> list[str]:
    if step.rest:
        return ["No finger is down."]
    down = [f"{voice.finger(press.finger)} on {voice.place(press)}" for press in step.shape.presses]
    damped = [f"{voice.finger(finger)} damps {voice.string(string)}" for string, finger in step.shape.damped]
    hand = [f"Hand: {'; '.join([*down, *damped]) or 'no finger is down'}.", f"Shape: {write_shape(step.shape)}"]
    if step.transition is None:
        return hand
    stays = wording.stays(step.transition, voice)
    return [*([stays] if stays else []), wording.moves(step.transition, voice), *hand]


def _difficulty(step: Step, ground: Ground) -> str:
    assert step.transition is not None
    hard = difficulty(step.transition, ground.fretboard, ground.hand)
    parts = ", ".join(f"{name} {points:g}" for name, points in hard.parts)
    return f"Difficulty of the change: {hard.total:g}" + (f" ({parts})." if parts else ".")
