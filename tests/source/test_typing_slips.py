"""One slip at the keyboard, held against the optimal string alignment distance (Damerau 1964; the usual recurrence)."""

from __future__ import annotations

from itertools import product

import pytest
from fingerpost.source.typing_slips import filled_in, meant_by, slips_between, undone
from hypothesis import given
from hypothesis import strategies as st

WORDS = ["".join(letters) for length in range(5) for letters in product("aBc", repeat=length)]


def distance(one: str, other: str) -> int:
    """Letters left out, put in, replaced or turned with a neighbour, the fewest that make one word the other."""
    rows = [[0] * (len(other) + 1) for _ in range(len(one) + 1)]
    for i, j in product(range(len(one) + 1), range(len(other) + 1)):
        if not i or not j:
            rows[i][j] = i + j
            continue
        rows[i][j] = min(rows[i - 1][j] + 1, rows[i][j - 1] + 1, rows[i - 1][j - 1] + (one[i - 1] != other[j - 1]))
        if i > 1 and j > 1 and one[i - 1] == other[j - 2] and one[i - 2] == other[j - 1]:
            rows[i][j] = min(rows[i][j], rows[i - 2][j - 2] + 1)
    return rows[-1][-1]


def test_one_slip_is_a_distance_of_one() -> None:
    """All pairs of 121 words; another letter counts only in a word of three or more."""
    for typed, meant in product(WORDS, WORDS):
        replaced = len(typed) == len(meant) and sorted(typed) != sorted(meant)
        expected = distance(typed, meant) == 1 and not (replaced and len(meant) < 3)
        assert (slips_between(typed, meant) is not None) == expected, (typed, meant)


@given(st.text("abcd", min_size=1, max_size=8), st.data())
def test_each_slip_is_known_for_how_likely_it_is(word: str, data: st.DataObject) -> None:
    at = data.draw(st.integers(0, len(word) - 1))
    assert slips_between(word[:at] + word[at] + word[at:], word) == 0
    if at and word[at] != word[at - 1]:
        assert slips_between(word[: at - 1] + word[at] + word[at - 1] + word[at + 1 :], word) == 0
    assert slips_between(word[:at] + word[at + 1 :], word) == 1
    assert slips_between(word[:at] + "x" + word[at:], word) == 2


@given(st.text("ab1=", min_size=1, max_size=8), st.data())
def test_what_is_undone_gives_the_text_back(word: str, data: st.DataObject) -> None:
    at = data.draw(st.integers(0, len(word) - 1))
    twice = word[:at] + word[at] + word[at:]
    assert word in undone(twice, 0, len(twice))
    lacking = word[:at] + word[at + 1 :]
    assert word in filled_in(lacking, at, "ab1=")


def test_a_sign_is_not_turned_with_its_neighbour_nor_taken_out() -> None:
    assert list(undone("1@= ", 0, 99)) == ["@= "]


@pytest.mark.parametrize(
    ("typed", "known", "meant"),
    [
        ("mE", ("E", "Em"), "Em"),
        ("EEm", ("E", "Em"), "Em"),
        ("AMAJ7", ("A7", "Amaj7"), "Amaj7"),
        ("Asus", ("Asus2", "Asus4"), "Asus2"),
        ("K", ("C", "G"), ""),
        ("Em", ("Em",), ""),
        ("", ("E",), "E"),
    ],
)
def test_the_likeliest_of_the_known_words(typed: str, known: tuple[str, ...], meant: str) -> None:
    assert meant_by(typed, known) == meant
