"""Where the lines of a thread deny each other: the one small edit that makes all of them hold, if there is one.

A wrong finger is often denied only lines later, where another is to lift it. So the edit is looked for from the first
line that is denied backwards: a word of a line or of the start, a step that is missing, two that stand in the wrong
order, one too many.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from fingerpost.course.agreement import agrees
from fingerpost.course.ground import Ground
from fingerpost.course.meant.edits import Missing, OneEdit, Surplus
from fingerpost.course.meant.edits_near import candidates
from fingerpost.course.meant.search import Candidate, Search
from fingerpost.course.meant.thread import Row, Thread
from fingerpost.course.meant.trial import Trial
from fingerpost.course.meant.weighing import Weighing, strand_of
from fingerpost.course.perform import Held
from fingerpost.music.chord import Chord
from fingerpost.music.shape import Shape

NAME = 0.9
"""How unlikely a wrong name is, by the measure of the edits. By our own choice."""
MOST_FOUND = 80


@dataclass(frozen=True)
class Found:
    """The edit, the index of the first row that is denied without it (-1: the start's name), the hand after the edit.

    first: the row that follows on it. only_name: what is held after the denied row where nothing is denied but its
    name, so that the name may be the slip. likelier: whether the edit is likelier than that the name is wrong.
    unheard: no sound changes with the edit. shows: the chord that a missing step shows, if the block teaches it and no
    line shows it.
    """

    edit: OneEdit
    denied: int
    held: Held
    first: int
    only_name: Shape | None
    likelier: bool
    unheard: bool
    shows: Chord | None


def one_slip(thread: Thread, ground: Ground) -> Found | None:
    """The likeliest edit that makes all lines hold; None where all hold as they are, or no one edit does it."""
    trial, search = searched(thread, ground)
    if search is None:
        return None
    told = search.denied
    only_name = _only_name(search)
    found = list[Candidate]()
    for candidate in candidates(search):
        if trial.spent or len(found) >= MOST_FOUND:
            break
        if _is_told(candidate, trial.rows, told) and trial.holds(candidate.held, candidate.first):
            found.append(candidate)
    if not found:
        return None
    weighing = Weighing(search)
    weights = [weighing.of(candidate) for candidate in found]
    lightest = min(weights)
    best = found[weights.index(lightest)]
    likelier = only_name is None or lightest < NAME + weighing.reading(weighing.as_written())
    shows = weighing.shows(best, strand_of(best.edit, search)) if isinstance(best.edit, Missing) else None
    return Found(best.edit, search.denied, best.held, best.first, only_name, likelier, best.unheard, shows)


def searched(thread: Thread, ground: Ground) -> tuple[Trial, Search | None]:
    """Where the lines of a thread first deny each other; no search where they all hold."""
    trial = Trial(thread.rows, ground)
    start = thread.strands[0].syntax.start
    begins = agrees(thread.start.shape, None if start is None else start.name, ground) is not False
    befores = trial.until_denied(thread.start) if begins else [thread.start]
    denied = len(befores) - 1 if begins else -1
    if denied == len(trial.rows):
        return trial, None
    trial.known_denied(befores if begins else ())
    return trial, Search(thread, trial, befores, denied)


def _is_told(candidate: Candidate, rows: Sequence[Row], denied: int) -> bool:
    """Whether a name from the line that is denied on tells that the edit is right; a line left out tells nothing."""
    edit = candidate.edit
    left_out = edit.at if isinstance(edit, Surplus) else None
    ahead = (row.name for at, row in enumerate(rows) if at >= denied and at != left_out)
    return any(name is not None and name.strict for name in ahead)


def _only_name(search: Search) -> Shape | None:
    trial, before, denied = search.trial, search.befores[-1], search.denied
    after = before if denied < 0 else trial.performed(before, denied)
    return after.shape if after is not None and trial.holds(after, denied + 1) else None
