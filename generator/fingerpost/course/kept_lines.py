"""What single lines did to the hand, and what shapes were called, in the last build: for one who builds at each key."""

from __future__ import annotations

from dataclasses import dataclass

from fingerpost.course.ground import Ground
from fingerpost.course.heard import heard_of
from fingerpost.course.memory import Memory
from fingerpost.course.name_book import NameBook, PitchClasses
from fingerpost.course.naming import Named, name_shape
from fingerpost.course.perform import Held, Performed, perform
from fingerpost.music.chord import Chord
from fingerpost.music.shape import Shape
from fingerpost.source.syntax import MoveLine, NameSaid


@dataclass(frozen=True)
class KeptLines:
    """Does lines and names shapes on one ground; with a memory, what it did before costs nothing."""

    ground: Ground
    memory: Memory | None = None

    @classmethod
    def on(cls, ground: Ground, memory: Memory | None) -> KeptLines:
        """On this ground; of equal ones always the same, so that finding what is kept need not compare them."""
        return cls(ground if memory is None else memory.recall(("ground", ground), lambda: ground), memory)

    def perform(self, held: Held, line: MoveLine) -> Performed:
        """As perform.perform; raises Stuck."""
        if self.memory is None:
            return perform(held, line, self.ground)
        key = ("line", self.ground, held, line.text, line.actions)
        return self.memory.recall(key, lambda: perform(held, line, self.ground))

    def name(self, shape: Shape | None, said: NameSaid | None, book: NameBook) -> Named:
        """As naming.name_shape, of a shape or (None) of a hand off the neck."""
        if self.memory is None:
            return self._name(shape, said, book)

        def make() -> tuple[Named, dict[PitchClasses, Chord | None]]:
            asking = NameBook(book.used)
            return self._name(shape, said, asking), asking.asked

        def stands(kept: tuple[Named, dict[PitchClasses, Chord | None]]) -> bool:
            return all(book.used.get(asked) == answer for asked, answer in kept[1].items())

        named, asked = self.memory.recall(("name", self.ground, shape, said), make, stands)
        book.asked.update(asked)
        return named

    def _name(self, shape: Shape | None, said: NameSaid | None, book: NameBook) -> Named:
        heard = None if shape is None else heard_of(shape, self.ground.fretboard)
        return name_shape(heard, said, self.ground, book)
