"""The nearest line that can be read, for one that can't: small rewrites of common slips, tried in turn."""

from __future__ import annotations

import difflib
import re
from collections.abc import Callable, Iterator
from itertools import chain

from fingerpost.source.typing_slips import undone

REWRITES: tuple[tuple[str, str], ...] = (
    (r"[\s\u200b]+", " "),
    (r"^ | $|[.;]$", ""),
    (r"\b(?:finger|fing\.?|f)\s*(?=[1-4T]\b)", ""),
    (r"\bindex(?: finger)?\b", "1"),
    (r"\bmiddle(?: finger)?\b", "2"),
    (r"\bring(?: finger)?\b", "3"),
    (r"\b(?:little finger|little|pinky|pinkie)\b", "4"),
    (r"\bthumb\b|^t(?= )|(?<=, )t(?= )", "T"),
    (r"^(?:a|s|sa|ass|aas) (?=taught )", "as "),
    (r"^(?:lift|raise|release|remove|take off) ([1-4T])$", r"\1 off"),
    (r"\b([1-4T]) (?:up|away|lifts?|lifted|leaves|out|of)$", r"\1 off"),
    (r"^(?:put|place|move|press|slide|bar|barre|lay) (?=[1-4T])", ""),
    (r"^([1-4T])\s*(?:[-=–—]+>|→|⇒|>|:|\bon\b|\bat\b|\bonto\b|\binto\b|\bgoes to\b|\bslides to\b)\s*", r"\1 to "),
    (r"^([1-4T])(?=to\b|off\b|for\b)", r"\1 "),
    (r"\bto(?=[A-Ha-h][0-9])", "to "),
    (r"\bto (?:string )?([1-8]) (?:fret )?([0-9]+)$", r"to \1:\2"),
    (r"\bto (?:string )?([1-8])[/.;-]([0-9]+)(?= |$)", r"to \1:\2"),
    (r"(?<=[0-9f]) *: *(?=[A-H][A-Za-z0-9#/()]*$)", " = "),
    (r"(?<=[0-9f]) +\((?P<name>[A-H][A-Za-z0-9#/]*)\)$", r" = \g<name>"),
    (r" @?([0-9]{1,2})[.:]([0-5][0-9])$", r" @\1:\2"),
    (r"(?<=[A-Ha-h#b][0-9]) (?=[1-4T] [A-Ha-h][b#]?[0-9])", ", "),
    (r"^([1-4T]) and ([1-4T]) off\b", r"\1 off and \2 off"),
    (r"\bto ([0-9]+)([A-Ha-h][b#]?)$", r"to \2\1"),
    (r"\b([A-Ha-h][b#]?)(?: string)?(?: fret |[ :/.]|-(?=[0-9]))([0-9]+)\b", r"\1\2"),
    (r"^([1-4T]) (?:[a-z]{1,2} )?(?=[A-Ha-h][b#]?[0-9]|[1-8]:[0-9])", r"\1 to "),
    (r"^([1-4T]) (?:t|o|ot|oto|tto)(?=[A-Ha-h][b#]?[0-9]|[1-8]:[0-9])", r"\1 to "),
    (r"\b([1-4T]) (?:replaces|instead of|takes) ([1-4T])", r"\1 for \2"),
    (r"\b(?:slide|move|shift)(?: by)? (?=[0-9])", "shift +"),
    (r"\b(?:slide|move) (?=[-+][0-9])", "shift "),
    (r"\bshift by (?=[-+])", "shift "),
    (r"\bshift up (?=[0-9])", "shift +"),
    (r"\bshift down (?=[0-9])", "shift -"),
    (r"\b(?:damp|deaden|muffle) (?=[A-Ha-h1-8])", "mute "),
    (r"\bmute ([A-Ha-h][b#]?|[1-8]) (?:with|using|[a-z]{1,3})(?: finger)? (?=[1-4T]\b)", r"mute \1 by "),
    (r"\b([A-Ha-h]) to ([A-Ha-h])\b", r"\1-\2"),
    (r"(?<![A-Ha-h=~])-*([A-Ha-h])\1?-*([A-Ha-h])\2?-*(?=,| |$)", r"\1-\2"),
    (r"([A-Ha-h]|[1-8]:)([0-9]+)-([A-Ha-h]|[1-8]:)(?:[0-9]*)$", r"\1\2-\3\2"),
    (r"\s*[&+]\s*(?=[1-4T] )", " and "),
    (r"\s+then\s+", " and "),
    (r"\b(?:and )?(?:is|now|makes|gives)\s+(?=[A-H])", "= "),
    (r"(?<=[0-9f]) (?=[A-H][A-Za-z0-9#/()]*$)", " = "),
)
"""What people write by habit, and what the line says for it: (pattern, replacement), from the likeliest down."""

KNOWN_WORDS = ("off", "for", "to", "shift", "mute", "strum", "hold", "rest", "back", "by", "and", "passing", "silent")
KNOWN_WORDS_OF_START = ("open", "previous", "after", "taught", "as")
LONGEST_MENDED = 120
LONGEST_RETYPED = 16
"""Beyond so many characters, of a line and of a word, nothing is tried. By our own choice."""
_COMPILED = tuple((re.compile(pattern), replacement) for pattern, replacement in REWRITES)
_WORD = re.compile(r"[A-Za-z]{2,}")
_NAME = re.compile(r"[=~]\s*[A-H][^=~]*$")
"""The name that a line claims, at its end: its letters are no words (`Asus2` is not `as` and a number)."""


def mended(text: str, reads: Callable[[str], bool]) -> str:
    """The text changed as little as it takes to be read, or "" where no small change will do."""
    if len(text) > LONGEST_MENDED:
        return ""
    move, mark, comment = text.partition(" #")
    if mark and reads(move):
        return f"{move.rstrip()} # {comment.strip()}"
    for start in dict.fromkeys((text, _respelled(text))):
        for changed in chain((pattern.sub(new, start) for pattern, new in _COMPILED), _one_after_the_other(start)):
            if changed.strip() != text and reads(changed):
                return changed.strip()
    return ""


def _one_after_the_other(text: str) -> Iterator[str]:
    for pattern, new in _COMPILED:
        text = pattern.sub(new, text)
        yield text


def retyped(text: str, start: int, end: int, reads: Callable[[str], bool]) -> str:
    """The text without one slip at the keyboard in the word where reading stopped or in the one before; "" for none."""
    if len(text) > LONGEST_MENDED or end - start > LONGEST_RETYPED:
        return ""
    before = text[:start].rstrip().rfind(" ") + 1
    begin = before if end - before <= LONGEST_RETYPED else start
    return next((other for other in undone(text, begin, end) if reads(other)), "")


def _respelled(text: str) -> str:
    """The text with each word that nearly is one of the language's words put right: `3 fo 2`, `Hold`, `stum A-e`."""
    name = _NAME.search(text)
    moves, claimed = (text[: name.start()], name.group()) if name else (text, "")
    known = KNOWN_WORDS + KNOWN_WORDS_OF_START
    return _WORD.sub(lambda word: nearest(word.group(), known) or word.group(), moves) + claimed


def nearest(word: str, known: tuple[str, ...]) -> str:
    """The known word that is nearest to the one written, or "" where none is near."""
    return next(iter(difflib.get_close_matches(word.lower(), known, 1, 0.6)), "")


def only_near(word: str, known: tuple[str, ...]) -> bool:
    """Whether exactly one known word is so near to the one written that no other can be meant."""
    return len(difflib.get_close_matches(word.lower(), known, 2, 0.7)) == 1
