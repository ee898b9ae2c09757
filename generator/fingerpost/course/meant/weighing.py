"""How much of a piece a thread is as an edit makes it: of several edits that all hold, the likelier one."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from fingerpost.course.agreement import sounds
from fingerpost.course.heard import heard_of
from fingerpost.course.meant.edits import Missing, OfLine, OfStart, Surplus
from fingerpost.course.meant.search import Candidate, Search
from fingerpost.course.naming import chord_or_none
from fingerpost.course.perform import Held
from fingerpost.course.teaching import teaching_of
from fingerpost.music.chord import Chord
from fingerpost.music.chord_name import fit, names
from fingerpost.music.shape import Shape

MOST_WEIGHED = 120
"""So many lines below an edit are weighed with it."""

PLACE_MORE, FINGER_MORE, BAR_MORE, OTHER_BASS, FAR_FROM_TAUGHT = 0.2, 0.1, 0.2, 0.2, 0.1
"""What it costs: a place, a finger or a bar more; a name whose root is not the bass; a note that `~` leaves over."""
EXACT = 3
"""A name after `~` that would hold with `=` is as wrong as so many notes."""
UNHEARD, UNCOMMON, CLOSES, SHOWS, APART = 0.5, 0.15, 0.5, 0.6, 0.1
"""What a step costs that is not heard, or that sounds what has no common name, and an edit in another block; what it
gains that a block ends as it began, and that a step shows a chord which is taught and shown nowhere else. By our own
choice, as are those above."""
USUAL = 1.25


@dataclass(frozen=True)
class Weighing:
    """Weighs edits of one search."""

    search: Search

    def of(self, candidate: Candidate) -> float:
        """How unlikely an edit is: its own cost, and what the lines say to it."""
        shapes = list(self._shapes(candidate))
        return candidate.cost + self.reading(shapes) + self._step(candidate) + APART * self._apart(candidate)

    def reading(self, shapes: Sequence[tuple[Shape, int]]) -> float:
        """What speaks against a reading, given as the shapes and the rows that they stand after (-1: the start)."""
        presses = {press for shape, _ in shapes for press in shape.presses}
        fingers = {(number, press.finger) for number, shape in self._by_block(shapes) for press in shape.presses}
        other_bass = sum(1 for shape, at in shapes if at >= 0 and self._other_bass(shape, at))
        bars = sum(press.is_bar for press in presses)
        far = sum(self._far(shape, at) for shape, at in shapes if at >= 0)
        circles = sum(1 for first, last in self._ends(shapes) if first == last)
        most = PLACE_MORE * len(presses) + FINGER_MORE * len(fingers) + BAR_MORE * bars
        return most + OTHER_BASS * other_bass + FAR_FROM_TAUGHT * far - CLOSES * circles

    def as_written(self) -> list[tuple[Shape, int]]:
        """The reading in which a name is the slip and the moves are not."""
        search, out = self.search, [(self.search.thread.start.shape, -1)]
        out += [(held.shape, at) for at, held in enumerate(search.befores[1 : search.denied + 1])]
        held = search.befores[-1]
        after = held if search.denied < 0 else search.trial.performed(held, search.denied)
        assert after is not None
        return [*out, (after.shape, search.denied), *self._onward(after, search.denied + 1)]

    def _shapes(self, candidate: Candidate) -> Iterator[tuple[Shape, int]]:
        edit, befores = candidate.edit, self.search.befores
        if isinstance(edit, OfStart):
            yield edit.shape, -1
            yield from self._onward(candidate.held, 0)
            return
        yield self.search.thread.start.shape, -1
        yield from ((held.shape, at) for at, held in enumerate(befores[1 : edit.at + 1]))
        if not isinstance(edit, Surplus):
            yield candidate.held.shape, -2 if isinstance(edit, Missing) else candidate.first - 1
        yield from self._onward(candidate.held, candidate.first)

    def _onward(self, held: Held, first: int) -> Iterator[tuple[Shape, int]]:
        trial = self.search.trial
        for at in range(first, min(len(trial.rows), first + MOST_WEIGHED)):
            after = trial.after(held, at)
            if after is None:
                break
            held = after
            yield held.shape, at

    def _other_bass(self, shape: Shape, at: int) -> bool:
        chord = self.search.trial.chord(at)
        heard = None if chord is None or chord.bass is not None else heard_of(shape, self.search.trial.ground.fretboard)
        return chord is not None and heard is not None and heard.bass != chord.root.pitch_class

    def _far(self, shape: Shape, at: int) -> int:
        """How many notes lack or are over where a chord is taught by a name that is not exact."""
        said = self.search.trial.rows[at].name
        chord = None if said is None or said.strict else chord_or_none(said.symbol)
        heard = None if chord is None else heard_of(shape, self.search.trial.ground.fretboard)
        if chord is None or heard is None:
            return 0
        fits = fit(chord, heard.pitch_classes, heard.bass)
        return EXACT if fits.holds else len(fits.lacks) + len(fits.adds)

    def _by_block(self, shapes: Sequence[tuple[Shape, int]]) -> Iterator[tuple[int, Shape]]:
        """The shapes, each with the number of its block; a step that is missing belongs to the line above it."""
        number = 0
        for shape, at in shapes:
            number = self.search.thread.places[at].strand if at >= 0 else number
            yield number, shape

    def _ends(self, shapes: Sequence[tuple[Shape, int]]) -> Iterator[tuple[Shape, Shape]]:
        """The first and the last shape that the hand holds in each block; of a rest, the one before it."""
        by_block = dict[int, list[Shape]]()
        for number, shape in self._by_block(shapes):
            if shape.presses:
                by_block.setdefault(number, []).append(shape)
        for block in by_block.values():
            if len(block) > 2:
                yield block[0], block[-1]

    def _apart(self, candidate: Candidate) -> bool:
        edit, thread = candidate.edit, self.search.thread
        return thread.own != (0 if isinstance(edit, OfStart) else strand_of(edit, self.search))

    def _step(self, candidate: Candidate) -> float:
        """What speaks for and against a step that is missing."""
        edit = candidate.edit
        if not isinstance(edit, Missing):
            return 0.0
        shown = self.shows(candidate, strand_of(edit, self.search)) is not None
        return UNHEARD * candidate.unheard + UNCOMMON * self._is_uncommon(candidate.held.shape) - SHOWS * shown

    def _is_uncommon(self, shape: Shape) -> bool:
        heard = heard_of(shape, self.search.trial.ground.fretboard)
        best = None if heard is None else names(heard.pitch_classes, heard.bass)[0].ranked
        return best is not None and (bool(best.foreign) or best.reading.usual > USUAL)

    def shows(self, candidate: Candidate, number: int) -> Chord | None:
        """The chord that the block teaches and that no line of it shows, if the shape is one."""
        heard = heard_of(candidate.held.shape, self.search.trial.ground.fretboard)
        if heard is None:
            return None
        for chord in unshown(self.search, number):
            if chord.bass_pitch_class == heard.bass and sounds(chord, heard):
                return chord
        return None


def strand_of(edit: OfLine, search: Search) -> int:
    """Which block an edit of a line stands in: a step that is missing before a joint belongs to the block above."""
    place = search.thread.places[edit.at]
    return place.strand - (place.line < 0 and isinstance(edit, Missing))


def unshown(search: Search, number: int) -> frozenset[Chord]:
    """The chords that a block teaches and that none of its lines names."""
    syntax = search.thread.strands[number].syntax
    taught = teaching_of(syntax).chords
    return taught - {chord_or_none(name.symbol) for name in syntax.names}
