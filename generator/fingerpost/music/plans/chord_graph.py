"""The graph of plainly named shapes: each a chord, joined where one finger's move leads over; found as it is walked."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from functools import cached_property

from fingerpost.music.key import Key
from fingerpost.music.plain_name import Frets, plain_name
from fingerpost.music.plans.plan import not_harder
from fingerpost.music.routes.conditions import Conditions
from fingerpost.music.routes.hands import STRUCK, Grip
from fingerpost.music.routes.neck import Neck

PLAINEST = 1.1
"""Up to here a chord is one that students meet by name (`vocabulary.py`; by judgement), over its own root."""
Chord = tuple[object, ...]
"""A chord whatever its bass: root, kind and degrees."""


@dataclass(eq=False)
class ChordGraph:
    """Shapes that keep to what is asked. unstruck: the strings not struck, as in a grip.

    hardest: no shape costs more points to hold.
    """

    neck: Neck
    conditions: Conditions
    unstruck: int
    hardest: float | None = None
    _numbers: dict[Chord, int] = field(default_factory=dict)
    _chords: dict[Frets, int | None] = field(default_factory=dict)
    _onward: dict[Grip, tuple[tuple[Grip, int, int], ...]] = field(default_factory=dict)

    def __post_init__(self) -> None:
        self._keeps = not_harder(self.neck, self.conditions.keeper(self.neck), self.hardest)

    @cached_property
    def _in_order(self) -> bool:
        """Whether the strings stand in the order of their pitch; where they don't, the bass says little."""
        midi = self.neck.fretboard.tuning.midi
        return list(midi) == sorted(midi, reverse=True)

    def chord(self, grip: Grip) -> int | None:
        """The number of a grip's chord; None where it has no plain name, or does not keep to what is asked."""
        if grip[STRUCK] != self.unstruck or not (self._keeps is None or self._keeps(grip)):
            return None
        frets = self.neck.frets(grip)
        if frets not in self._chords:
            self._chords[frets] = self._numbered(frets, self.conditions.key)
        return self._chords[frets]

    def _numbered(self, frets: Frets, key: Key | None) -> int | None:
        name = plain_name(frets, self.neck.fretboard, key)
        if name is None or name.ranked.reading.usual > PLAINEST or (name.chord.bass is not None and self._in_order):
            return None
        chord = (name.chord.root.pitch_class, name.chord.kind, name.chord.degrees)
        return self._numbers.setdefault(chord, len(self._numbers))

    def onward(self, grip: Grip) -> tuple[tuple[Grip, int, int], ...]:
        """Where one move leads: the grip, its chord, thousandths; of several ways to a grip the cheapest."""
        if (known := self._onward.get(grip)) is None:
            found: dict[Grip, tuple[int, int]] = {}
            for after, bare in self.neck.bare_moves(grip):
                chord = self.chord(after)
                if chord is not None:
                    points = bare + self.neck.added(grip, after)
                    found[after] = chord, min(points, found.get(after, (chord, points))[1])
            known = self._onward[grip] = tuple((after, *what) for after, what in sorted(found.items()))
        return known

    def walk_on(self, grip: Grip, most_grips: int) -> bool:
        """Whether it is known where a grip leads; it becomes known, as long as no more grips than that are."""
        if grip not in self._onward and len(self._onward) < most_grips:
            self.onward(grip)
        return grip in self._onward

    def most_chords(self, starts: Sequence[Grip], begins: bool, most_grips: int) -> int | None:
        """No chain from these grips meets more chords; None where there are too many grips to tell.

        Counted are the chords that can be reached at all. One that has a single neighbour among them can only be an
        end: of these there are two at most, or one beside the beginning.
        """
        seen, todo = set(starts), list(starts)
        beside: dict[int, set[int]] = {}
        while todo:
            if len(seen) > most_grips:
                return None
            grip = todo.pop()
            here = beside.setdefault(self.chord(grip) or 0, set())
            for after, chord, _ in self.onward(grip):
                here.add(chord)
                beside.setdefault(chord, set()).add(self.chord(grip) or 0)
                if after not in seen:
                    seen.add(after)
                    todo.append(after)
        for chord, others in beside.items():
            others.discard(chord)
        first = {self.chord(grip) for grip in starts} if begins else set()
        dead_ends = sum(len(others) < 2 and chord not in first for chord, others in beside.items())
        return len(beside) - max(0, dead_ends - (1 if begins else 2))
