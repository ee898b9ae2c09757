"""Slips of the fingers in a block: the finding says what was meant, and nothing else is said."""

from __future__ import annotations

import pytest
from fingerpost.course.acceptance import settle

from .read_course import course

PAGE = """```moves
id: d
key: D
strum: D-e
start: 1 G2, 3 B3, 2 e2 = D
teaches: [D, Dsus2, Dsus4, D6]
steps:
- 2 off = Dsus2
- 2 to e2 = D
- move: 4 to e3
  name: Dsus4
- 4 off
- 3 off = D6
```
"""


def said(page: str) -> list[tuple[int, str]]:
    """What stands in the end of the page's findings: the line and the fix of each."""
    _, found = course(page)
    return [(finding.span.line, finding.fix) for finding in settle(found, ()).standing]


def test_the_page_itself_is_free_of_findings() -> None:
    assert said(PAGE) == []


@pytest.mark.parametrize(
    ("typed", "meant", "fix"),
    [
        ("= Dssus2", "= Dsus2", "Dsus2"),
        ("= Dus2", "= Dsus2", "Dsus2"),
        ("= sus2", "= Dsus2", "Dsus2"),
        ("= Duss2", "= Dsus2", "Dsus2"),
        ("name: Dss4", "name: Dsus4", ""),
        ("= 6D", "= D6", "D6"),
        ("key: DD", "key: D", "D"),
        ("[D, Dsus2, Ds4u", "[D, Dsus2, Dsus4", ""),
        ("[D, Dsus2, Dssu4", "[D, Dsus2, Dsus4", ""),
        ("[D, Dsus2, Dsu4", "[D, Dsus2, Dsus4", "Dsus4"),
        ("- 2 o e2", "- 2 to e2", "2 to e2 = D"),
        ("- 2 to 2", "- 2 to e2", "2 to e2 = D"),
        ("- 2 to e =", "- 2 to e2 =", "2 to e2 = D"),
        ("- 22 to e2", "- 2 to e2", "2 to e2 = D"),
        ("- 4 of\n", "- 4 off\n", "4 off"),
        ("- 4 fof\n", "- 4 off\n", "4 off"),
        ("move: 4 to e\n", "move: 4 to e3\n", "4 to e3"),
        ("move: 4 to 3\n", "move: 4 to e3\n", "4 to e3"),
        ("strum: De-", "strum: D-e", "D-e"),
        ("strum: D-\n", "strum: D-e\n", "D-e"),
        ("strum: -e\n", "strum: D-e\n", "D-e"),
        ("3 B, 2 e2 = D", "3 B3, 2 e2 = D", "1 G2, 3 B3, 2 e2 = D"),
        ("3 B3, 2 2 = D", "3 B3, 2 e2 = D", "1 G2, 3 B3, 2 e2 = D"),
        ("3 BB3, 2 e2 = D", "3 B3, 2 e2 = D", "1 G2, 3 B3, 2 e2 = D"),
        ("3 B3, 2 e22 = D", "3 B3, 2 e2 = D", ""),
        ("strum: D-ee", "strum: D-e", "D-e"),
    ],
)
def test_a_slip_is_one_finding_with_what_was_meant(typed: str, meant: str, fix: str) -> None:
    assert meant in PAGE
    page = PAGE.replace(meant, typed, 1)
    found = said(page)
    line = page[: page.index(typed) + len(typed) - typed.endswith("\n")].count("\n") + 1
    assert [at for at, _ in found] == [line]
    if fix:
        assert found == [(line, fix)]


def test_a_start_and_its_strum_that_both_lack_a_letter() -> None:
    """What is struck ends at string 1 where the name does not tell: from A to B it would be A minor too."""
    lines = "id: am\nstart: 2 D2, 3 G2, 1 B = Am\nstrum: A-\nteaches: [Am, Asus2]\nsteps:\n- 1 off = Asus2"
    assert said(f"```moves\n{lines}\n```\n") == [(3, "2 D2, 3 G2, 1 B1 = Am"), (4, "A-e")]
