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

    place: float = field(default=1.0, metadata={"about": "a finger comes down from the air (by judgement)"})
    lift: float = field(default=0.4, metadata={"about": "a finger leaves the strings (by judgement)"})
    travel_mm: float = field(
        default=0.015, metadata={"about": "each millimetre that a finger travels along the neck (by judgement)"}
    )
    contact: float = field(
        default=0.6, metadata={"about": "the share of its travel that a sliding finger still costs (by judgement)"}
    )
    crossing: float = field(default=0.35, metadata={"about": "each string that a finger crosses (by judgement)"})
    bar: float = field(default=1.5, metadata={"about": "a bar is laid (by judgement)"})
    bar_string: float = field(default=0.2, metadata={"about": "each string of it after the second (by judgement)"})
    unbar: float = field(default=0.6, metadata={"about": "a bar is raised (by judgement)"})
    hinge: float = field(default=0.7, metadata={"about": "part of a bar is freed while its base stays (by judgement)"})
    exchange: float = field(
        default=1.5, metadata={"about": "a finger takes the place of another without a sound (by judgement)"}
    )
    mute: float = field(
        default=0.7, metadata={"about": "a finger leans on a string to damp it, or ceases to (by judgement)"}
    )
    weak: tuple[float, float, float, float] = field(
        default=(0.0, 0.1, 0.4, 0.6),
        metadata={"about": "finger 1, 2, 3 and 4 when it moves; ring and little least independent (by judgement)"},
    )
    thumb: float = field(default=1.0, metadata={"about": "the thumb moves (by judgement)"})
    together: float = field(default=0.8, metadata={"about": "each finger that moves beyond the first (by judgement)"})
    unguided: float = field(
        default=0.5, metadata={"about": "two or more fingers move and none stays or keeps contact (by judgement)"}
    )
    stretch: float = field(
        default=1.0, metadata={"about": "each point by which holding the shape stretches more (by judgement)"}
    )
    strum: float = field(default=0.3, metadata={"about": "other strings are struck than before (by judgement)"})
