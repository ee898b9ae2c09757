"""What a kind of finding means, in words: each rule has it in its own file."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Explanation:
    """A code in words. example: text that causes it; instead: text or a deed that does not."""

    title: str
    why: str
    example: str
    instead: str
