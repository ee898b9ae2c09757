"""What the long run found, each once: pages that crashed a check or broke another promise, kept as cases."""

from __future__ import annotations

import pytest

from .pages import fenced
from .trial import Tally, check, show

FOUND = {
    "the name of a move that can't be made is no chord": ["id: a", "start: x02210/--231-", "steps:", "- 4 off = D7/"],
    "a symbol that ends where its bass note is due": ["id: a", "start: open", "steps:", "- 1 to B1 = G/"],
    "a start that is longer as it was meant": ["id: a", "start: T 2:2, T A24-H", "steps:", "- 1 off = A"],
    "a bar that was meant and can't be held": ["id: a", "start: 4 E1-B", "strum: 6-1", "steps:", "- 2 to D3 = F"],
    "words too many that are joined by `and`": [
        "id: a",
        "start: xx0232/---132",
        "steps:",
        "- T to D7 and strum all",
        "- 3 off",
    ],
    "a `strum` that is longer as it was meant": ["id: a", "strum: -H", "start: 1 G2 = A", "steps:", "- 2 to D3 = F"],
}


@pytest.mark.parametrize("lines", FOUND.values(), ids=FOUND)
def test_keeps_its_promises_now(lines: list[str]) -> None:
    tally = Tally(timely=False)
    page = fenced(lines)
    check(page, tally)
    show(page, tally)
    assert tally.checked == tally.shown == 1
