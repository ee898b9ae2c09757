"""Small pieces of the sentences that findings are made of."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from fingerpost.music.shape import Finger

LONGEST_QUOTE = 40


def listed(words: Iterable[str], last: str = "or") -> str:
    """`1, 2 or 3`."""
    items = list(words)
    return items[0] if len(items) == 1 else f"{', '.join(items[:-1])} {last} {items[-1]}" if items else ""


def finger_word(finger: Finger) -> str:
    """`finger 2`, `the thumb`."""
    return "the thumb" if finger is Finger.THUMB else f"finger {finger.mark}"


def marks(fingers: Iterable[Finger]) -> str:
    """`1, 2 and T`."""
    return listed([finger.mark for finger in fingers], "and")


def strings_word(strings: Sequence[int]) -> str:
    """`string 2`, `strings 6, 5 and 4`."""
    return ("string " if len(strings) == 1 else "strings ") + listed([str(string) for string in strings], "and")


INTERVALS = {
    "1": "root",
    "b3": "minor third",
    "3": "third",
    "b5": "lowered fifth",
    "5": "fifth",
    "#5": "raised fifth",
    "6": "sixth",
    "b7": "minor seventh",
    "7": "major seventh",
    "9": "ninth",
    "11": "eleventh",
    "13": "thirteenth",
}


def intervals_word(intervals: Iterable[str]) -> str:
    """`the root, minor third and b9`: the usual intervals by their names, others as symbols write them."""
    return "the " + listed([INTERVALS.get(interval, interval) for interval in intervals], "and")


def quoted(text: str) -> str:
    """The author's own text in a sentence, cut where it is very long."""
    return f"`{text if len(text) <= LONGEST_QUOTE else text[:LONGEST_QUOTE] + '…'}`"


def sentence(text: str) -> str:
    """The text with a capital at its start."""
    return text[:1].upper() + text[1:]
