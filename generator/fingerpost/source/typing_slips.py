"""What fingers do to a word at a keyboard: a letter twice, one left out, two turned, another one hit."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

UNTURNED = frozenset("@=~, b#")
"""What is not turned with its neighbour: signs and blanks, which begin another part of a line, and accidentals."""


def slips_between(typed: str, meant: str) -> int | None:
    """How unlikely the one slip is that makes `typed` of `meant`, None where it takes none or more.

    0: a letter twice, or two neighbours turned. 1: one left out. 2: one too many, or another (in a word of three or
    more, since else nothing tells that it is the same word).
    """
    start = next((at for at, (one, other) in enumerate(zip(typed, meant, strict=False)) if one != other), None)
    start = min(len(typed), len(meant)) if start is None else start
    one, other = typed[start:], meant[start:]
    if one == other:
        return None
    if one[1:] == other:
        return 0 if one[0] in (typed[start - 1 : start], typed[start + 1 : start + 2]) else 2
    if one[:2] == other[1::-1] and one[2:] == other[2:]:
        return 0
    return 1 if one == other[1:] else 2 if one[1:] == other[1:] and len(meant) > 2 else None


def meant_by(typed: str, known: Iterable[str]) -> str:
    """The known word that one slip, the likeliest, makes this of, "" where there is none; also one of capitals."""
    folded, best, least = typed.casefold(), "", 3
    for word in known:
        if word.casefold() == folded and word != typed:
            return word
        slip = slips_between(typed, word)
        if slip is not None and slip < least:
            best, least = word, slip
    return best


def undone(text: str, start: int, end: int) -> Iterator[str]:
    """The text without one letter too many, or with two turned back, between two offsets; the likeliest first."""
    end = min(end, len(text))
    twice = [text[:at] + text[at + 1 :] for at in range(start, end) if text[at] == text[at + 1 : at + 2]]
    pairs = (at for at in range(start, end - 1) if UNTURNED.isdisjoint(text[at : at + 2]))
    turned = [text[:at] + text[at + 1] + text[at] + text[at + 2 :] for at in pairs]
    # A sign that stands alone asks for what is missing beside it.
    besides = [text[:at] + text[at + 1 :] for at in range(start, end) if text[at].isalnum()]
    return (other for other in dict.fromkeys((*twice, *turned, *besides)) if other != text)


def filled_in(text: str, at: int, letters: str) -> Iterator[str]:
    """The text with one letter more at an offset, each of them in turn."""
    return (text[:at] + letter + text[at:] for letter in letters)
