"""What going from one shape to another costs: documented, adjustable points."""

from __future__ import annotations

from dataclasses import dataclass, field


@dataclass(frozen=True)
class ChangeCosts:
    """Points a change costs. They rank changes, they measure nothing.

    Travel along the neck and crossing of strings are separate terms, and a finger that keeps contact is cheaper than
    one that leaves the string (Sayegh 1989; Heijink & Meulenbroek 2002; Radicioni & Lombardo 2005). All sizes are by
    judgement.
    """

    place: float = field(default=1.0, metadata={"about": "a finger comes down from the air"})
    lift: float = field(default=0.4, metadata={"about": "a finger leaves the strings"})
    travel_mm: float = field(default=0.015, metadata={"about": "each millimetre that a finger travels along the neck"})
    contact: float = field(default=0.6, metadata={"about": "the share of its travel that a sliding finger still costs"})
    crossing: float = field(default=0.35, metadata={"about": "each string that a finger crosses"})
    bar: float = field(default=1.5, metadata={"about": "a bar is laid"})
    bar_string: float = field(default=0.2, metadata={"about": "each string of it after the second"})
    unbar: float = field(default=0.6, metadata={"about": "a bar is raised"})
    hinge: float = field(default=0.7, metadata={"about": "part of a bar is freed while its base stays"})
    exchange: float = field(default=1.5, metadata={"about": "a finger takes the place of another without a sound"})
    mute: float = field(default=0.7, metadata={"about": "a finger leans on a string to damp it, or ceases to"})
    weak: tuple[float, float, float, float] = field(
        default=(0.0, 0.1, 0.4, 0.6),
        metadata={"about": "finger 1, 2, 3 and 4 when it moves; index most independent, ring least, little weakest"},
    )
    thumb: float = field(default=1.0, metadata={"about": "the thumb moves"})
    together: float = field(default=0.8, metadata={"about": "each finger that moves beyond the first"})
    unguided: float = field(default=0.5, metadata={"about": "two or more fingers move and none stays or keeps contact"})
    stretch: float = field(default=1.0, metadata={"about": "each point by which holding the shape stretches more"})
    strum: float = field(default=0.3, metadata={"about": "other strings are struck than before"})
