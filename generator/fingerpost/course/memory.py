"""What a build may keep for the next one: values by what they were made from, so that unchanged pages cost nothing."""

from __future__ import annotations

from collections.abc import Callable, Hashable
from dataclasses import dataclass, field
from typing import Any, TypeVar

from fingerpost.course.settings import Settings

Value = TypeVar("Value")


@dataclass(slots=True)
class _Kept:
    """A value, and the build that asked for it last."""

    value: Any
    asked: int


@dataclass
class Memory:
    """Values by key; what two builds in a row did not ask for is forgotten.

    settings: those of the last build; other ones let all values go. made counts the new values. parts: a memory for
    what is made of a block besides the block, and of the whole course. lines: one for single lines too, which pays
    where a build follows every keystroke.
    """

    settings: Settings | None = None
    kept: dict[Hashable, _Kept] = field(default_factory=dict)
    builds: int = 0
    made: int = 0
    parts: Memory | None = None
    lines: Memory | None = None

    def recall(self, key: Hashable, make: Callable[[], Value], fresh: Callable[[Value], bool] | None = None) -> Value:
        """The value kept under `key` if `fresh` lets it stand, else a new one."""
        # A key may be deep, so it is hashed once: one dictionary, and each value says itself when it was asked for.
        kept = self.kept.get(key)
        if kept is not None and (fresh is None or fresh(kept.value)):
            kept.asked = self.builds
            return kept.value  # type: ignore[no-any-return]
        self.made += 1
        value = make()
        self.kept[key] = _Kept(value, self.builds)
        return value

    def turn(self, settings: Settings) -> None:
        """Begins a new build: what the last one used is still there, what it did not use goes."""
        if settings != self.settings:
            self.kept.clear()
        for key in [key for key, kept in self.kept.items() if kept.asked < self.builds]:
            del self.kept[key]
        self.settings, self.builds = settings, self.builds + 1
        for inner in (self.parts, self.lines):
            if inner is not None:
                inner.turn(settings)
