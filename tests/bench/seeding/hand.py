"""A hand that plays the moves of the demo course, written from the guide's words; nothing of the package is used."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace

# Open strings as MIDI numbers, string 6 first (standards.md, "Pitch and the fretboard"; DADGAD is common practice).
OPEN = {"standard": (40, 45, 50, 55, 59, 64), "DADGAD": (38, 45, 50, 55, 57, 62)}
LETTERS = {"standard": "EADGBe", "DADGAD": "------"}
SPAN = 3
"""The widest that a hand spreads, in frets (standards.md, "The hand")."""

Spots = tuple[int, frozenset[int]]
ALL = frozenset(range(1, 7))


class Denied(Exception):  # noqa: N818 - what the text denies is no error of this program
    """The text says what can't be."""


@dataclass(frozen=True)
class Hand:
    """Where each finger is, as (fret, strings); which strings are struck and which damped by which finger.

    resting: the fingers before a rest, None while the hand is on the neck.
    """

    fingers: tuple[tuple[str, Spots], ...] = ()
    struck: frozenset[int] = ALL
    damped: tuple[tuple[int, str], ...] = ()
    tuning: str = "standard"
    resting: Hand | None = None

    def pitches(self) -> list[int]:
        """What sounds, as MIDI numbers without a capo."""
        return [pitch for pitch in self.sounds() if pitch is not None]

    def sounds(self) -> tuple[int | None, ...]:
        """What each string from 6 to 1 gives."""
        silent = {string for string, _ in self.damped} | (ALL - self.struck)
        return tuple(None if string in silent else self._pitch(string) for string in range(6, 0, -1))

    def _pitch(self, string: int) -> int:
        frets = [fret for _, (fret, strings) in self.fingers if string in strings]
        return OPEN[self.tuning][6 - string] + max(frets, default=0)

    def techniques(self) -> set[str]:
        """What holding it uses."""
        bar = any(len(strings) > 1 for _, (_, strings) in self.fingers)
        return {word for word, used in (("bar", bar), ("mute", bool(self.damped))) if used}

    def awake(self) -> Hand:
        """The hand that goes on from here: after a rest, where it was before."""
        return self if self.resting is None else self.resting

    def struck_anew(self, strings: frozenset[int]) -> Hand:
        """With these strings struck."""
        return replace(self, struck=strings)

    def check(self) -> None:
        """Whether a hand can hold it: fingers in their order, no two on a spot, none too far away."""
        places = sorted(self.fingers)
        frets = [fret for _, (fret, _) in places]
        if frets != sorted(frets) or (frets and frets[-1] - frets[0] > SPAN):
            raise Denied(f"no hand: {places}")
        for at, (_, (fret, strings)) in enumerate(places):
            if any(fret == other and strings & others for _, (other, others) in places[at + 1 :]):
                raise Denied(f"two on a spot: {places}")

    def done(self, action: str) -> tuple[Hand, set[str]]:
        """The hand after one action, and what techniques it uses."""
        down = dict(self.fingers)
        if put := re.fullmatch(r"([1-4]) to (\S+)", action):
            return self._put(put[1], _spots(put[2], self.tuning))
        if lift := re.fullmatch(r"([1-4]) off", action):
            if down.pop(lift[1], None) is None:
                raise Denied(action)
            return self._with(down, lift[1]), set()
        if change := re.fullmatch(r"([1-4]) for ([1-4])", action):
            if change[2] not in down or change[1] in down:
                raise Denied(action)
            down[change[1]] = down.pop(change[2])
            return replace(self._with(down, ""), damped=self.damped), set()
        if strum := re.fullmatch(r"strum (.+)", action):
            strings = strings_of(strum[1], self.tuning)
            if strings == self.struck:
                raise Denied(action)
            return self.struck_anew(strings), set()
        if mute := re.fullmatch(r"mute (\S) by ([1-4])", action):
            return self._mute(_string(mute[1], self.tuning), mute[2]), {"mute"}
        raise Denied(f"unreadable {action}")

    def _put(self, finger: str, spots: Spots) -> tuple[Hand, set[str]]:
        down = dict(self.fingers)
        was = down.get(finger)
        if was == spots:
            raise Denied(f"{finger} is there already")
        down[finger] = spots
        slides = was is not None and was[0] != spots[0] and was[1] == spots[1]
        hinges = was is not None and was[0] == spots[0] and bool(was[1] & spots[1])
        return self._with(down, finger), {word for word, is_so in (("slide", slides), ("hinge", hinges)) if is_so}

    def _mute(self, string: int, finger: str) -> Hand:
        place = dict(self.fingers).get(finger)
        if place is None or string in place[1] or min(abs(string - other) for other in place[1]) > 2:
            raise Denied(f"mute {string} by {finger}")
        return replace(self, damped=(*self.damped, (string, finger)))

    def _with(self, down: dict[str, Spots], moved: str) -> Hand:
        damped = tuple(pair for pair in self.damped if pair[1] != moved)
        return replace(self, fingers=tuple(sorted(down.items())), damped=damped)


def played(hand: Hand, line: str, silent: bool) -> tuple[Hand, set[str]]:
    """The hand after a line, and what techniques it uses; Denied where it can't be, or sounds as it should not."""
    if line in ("hold", "rest", "back"):
        return _alone(hand, line), set()
    if hand.resting is not None:
        raise Denied(f"{line} in a rest")
    after, used = hand, set[str]()
    actions = line.split(", ")
    for action in actions:
        after, techniques = after.done(action)
        used |= techniques
    if sum(not action.startswith("strum") for action in actions) > 1:
        raise Denied(f"two fingers: {line}")
    after.check()
    changes, exchange = hand.sounds() != after.sounds(), re.fullmatch(r"\d for \d", line) is not None
    if (silent and changes) or (not silent and not changes and not exchange):
        raise Denied(f"{line} is heard otherwise")
    return after, used


def _alone(hand: Hand, line: str) -> Hand:
    if (hand.resting is None) == (line == "back"):
        raise Denied(line)
    if line == "back":
        return hand.awake()
    return hand if line == "hold" else Hand(struck=hand.struck, tuning=hand.tuning, resting=hand)


def _string(word: str, tuning: str) -> int:
    if word.isdigit() and 1 <= int(word) <= 6:
        return int(word)
    if word not in LETTERS[tuning]:
        raise Denied(f"string {word}")
    return 6 - LETTERS[tuning].index(word)


def strings_of(words: str, tuning: str) -> frozenset[int]:
    """The strings that `A-e` names."""
    ends = [_string(word, tuning) for word in words.split("-")]
    return frozenset(range(min(ends), max(ends) + 1))


def _spots(place: str, tuning: str) -> Spots:
    spots = [re.fullmatch(r"(?:([A-Za-z])|(\d):)(\d+)", spot) for spot in place.split("-")]
    found = [(_string(spot[1] or spot[2], tuning), int(spot[3])) for spot in spots if spot]
    if len(found) != len(spots) or len({fret for _, fret in found}) != 1 or not 1 <= found[0][1] <= 24:
        raise Denied(f"place {place}")
    strings = [string for string, _ in found]
    return found[0][1], frozenset(range(min(strings), max(strings) + 1))
