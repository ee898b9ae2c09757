"""What a line does to the sound, held against what it promises: silence, a new note, a damping that goes on."""

from __future__ import annotations

from collections.abc import Iterator

from fingerpost.course.slip import error, note, warning
from fingerpost.course.words import finger_word, sentence, strings_word
from fingerpost.diagnostics import Code, Diagnostic, Span
from fingerpost.music.fretboard import Fretboard
from fingerpost.music.move import Strum, lapsed, write_move
from fingerpost.music.shape import Finger, Shape
from fingerpost.source.syntax import (
    Action,
    Back,
    ExchangeFinger,
    Hold,
    LiftFinger,
    MoveLine,
    PlaceFinger,
    Rest,
    ShiftHand,
)

SILENT_BY_NATURE = (Hold, Rest, Back, ExchangeFinger)


def sound_findings(
    line: MoveLine, before: Shape, after: Shape, fretboard: Fretboard, name_holds: bool
) -> Iterator[Diagnostic]:
    """Findings about what is heard. name_holds: the author's name takes in what sounds, so it is meant."""
    changes = before.frets != after.frets
    if line.silent is not None and changes:
        yield _changes_after_all(line, before, after)
    if line.silent is None:
        unheard = list(_unheard(line, before, after, fretboard))
        yield from unheard
        by_nature = all(isinstance(action, SILENT_BY_NATURE) for action in line.actions)
        if not changes and not unheard and not by_nature:
            yield _no_change(line, after)
    yield from _lapses(line, before, after, fretboard, name_holds)


def _changes_after_all(line: MoveLine, before: Shape, after: Shape) -> Diagnostic:
    assert line.silent is not None
    changed = [string for string in range(before.strings, 0, -1) if before.fret(string) != after.fret(string)]
    verb = "sounds" if len(changed) == 1 else "sound"
    message = f"This step is said to be silent, and {strings_word(changed)} {verb} otherwise than before"
    return error(
        line.silent.span, Code.SOUND_CHANGES_AFTER_ALL, message, "a move that changes no sound, or no `silent`",
        "leave out `silent`",
    )  # fmt: skip


def _unheard(line: MoveLine, before: Shape, after: Shape, fretboard: Fretboard) -> Iterator[Diagnostic]:
    """Fingers that newly press only strings that do not sound, because they are not struck or are damped."""
    for action in line.actions:
        press = after.press_of(Finger.from_mark(action.finger.text)) if isinstance(action, PlaceFinger) else None
        if (
            press is None
            or not isinstance(action, PlaceFinger)
            or before.press_of(press.finger or Finger.INDEX) == press
        ):
            continue
        if all(after.fret(string) is None for string in press.strings):
            struck = frozenset(after.sounding_strings) | frozenset(press.strings)
            fix = f"{action_text(action)}, {write_move(Strum(struck), fretboard.tuning)}"
            why = "not struck" if set(press.strings) & after.unstruck else "damped"
            yield warning(
                action.place.span,
                Code.PRESSED_BUT_NOT_STRUCK,
                f"{sentence(finger_word(press.finger or Finger.INDEX))} goes to {strings_word(list(press.strings))}, "
                f"which {'is' if not press.is_bar else 'are'} {why}, so it stays unheard",
                "a string that is struck, a `strum` that takes this one in, or `silent` after the move",
                fix,
            )


def action_text(action: PlaceFinger) -> str:
    """A placement as it was written, string and fret of the author's."""
    spot = _spot(action.place.low.text, action.place.fret.text)
    if action.place.high is not action.place.low and action.place.high != action.place.low:
        spot += "-" + _spot(action.place.high.text, action.place.high_fret.text)
    return f"{action.finger.text} to {spot}"


def _spot(string: str, fret: str) -> str:
    return f"{string}:{fret}" if string.isdigit() else string + fret


def _no_change(line: MoveLine, after: Shape) -> Diagnostic:
    span = line.actions[0].span.to(line.actions[-1].span)
    why = next(
        (text for action in line.actions if (text := _behind(action, after))), "No string sounds otherwise after it"
    )
    return warning(
        span, Code.NO_SOUND_CHANGES, why, "a move that is heard, or `silent` after it", f"{line.text.text} silent"
    )


def _behind(action: Action, after: Shape) -> str:
    """Why a placement changes nothing: another finger is before it on the same string."""
    if not isinstance(action, PlaceFinger):
        return ""
    press = after.press_of(Finger.from_mark(action.finger.text))
    for string in press.strings if press else ():
        other = after.sounding_press(string)
        if press and other and other != press and other.finger is not None and press.finger is not None:
            return (
                f"{sentence(finger_word(press.finger))} lies behind {finger_word(other.finger)} on string {string}, "
                "so no sound changes"
            )
    return ""


def _lapses(
    line: MoveLine, before: Shape, after: Shape, fretboard: Fretboard, name_holds: bool
) -> Iterator[Diagnostic]:
    for string, finger in lapsed(before, after):
        if after.fret(string) is None or after.sounding_press(string) != before.sounding_press(string):
            continue
        called = fretboard.tuning.letter(string) or str(string)
        message = f"{sentence(finger_word(finger))} no longer damps string {string}, so that string sounds again"
        say = note if name_holds else warning
        expected = f"`mute {called}` to leave the string unstruck, or a finger that damps it"
        yield say(_action_of(line, finger), Code.DAMPING_LAPSED, message, expected, f"{line.text.text}, mute {called}")


def _action_of(line: MoveLine, finger: Finger) -> Span:
    for action in line.actions:
        if isinstance(action, PlaceFinger | LiftFinger | ExchangeFinger) and action.finger.text.upper() == finger.mark:
            return action.span
        if isinstance(action, ShiftHand):
            return action.span
    return line.text.span
