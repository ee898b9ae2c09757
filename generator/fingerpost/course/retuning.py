"""What has to be retuned, and where the capo goes, between one block and the next."""

from __future__ import annotations

from fingerpost.course.model import Retuning
from fingerpost.music.fretboard import Fretboard


def retuning(before: Fretboard, after: Fretboard) -> Retuning | None:
    """What changes from one neck to the next, strings highest-numbered first; None where nothing does.

    Where the numbers of strings differ it is another instrument: every string is then given with its own pitch twice.
    """
    if before.strings == after.strings:
        pairs = [(string, before.tuning.pitch(string), after.tuning.pitch(string)) for string in _strings(after)]
        changed = tuple((string, str(old), str(new)) for string, old, new in pairs if old != new)
    else:
        changed = tuple((string, str(p), str(p)) for string in _strings(after) for p in [after.tuning.pitch(string)])
    if not changed and before.capo == after.capo:
        return None
    return Retuning(changed, before.capo, after.capo)


def _strings(fretboard: Fretboard) -> range:
    return range(fretboard.strings, 0, -1)
