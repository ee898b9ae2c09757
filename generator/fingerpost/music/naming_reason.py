"""Why a name is the name: sentences for a player, not for a theorist."""

from __future__ import annotations

from fingerpost.music.chord import Chord
from fingerpost.music.ranking import Ranked

_WORDS = {
    2: "second", 3: "third", 4: "fourth", 5: "fifth", 6: "sixth", 7: "seventh", 9: "ninth", 11: "eleventh",
    13: "thirteenth",
}  # fmt: skip


def reason(chord: Chord, left_out: tuple[str, ...], ranked: Ranked) -> str:
    """The reason for a name, in whole sentences."""
    return f"{chord.root} is the root."
