"""Frozen values that work out their hash once: what is kept to save time is found by them again and again."""

from __future__ import annotations

from typing import TypeVar

T = TypeVar("T")


def hashed_once(frozen: type[T]) -> type[T]:
    """A frozen dataclass whose objects remember their hash. Stands above `@dataclass(frozen=True)`."""
    reckoned = frozen.__hash__

    def remembered(self: T) -> int:
        known: int | None = self.__dict__.get("_hash")
        if known is None:
            known = self.__dict__["_hash"] = reckoned(self)
        return known

    frozen.__hash__ = remembered  # type: ignore[assignment,method-assign]
    return frozen
