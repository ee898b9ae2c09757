"""Whether the lines of a thread hold from a shape on: each can be done, and no name or promise of sound is denied."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace

from fingerpost.course.agreement import is_called
from fingerpost.course.ground import Ground
from fingerpost.course.meant.ready_line import ReadyLine, ready
from fingerpost.course.meant.thread import Joint, Row
from fingerpost.course.moves import strum_of
from fingerpost.course.naming import chord_or_none
from fingerpost.course.perform import Held
from fingerpost.course.slip import Slip
from fingerpost.music.chord import Chord
from fingerpost.music.move import Move
from fingerpost.music.shape import Shape

MOST_TRIED = 600
"""After so many lines done in trials of one block no more are tried, so that a hostile block costs little."""


@dataclass
class Trial:
    """Does lines of a thread in trials; done counts them. What was found out of a hand and a line is kept."""

    rows: Sequence[Row]
    ground: Ground
    done: int = 0
    _ready: dict[int, ReadyLine] = field(default_factory=dict)
    _chords: dict[int, Chord | None] = field(default_factory=dict)
    _holds: dict[tuple[Shape, Shape | None, int], bool] = field(default_factory=dict)
    _after: dict[tuple[Shape, Shape | None, int], Held | None] = field(default_factory=dict)

    @property
    def spent(self) -> bool:
        """Whether no more is to be tried."""
        return self.done >= MOST_TRIED

    def chord(self, at: int) -> Chord | None:
        """The chord that a line claims, if it claims one that can be read."""
        if at not in self._chords:
            said = self.rows[at].name
            self._chords[at] = None if said is None or not said.strict else chord_or_none(said.symbol)
        return self._chords[at]

    def after(self, held: Held, at: int, instead: Mapping[int, Move] | None = None) -> Held | None:
        """The hand after a line that holds; None where it does not."""
        if instead is not None:
            return self._agreeing(self.performed(held, at, instead), at)
        key = (held.shape, held.before_rest, at)
        if key not in self._after:
            self._after[key] = self._agreeing(self.performed(held, at), at)
        return self._after[key]

    def _agreeing(self, after: Held | None, at: int) -> Held | None:
        chord = None if after is None else self.chord(at)
        if after is None or chord is None:
            return after
        return after if is_called(None if after.resting else after.shape, chord, self.ground) else None

    def performed(self, held: Held, at: int, instead: Mapping[int, Move] | None = None) -> Held | None:
        """The same, whatever the name says."""
        self.done += 1
        row = self.rows[at]
        if isinstance(row, Joint):
            return _joined(held, row, self.ground)
        if at not in self._ready:
            self._ready[at] = ready(row, self.ground)
        return self._ready[at].after(held, self.ground, instead or {})

    def without(self, held: Held, at: int, action: int) -> Held | None:
        """The hand after a line that holds without one of its actions; None where it does not."""
        self.done += 1
        row = self.rows[at]
        if isinstance(row, Joint):
            return None
        short = replace(row, actions=(*row.actions[:action], *row.actions[action + 1 :]))
        return self._agreeing(ready(short, self.ground).after(held, self.ground, {}), at)

    def holds(self, held: Held, first: int) -> bool:
        """Whether all lines from the one at `first` on hold; False too where no more is to be tried."""
        seen, answer = list[tuple[Shape, Shape | None, int]](), True
        for at in range(first, len(self.rows)):
            key = (held.shape, held.before_rest, at)
            if key in self._holds:
                answer = self._holds[key]
                break
            seen.append(key)
            after = None if self.spent else self.after(held, at)
            if after is None:
                answer = False
                break
            held = after
        self._holds.update(dict.fromkeys(seen, answer))
        return answer

    def known_denied(self, befores: Sequence[Held]) -> None:
        """Notes that a thread does not hold from here on: the hand before each line up to the denied one."""
        self.done = 0
        self._holds.update({(held.shape, held.before_rest, at): False for at, held in enumerate(befores)})

    def until_denied(self, held: Held, first: int = 0) -> list[Held]:
        """The hand before each line from the one at `first` up to the first that does not hold, that one included."""
        out = [held]
        for at in range(first, len(self.rows)):
            after = self.after(out[-1], at)
            if after is None:
                break
            out.append(after)
        return out


def _joined(held: Held, joint: Joint, ground: Ground) -> Held | None:
    """The hand that another block goes on with: after a rest the shape before it, perhaps with other strings struck."""
    shape = held.before_rest or held.shape
    if joint.strum is not None:
        try:
            struck = strum_of(joint.strum, ground.fretboard).strings
        except Slip:
            return None
        shape = shape.with_struck(struck)
    return Held(shape)
