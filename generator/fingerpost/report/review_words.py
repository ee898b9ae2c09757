"""The sentences of a review, for a person: the same in every form, each a plain text that its form then makes safe."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from fingerpost.course.comparison.block_difference import Placed
from fingerpost.course.comparison.difference import Take
from fingerpost.course.comparison.step_difference import Fact, How, StepChange, StringChange, WordChange
from fingerpost.course.model import Step
from fingerpost.music.chord_symbol import SymbolStyle, read, write
from fingerpost.music.shape_text import write_shape
from fingerpost.report.quoted import clipped

ASCII = SymbolStyle()
_REAL = str.maketrans({"#": "\u266f", "b": "\u266d"})
_FACT_NAMES = {"place": "taught", "kind": "kind of step", "easier shape": "easier shape"}


@dataclass(frozen=True)
class Speech:
    """How chords and notes are written, in letters that any terminal shows or with the real signs; how texts of the
    branch are set apart, so that nothing in them can act: `quote` is given every one of them, and nothing else.
    """

    style: SymbolStyle = ASCII
    quote: Callable[[str], str] = clipped

    def name(self, step: Step) -> str:
        """What a step is called: its chord, `rest`, or its shape where it has no name."""
        if step.rest:
            return "rest"
        return write(step.naming.shown, self.style) if step.naming.shown else write_shape(step.shape, fingers=False)

    def note(self, note: str) -> str:
        """A note's name."""
        return note[0] + note[1:].translate(_REAL) if self.style.accidentals == "real" else note

    def step(self, change: StepChange) -> str:
        """`Step 4: C -> Cmaj7; string 2: fret 1 -> open; B instead of C`."""
        return "; ".join([self._heading(change), *self._parts(change)])

    def _heading(self, change: StepChange) -> str:
        before, after = change.before, change.after
        if before is None or after is None:
            step = after or before
            assert step is not None
            what = self._came(change) if before is None else self._went(change)
            written = f", {self.quote(step.move_text)}" if step.move_text else ""
            shape = "" if step.rest else f" ({write_shape(step.shape)}{written})"
            return f"Step {step.ordinal + 1} {what}: {self.name(step)}{shape}"
        number = f"Step {after.ordinal + 1}"
        if before.ordinal != after.ordinal:
            number += f" (was {before.ordinal + 1})"
        old, new = self.name(before), self.name(after)
        return f"{number}: {old}" if old == new else f"{number}: {old} -> {new}"

    def _came(self, change: StepChange) -> str:
        return "is new" if change.elsewhere is None else f"comes from {self._place(*change.elsewhere)}"

    def _went(self, change: StepChange) -> str:
        return "is gone" if change.elsewhere is None else f"went to {self._place(*change.elsewhere)}"

    def _place(self, block: str, ordinal: int) -> str:
        return f"step {ordinal + 1} of {self.quote(block)}"

    def _parts(self, change: StepChange) -> Iterator[str]:
        before, after = change.before, change.after
        if before is None or after is None:
            return
        yield from (self.string(string) for string in change.strings)
        if not change.strings and before.shape != after.shape:
            yield f"shape {write_shape(before.shape)} -> {write_shape(after.shape)}"
        yield from map(self.fact, change.facts)
        if change.how is How.MOVED:
            yield "at another place"
        if change.how is How.FOLLOWS and change.same_hand:
            yield "the same hand, reached from another"

    def string(self, change: StringChange) -> str:
        """`string 2: fret 1 -> open; B instead of C`."""
        held = _held(change)
        return f"string {change.string}: " + "; ".join(part for part in (held, self._heard(change)) if part)

    def _heard(self, change: StringChange) -> str:
        old, new = change.note_before, change.note_after
        if old == new or (old is None and new is None):
            return ""
        if new is None:
            return f"{self.note(old or '')} falls silent"
        return f"{self.note(new)} sounds" if old is None else f"{self.note(new)} instead of {self.note(old)}"

    def consequences(self, change: StepChange) -> str:
        """What a changed step means for the hand and for links: its difficulty, and whether its id is kept."""
        points = (_points(change.difficulty_before), _points(change.difficulty_after))
        hard = points[0] or points[1] if points[0] == points[1] else " -> ".join(filter(None, points))
        parts = [f"difficulty {hard}" if hard else ""]
        if change.before is not None and change.after is not None:
            parts.append("id kept" if change.id_kept else f"new id {self.quote(change.after.id)}")
        return "; ".join(filter(None, parts))

    def fact(self, difference: Fact) -> str:
        """`capo: 0 -> 3`."""
        old, new = (
            "nothing" if text is None else self.quote(text) for text in (difference.before, difference.after)
        )  # fmt: skip
        return f"{_FACT_NAMES.get(difference.what, difference.what)}: {old} -> {new}"

    def words(self, change: WordChange) -> str:
        """Words of the author before and after."""
        where = f"Step {change.step.ordinal + 1}, {change.what}" if change.step else change.what.capitalize()
        old, new = ("nothing" if text is None else self.quote(text) for text in (change.before, change.after))
        return f"{where}: {old} -> {new}"

    def take(self, take: Take) -> str:
        """`0:41 in the-gate, step 4: the step is gone`."""
        stands = "the step comes at another place" if take.moved else "it shows what the step was"
        why = "the step is gone" if take.gone else stands
        cue, block = self.quote(take.step.cue or ""), self.quote(take.block)
        return f"{cue} in {block}, step {take.step.ordinal + 1}: {why}"

    def later(self, pair: tuple[Placed, StepChange]) -> str:
        """A step that is affected without being written otherwise."""
        return f"{self.quote(pair[0].block.id)}: {self.step(pair[1])}"

    def symbol(self, symbol: str) -> str:
        """A chord of the index, which goes by its symbol."""
        return write(read(symbol), self.style)


PLAIN = Speech()
SIGNS = SymbolStyle(accidentals="real")


def _held(change: StringChange) -> str:
    old, new = _place(change.fret_before), _place(change.fret_after)
    if old != new:
        return f"{old} -> {new}"
    fingers = [f"finger {mark}" if mark else "no finger" for mark in (change.finger_before, change.finger_after)]
    return f"{old}, {fingers[0]} -> {fingers[1]}" if fingers[0] != fingers[1] else ""


def _place(fret: int | None) -> str:
    return "silent" if fret is None else "open" if fret == 0 else f"fret {fret}"


def _points(points: float | None) -> str:
    return "" if points is None else f"{points:.1f}"
