"""A bar for long work: one line on standard error, drawn only where a person looks at a terminal."""

from __future__ import annotations

import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass

PATIENCE, EVERY = 0.7, 0.1
"""Seconds before the bar first appears, and between two drawings."""
WIDTH = 24


@dataclass
class Bar:
    """A bar that appears only once the work takes long."""

    label: str
    began: float
    drawn: float = 0.0

    def show(self, done: float, said: str = "") -> None:
        """How much is done, from 0 to 1, and a few words about it."""
        now = time.monotonic()
        if not sys.stderr.isatty() or now - self.began < PATIENCE or now - self.drawn < EVERY:
            return
        self.drawn = now
        full = round(WIDTH * min(1.0, max(0.0, done)))
        print(f"\r\x1b[K{self.label} [{'#' * full}{'.' * (WIDTH - full)}] {said}", end="", file=sys.stderr, flush=True)

    def clear(self) -> None:
        """Takes the bar away."""
        if self.drawn:
            print("\r\x1b[K", end="", file=sys.stderr, flush=True)


@contextmanager
def bar(label: str) -> Iterator[Bar]:
    """A bar that is gone when the work ends, however it ends."""
    shown = Bar(label, time.monotonic())
    try:
        yield shown
    finally:
        shown.clear()
