"""What the long run found, each once: pages that crashed a check or broke another promise, kept as cases."""

from __future__ import annotations

import pytest

from .pages import fenced
from .trial import Tally, check, show

FOUND = {
    "the name of a move that can't be made is no chord": ["id: a", "start: x02210/--231-", "steps:", "- 4 off = D7/"],
    "a symbol that ends where its bass note is due": ["id: a", "start: open", "steps:", "- 1 to B1 = G/"],
}


@pytest.mark.parametrize("lines", FOUND.values(), ids=FOUND)
def test_keeps_its_promises_now(lines: list[str]) -> None:
    tally = Tally(timely=False)
    page = fenced(lines)
    check(page, tally)
    show(page, tally)
    assert tally.checked == tally.shown == 1
