"""The graph of hands: every shape within the limits on a window of frets, joined where one finger's move leads over.

A hand is six numbers (`Grip`): the spot of the thumb and of fingers 1 to 4, 0 where it is up, and the strings that are
not struck as a set, bit 0 for string 1. The graph is never written out: with bars, hidden fingers and the thumb the
open position alone has 4.5 million grips. All limits concern one press or two, so tables over pairs of spots tell a
grip's neighbours at once. Moves and costs are those of `music.neighbours`, to the thousandth of a point.
"""

from __future__ import annotations

from dataclasses import dataclass, field, replace
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
STRUCK = 5
"""Where in a grip the strings stand that are not struck."""
_MOST_REMEMBERED = 1 << 18


@dataclass(frozen=True, eq=False)
class Neck:
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

    @cached_property
    def _struck_ends(self) -> dict[int, int]:
        """By set of strings that are not struck: where a finger can come down, since bars end on strings that sound."""
        return {}

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

    def moves(self, grip: Grip) -> list[tuple[Grip, int]]:
        """Every grip that one finger's move leads to, with its cost in thousandths; in a fixed order."""
        bare = self.bare_moves(grip)
        return [(after, cost + self.added(grip, after)) for after, cost in bare]

    def bare_moves(self, grip: Grip) -> list[tuple[Grip, int]]:
        """The same without what further reach and other strings struck add to the cost (`added`)."""
        out: list[tuple[Grip, int]] = []
        for finger in self.fingers:
            spot = grip[finger]
            row, weak = self.costs.row(spot), self.costs.weak[finger]
            for to in bits(self.places(grip, finger) & ~(1 << spot)):
                if (after := self.placed(grip, finger, to)) is not None:
                    out.append((after, row[to] + weak))
            if spot:
                out += [(self.with_finger(grip, finger, 0), row[0] + weak)] if self.lifts(grip, finger) else []
            else:
                out += self.taking_over(grip, finger)
        return out

    def step(self, grip: Grip, after: Grip) -> int | None:
        """What it costs to go from a grip to another in one move, None where none leads there.

        Where other strings are to be struck than the finger's move makes so, the move is joined by a `strum`; or that
        is all that changes. The finger, or each end of its bar, must then be heard.
        """
        other = [finger for finger in range(FINGERS) if grip[finger] != after[finger]]
        if len(other) > 2:
            return None
        struck = grip[STRUCK] == after[STRUCK]
        if not other:
            return None if struck else self.added(grip, after)
        if len(other) == 2:
            come, gone = other if grip[other[1]] else (other[1], other[0])
            if grip[come] or after != replace_struck(self.exchanged(grip, come, gone), after[STRUCK]):
                return None
            cost = self.costs.exchange + self.costs.weak[come] + self.added(grip, after)
            return cost if not struck or self.exchanges(grip, come, gone) else None
        finger = other[0]
        allowed = self._arrives(grip, after, finger) if after[finger] else not struck or self.lifts(grip, finger)
        base = self.costs.row(grip[finger])[after[finger]] + self.costs.weak[finger]
        return base + self.added(grip, after) if allowed else None

    def _arrives(self, grip: Grip, after: Grip, finger: int) -> bool:
        spot = after[finger]
        if self.places(grip, finger) >> spot & 1 and self.placed(grip, finger, spot) == after:
            return True
        joined = grip[STRUCK] != after[STRUCK] and self.places(after, finger) >> spot & 1
        return bool(joined) and (self.unheard or self.shows(after, finger))

    def places(self, grip: Grip, finger: int) -> int:
        """Where a finger could come down while the others stay; the air is never among it."""
        tables, relation = self.together.place, self.together.relation[finger]
        found = self.together.alone[finger] & self._ends(grip[STRUCK])
        for other in range(FINGERS):
            if other != finger and grip[other]:
                found &= tables[relation[other]][grip[other]]
        return found & ~1

    def _ends(self, unstruck: int) -> int:
        if (known := self._struck_ends.get(unstruck)) is None:
            known = sum(
                1 << spot
                for spot, (_, low, high) in enumerate(self.spots.placed)
                if low == high or not (unstruck >> low - 1 | unstruck >> high - 1) & 1
            )
            self._struck_ends[unstruck] = known
        return known

    def placed(self, grip: Grip, finger: int, to: int) -> Grip | None:
        """The grip after a finger has gone to one of its `places`; None where no mark of the shape's text changes.

        A single finger has the string struck that it comes down on.
        """
        spot, unstruck = grip[finger], grip[STRUCK]
        fret, low, high = self.spots.placed[to]
        if low == high and unstruck >> low - 1 & 1:
            return replace_struck(self.with_finger(grip, finger, to), unstruck ^ 1 << low - 1)
        if spot and not self.unheard and fret == self.spots.placed[spot][0]:
            hidden = self._behind(grip, finger, fret) | unstruck
            if self.spots.covers[spot] & ~hidden == self.spots.covers[to] & ~hidden:
                return None
        return self.with_finger(grip, finger, to)

    def lifts(self, grip: Grip, finger: int) -> bool:
        """Whether a finger that is down can leave: whether something is seen of it."""
        return self.unheard or self.shows(grip, finger)

    def shows(self, grip: Grip, finger: int) -> bool:
        """Whether a finger makes at least one of the notes."""
        spot = grip[finger]
        hidden = self._behind(grip, finger, self.spots.placed[spot][0]) | grip[STRUCK]
        return bool(self.spots.covers[spot] & ~hidden)

    def _behind(self, grip: Grip, finger: int, fret: int) -> int:
        """The strings on which others press at a higher fret."""
        hidden = 0
        for other in range(FINGERS):
            if other != finger and self.spots.placed[grip[other]][0] > fret:
                hidden |= self.spots.covers[grip[other]]
        return hidden

    def taking_over(self, grip: Grip, finger: int) -> list[tuple[Grip, int]]:
        """The exchanges by which a finger that is up comes down, each with its cost but for `added`."""
        cost = self.costs.exchange + self.costs.weak[finger]
        return [
            (self.exchanged(grip, finger, other), cost)
            for other in range(FINGERS)
            if grip[other] and self.exchanges(grip, finger, other)
        ]

    def exchanges(self, grip: Grip, finger: int, replaced: int) -> bool:
        """Whether a finger that is up can take the place of one that is down."""
        spot, relation = grip[replaced], self.together.relation[finger]
        found = self.together.alone[finger] >> spot & 1 and (self.unheard or self.shows(grip, replaced))
        return bool(found) and all(
            self.together.hold[relation[other]][grip[other]] >> spot & 1
            for other in range(FINGERS)
            if grip[other] and other != replaced
        )

    def exchanged(self, grip: Grip, finger: int, replaced: int) -> Grip:
        """The grip after the one finger has taken the other's place."""
        return self.with_finger(self.with_finger(grip, finger, grip[replaced]), replaced, 0)

    @staticmethod
    def with_finger(grip: Grip, finger: int, spot: int) -> Grip:
        """The grip with one finger elsewhere."""
        return (*grip[:finger], spot, *grip[finger + 1 :])  # type: ignore[return-value]

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

    def narrowed(self, low: int, high: int) -> Neck:
        """The same hand and neck on another window of frets."""
        return replace(self, low=low, high=high, _reaches={})


def replace_struck(grip: Grip, unstruck: int) -> Grip:
    """The same fingers with other strings not struck."""
    return (*grip[:STRUCK], unstruck)  # type: ignore[return-value]
