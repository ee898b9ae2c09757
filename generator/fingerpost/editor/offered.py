"""What is offered at a cursor, and reading the words before it."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass

from lsprotocol import types

from fingerpost.diagnostics import Span
from fingerpost.editor.offers import Offer
from fingerpost.source.syntax import Token

NAME = re.compile(r"(?:^|\s)[=~]\s*(?P<word>[^\s,]*)$")
WORD = re.compile(r"[^\s,\[\]]*$")
PLACE_BEGUN = re.compile(r"(?P<finger>[1-4T])(?P<to>\s+to)?\s+$")
SPOT_OF_CURSOR = Span("", 1, 1, 1, 1)


@dataclass(frozen=True)
class Offered:
    """What is offered, and how many code points before the cursor it replaces."""

    offers: tuple[Offer, ...]
    replaced: int
    kind: types.CompletionItemKind = types.CompletionItemKind.Value


NOTHING = Offered((), 0)


def for_last_word(text: str, found: Iterable[Offer]) -> Offered:
    """Offers for the last word of some text."""
    word = WORD.search(text)
    return Offered(tuple(found), len(word.group()) if word else 0)


def by_number(text: str) -> bool:
    """Whether the last word of some text begins a string's number rather than its letter."""
    word = WORD.search(text)
    return word is not None and word.group()[:1].isdigit()


def without_name(text: str) -> str:
    """A line up to the name that it claims."""
    return re.sub(r"(?:^|\s)[=~][^=~]*$", "", text)


def token(text: str) -> Token:
    """Words before a cursor for the grammar to read; where they stand plays no part."""
    return Token(text, SPOT_OF_CURSOR.part(0, len(text)))
