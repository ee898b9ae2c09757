"""Whether the lines of a block hold from a shape on: each can be done, and no name or promise of sound is denied."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from fingerpost.course.ground import Ground
from fingerpost.course.heard import heard_of
from fingerpost.course.naming import symbol_of
from fingerpost.course.perform import Held, perform
from fingerpost.course.slip import Slip
from fingerpost.course.sound import SILENT_BY_NATURE
from fingerpost.music.chord import Chord
from fingerpost.music.chord_name import fit
from fingerpost.music.move import Move
from fingerpost.music.shape import Press, Shape
from fingerpost.source.syntax import MoveLine, NameSaid, Token

MOST_LINES_DONE = 1_500
"""After so many lines done in trials of one block no more are tried, so that a hostile block costs little."""


def agrees(shape: Shape | None, said: NameSaid | None, ground: Ground) -> bool | None:
    """Whether a claimed name agrees with a shape (None: the hand rests); None where there is no name that tells."""
    chord = None if said is None or not said.strict else chord_or_none(said.symbol)
    if chord is None:
        return None
    heard = None if shape is None else heard_of(shape, ground.fretboard)
    if heard is None:
        return False
    return fit(chord, heard.pitch_classes, heard.bass).holds and chord.bass in (None, chord.note_of(heard.bass))


def chord_or_none(token: Token) -> Chord | None:
    """The chord that a token names, None where it can't be read."""
    try:
        return symbol_of(token)
    except Slip:
        return None


@dataclass
class Trial:
    """Does lines of a block in trials; done counts them, known keeps what has been found out of a shape and a line."""

    lines: Sequence[MoveLine]
    ground: Ground
    done: int = 0
    known: dict[tuple[Shape, Shape | None, int], bool] = field(default_factory=dict)

    @property
    def spent(self) -> bool:
        """Whether no more is to be tried."""
        return self.done >= MOST_LINES_DONE

    def after(self, held: Held, line: MoveLine, instead: Mapping[int, Move] | None = None) -> Held | None:
        """The hand after a line that holds; None where it does not."""
        after = self.performed(held, line, instead)
        denied = after is None or agrees(None if after.resting else after.shape, line.name, self.ground) is False
        return None if denied else after

    def performed(self, held: Held, line: MoveLine, instead: Mapping[int, Move] | None = None) -> Held | None:
        """The same, whatever the name says."""
        self.done += 1
        try:
            done = perform(held, line, self.ground, instead)
        except Slip:
            return None
        return None if done.findings or not _sounds_as_promised(line, held, done.held) else done.held

    def holds(self, held: Held, first: int) -> bool:
        """Whether all lines from the one at `first` on hold; False too where no more is to be tried."""
        seen, answer = list[tuple[Shape, Shape | None, int]](), True
        for at in range(first, len(self.lines)):
            key = (held.shape, held.before_rest, at)
            if key in self.known:
                answer = self.known[key]
                break
            seen.append(key)
            after = None if self.spent else self.after(held, self.lines[at])
            if after is None:
                answer = False
                break
            held = after
        self.known.update(dict.fromkeys(seen, answer))
        return answer

    def until_denied(self, held: Held) -> list[Held]:
        """The hand before each line up to the first that does not hold, that one included."""
        out = [held]
        for line in self.lines:
            after = self.after(out[-1], line)
            if after is None:
                break
            out.append(after)
        return out

    def presses(self, held: Held, first: int) -> set[Press]:
        """Every place of a finger that occurs from here on."""
        out = set(held.shape.presses)
        for line in self.lines[first:]:
            after = self.performed(held, line)
            if after is None:
                break
            held = after
            out.update(held.shape.presses)
        return out


def _sounds_as_promised(line: MoveLine, before: Held, after: Held) -> bool:
    if before.resting or after.resting:
        return True
    changes = before.shape.frets != after.shape.frets
    if line.silent is not None:
        return not changes
    return changes or all(isinstance(action, SILENT_BY_NATURE) for action in line.actions)
