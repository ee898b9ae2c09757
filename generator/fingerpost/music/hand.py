"""The fretting hand: what it can hold, and what holding it costs."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

from fingerpost.music.change_costs import ChangeCosts
from fingerpost.music.costs import REACH_TERMS, TERMS, Costs, Held
from fingerpost.music.fretboard import Fretboard
from fingerpost.music.hashing import hashed_once
from fingerpost.music.limits import Fault, Limit, Limits, press_faults, shape_faults
from fingerpost.music.shape import Press, Shape

__all__ = ["ChangeCosts", "Costs", "Fault", "Hand", "Limit", "Limits"]


@hashed_once
@dataclass(frozen=True)
class Hand:
    """A hand: its limits, the costs of holding a shape, and the costs of going from one to another."""

    limits: Limits = field(default_factory=Limits)
    costs: Costs = field(default_factory=Costs)
    change_costs: ChangeCosts = field(default_factory=ChangeCosts)

    def faults(self, shape: Shape, fretboard: Fretboard) -> tuple[Fault, ...]:
        """Every limit that the shape breaks; empty where the hand can hold it.

        Presses without a finger are checked as far as can be (span, neck, clashes).
        """
        return tuple(shape_faults(shape, fretboard, self.limits))

    def holds(self, presses: Sequence[Press], fretboard: Fretboard) -> bool:
        """Whether these presses break no limit."""
        return next(press_faults(presses, fretboard, self.limits), None) is None

    def cost(self, shape: Shape, fretboard: Fretboard) -> float:
        """Points that holding the shape costs; 0 for open strings. Unknown fingers cost as little as they could."""
        return sum(points for _, points in self.cost_parts(shape, fretboard))

    def reach(self, shape: Shape, fretboard: Fretboard) -> float:
        """The part of the cost that says how far the fingers reach, along the neck and across it."""
        held = Held(shape.presses, shape.frets, fretboard, self.costs)
        return sum([term(held) for term in REACH_TERMS])

    def cost_parts(self, shape: Shape, fretboard: Fretboard) -> tuple[tuple[str, float], ...]:
        """The terms of the cost by name, those that are not 0."""
        held = Held(shape.presses, shape.frets, fretboard, self.costs)
        parts = ((name, round(term(held), 6)) for name, term in TERMS.items())
        return tuple((name, points) for name, points in parts if points)
