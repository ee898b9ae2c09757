"""What a build may keep for the next one: values by what they were made from, so that unchanged pages cost nothing."""

from __future__ import annotations

from collections.abc import Callable, Hashable
from dataclasses import dataclass, field
from typing import Any, TypeVar

from fingerpost.course.settings import Settings

Value = TypeVar("Value")


@dataclass
class Memory:
    """Values by key, in two generations: what two builds in a row did not ask for is forgotten.

    settings: those of the last build; other ones let all values go. lines: a memory for single lines too, which pays
    where a build follows every keystroke.
    """

    settings: Settings | None = None
    current: dict[Hashable, Any] = field(default_factory=dict)
    before: dict[Hashable, Any] = field(default_factory=dict)
    made: int = 0
    lines: Memory | None = None

    def recall(self, key: Hashable, make: Callable[[], Value], fresh: Callable[[Value], bool] | None = None) -> Value:
        """The value kept under `key` if `fresh` lets it stand, else a new one. made counts the new ones."""
        for kept in (self.current, self.before):
            if key in kept and (fresh is None or fresh(kept[key])):
                self.current[key] = kept[key]
                return self.current[key]  # type: ignore[no-any-return]
        self.made += 1
        value = self.current[key] = make()
        return value

    def turn(self, settings: Settings) -> None:
        """Begins a new build: what the last one used is still there, what it did not use goes."""
        self.before, self.current = self.current if settings == self.settings else {}, {}
        self.settings = settings
        if self.lines is not None:
            self.lines.turn(settings)
