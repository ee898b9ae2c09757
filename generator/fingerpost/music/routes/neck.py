"""The graph of hands: every shape within the limits on a window of frets, joined where one finger's move leads over.

The graph is never written out: with bars, hidden fingers and the thumb the open position alone has 4.5 million grips.
All limits concern one press or two, so tables over pairs of spots tell a grip's neighbours at once. Moves and costs are
those of `music.neighbours`, to the thousandth of a point.
"""

from __future__ import annotations

from dataclasses import dataclass, field

from fingerpost.music.routes.hands import STRUCK, Grip, Hands, replace_struck, with_finger
from fingerpost.music.routes.spots import bits
from fingerpost.music.routes.together import FINGERS

__all__ = ["STRUCK", "Grip", "Neck"]


@dataclass(frozen=True, eq=False)
class Neck(Hands):
    """The hands of `Hands`, and the moves between them."""

    _ends: dict[int, int] = field(default_factory=dict, repr=False)

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
                out += [(with_finger(grip, finger, 0), row[0] + weak)] if self.lifts(grip, finger) else []
            else:
                out += self.taking_over(grip, finger)
        return out

    def step(self, grip: Grip, after: Grip) -> int | None:
        """What it costs to go from a grip to another in one move, None where none leads there.

        Where other strings are to be struck than the finger's move makes so, the move is joined by a `strum`; or that
        is all that changes. The finger must then be heard; a bar may lie over strings that are not struck any more.
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
        joined = grip[STRUCK] != after[STRUCK] and self.places(replace_struck(after, 0), finger) >> spot & 1
        return bool(joined) and (self.unheard or self.shows(after, finger))

    def places(self, grip: Grip, finger: int) -> int:
        """Where a finger could come down while the others stay; the air is never among it."""
        tables, relation = self.together.place, self.together.relation[finger]
        found = self.together.alone[finger] & self.ends_struck(grip[STRUCK])
        for other in range(FINGERS):
            if other != finger and grip[other]:
                found &= tables[relation[other]][grip[other]]
        return found & ~1

    def ends_struck(self, unstruck: int) -> int:
        """Where a finger can come down with these strings not struck: a bar ends on strings that are."""
        if (known := self._ends.get(unstruck)) is None:
            known = self._ends[unstruck] = sum(
                1 << spot
                for spot, (_, low, high) in enumerate(self.spots.placed)
                if low == high or not (unstruck >> low - 1 | unstruck >> high - 1) & 1
            )
        return known

    def placed(self, grip: Grip, finger: int, to: int) -> Grip | None:
        """The grip after a finger has gone to one of its `places`; None where no mark of the shape's text changes.

        A single finger has the string struck that it comes down on.
        """
        spot, unstruck = grip[finger], grip[STRUCK]
        fret, low, high = self.spots.placed[to]
        if low == high and unstruck >> low - 1 & 1:
            return replace_struck(with_finger(grip, finger, to), unstruck ^ 1 << low - 1)
        if spot and not self.unheard and fret == self.spots.placed[spot][0]:
            hidden = self.behind(grip, finger, fret) | unstruck
            if self.spots.covers[spot] & ~hidden == self.spots.covers[to] & ~hidden:
                return None
        return with_finger(grip, finger, to)

    def lifts(self, grip: Grip, finger: int) -> bool:
        """Whether a finger that is down can leave: whether something is seen of it."""
        return self.unheard or self.shows(grip, finger)

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
        return with_finger(with_finger(grip, finger, grip[replaced]), replaced, 0)
