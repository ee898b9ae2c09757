"""The hands of one player on a window of frets, as numbers: what they press, sound and reach."""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import cached_property

from fingerpost.music.costs import REACH_TERMS, Held
from fingerpost.music.fretboard import Fretboard
from fingerpost.music.hand import Hand
from fingerpost.music.neighbours import USUAL_FRETS
from fingerpost.music.routes.finger_costs import FingerCosts, thousandths
from fingerpost.music.routes.spots import Spots, bits
from fingerpost.music.routes.together import FINGERS, Together, together
from fingerpost.music.shape import Finger, Press, Shape

Grip = tuple[int, int, int, int, int, int]
"""The spot of the thumb and of fingers 1 to 4, 0 where it is up; and the strings not struck, bit 0 for string 1."""
STRUCK = 5
"""Where in a grip the strings stand that are not struck."""
_MOST_REMEMBERED = 1 << 18


@dataclass(frozen=True, eq=False)
class Hands:
    """The hands of one player on one neck, frets low to high (counted from the capo), open strings included.

    unheard: also moves of which nothing is heard and fingers laid behind others, as in `neighbours`.
    """

    fretboard: Fretboard = field(default_factory=Fretboard)
    hand: Hand = field(default_factory=Hand)
    low: int = 1
    high: int = USUAL_FRETS
    unheard: bool = False
    _reaches: dict[tuple[int, ...], float] = field(default_factory=dict, repr=False)

    @cached_property
    def spots(self) -> Spots:
        """The numbering of where a finger can be."""
        return Spots(self.fretboard.strings, self.low, min(self.high, self.fretboard.highest_fret))

    @cached_property
    def together(self) -> Together:
        """Which spots go together."""
        return together(self.spots, self.fretboard, self.hand.limits, self.unheard)

    @cached_property
    def costs(self) -> FingerCosts:
        """What single moves cost."""
        return FingerCosts(self.spots, self.fretboard, self.hand.change_costs)

    @cached_property
    def fingers(self) -> tuple[int, ...]:
        """The fingers that this hand uses, the thumb (0) first."""
        usable = tuple(sorted(self.hand.limits.fingers))
        return (0, *usable) if self.hand.limits.thumb_strings else usable

    def grip(self, shape: Shape) -> Grip | None:
        """The six numbers of a shape, None where it is outside the window or the limits.

        Raises ValueError where the shape does not say its fingers, or damps a string: that is no spot of a finger.
        """
        if not shape.has_fingers or shape.damped:
            raise ValueError("a route needs shapes that say which finger presses what, none of them damping a string")
        if shape.strings != self.fretboard.strings or not self.hand.holds(shape.presses, self.fretboard):
            return None
        spots = [0] * FINGERS
        for press in shape.presses:
            spot = self.spots.spot(press)
            if spot is None or press.finger is None:
                return None
            spots[press.finger] = spot
        thumb, index, middle, ring, little = spots
        return thumb, index, middle, ring, little, sum(1 << string - 1 for string in shape.unstruck)

    def presses(self, grip: Grip) -> tuple[Press, ...]:
        """What the fingers of a grip press."""
        return tuple(self.spots.press(grip[finger], finger) for finger in Finger if grip[finger])

    def shape(self, grip: Grip) -> Shape:
        """The shape that a grip stands for."""
        return Shape(self.fretboard.strings, self.presses(grip), frozenset(bit + 1 for bit in bits(grip[STRUCK])))

    def frets(self, grip: Grip) -> tuple[int | None, ...]:
        """What each string sounds, index 0 = string 1: as `Shape.frets`, without making the shape."""
        tops = [0] * self.fretboard.strings
        for spot in grip[:FINGERS]:
            fret, low, high = self.spots.placed[spot]
            for index in range(high - 1, low) if spot else ():
                tops[index] = max(tops[index], fret)
        return tuple(None if grip[STRUCK] >> index & 1 else fret for index, fret in enumerate(tops))

    def shows(self, grip: Grip, finger: int) -> bool:
        """Whether a finger makes at least one of the notes."""
        spot = grip[finger]
        hidden = self.behind(grip, finger, self.spots.placed[spot][0]) | grip[STRUCK]
        return bool(self.spots.covers[spot] & ~hidden)

    def behind(self, grip: Grip, finger: int, fret: int) -> int:
        """The strings on which others press at a higher fret."""
        hidden = 0
        for other in range(FINGERS):
            if other != finger and self.spots.placed[grip[other]][0] > fret:
                hidden |= self.spots.covers[grip[other]]
        return hidden

    def added(self, before: Grip, after: Grip) -> int:
        """Thousandths that a change costs beyond the finger's own move: further reach, other strings struck."""
        further = self.reach(after) - self.reach(before)
        strum = self.costs.strum if before[STRUCK] != after[STRUCK] else 0
        return strum + (thousandths(self.hand.change_costs.stretch * further) if further > 0 else 0)

    def reach(self, grip: Grip) -> float:
        """`Hand.reach` of a grip: it depends on the presses and on whether an open string rings."""
        pressed = 0
        for spot in grip[:FINGERS]:
            pressed |= self.spots.covers[spot]
        rings = ((1 << self.fretboard.strings) - 1) & ~pressed & ~grip[STRUCK] != 0
        key = (*grip[:FINGERS], rings)
        if (known := self._reaches.get(key)) is None:
            if len(self._reaches) >= _MOST_REMEMBERED:
                self._reaches.clear()
            presses = self.shape(replace_struck(grip, 0)).presses
            held = Held(presses, (0,) if rings else (), self.fretboard, self.hand.costs)
            known = self._reaches[key] = sum([term(held) for term in REACH_TERMS])
        return known


def with_finger(grip: Grip, finger: int, spot: int) -> Grip:
    """The grip with one finger elsewhere."""
    return (*grip[:finger], spot, *grip[finger + 1 :])  # type: ignore[return-value]


def replace_struck(grip: Grip, unstruck: int) -> Grip:
    """The same fingers with other strings not struck."""
    return (*grip[:STRUCK], unstruck)  # type: ignore[return-value]
