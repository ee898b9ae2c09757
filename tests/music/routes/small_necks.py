"""Necks small enough that every hand on them can be written out, and that graph as networkx has it."""

from __future__ import annotations

import networkx as nx
from fingerpost.music.fretboard import Fretboard
from fingerpost.music.hand import Hand, Limits
from fingerpost.music.neighbours import neighbours
from fingerpost.music.pitch import Pitch
from fingerpost.music.routes.neck import Grip, Neck
from fingerpost.music.shape import Shape
from fingerpost.music.tuning import Tuning, parse_tuning

MOVE = 1 << 40
"""One move weighs more than all the points of a route."""
THREE_STRINGS = Fretboard(Tuning("three", tuple(map(Pitch.parse, ("G3", "B3", "E4")))))
FOUR_STRINGS = Fretboard(parse_tuning("ukulele"))

NECKS = {
    "bars and an order": Neck(
        THREE_STRINGS, Hand(limits=Limits(fingers=(1, 2), bar_strings=(3, 1, 1, 1), thumb_strings=0)), 1, 2
    ),
    "the thumb": Neck(THREE_STRINGS, Hand(limits=Limits(fingers=(1,), thumb_strings=2)), 1, 2),
    "no order": Neck(
        THREE_STRINGS, Hand(limits=Limits(False, fingers=(2, 3), bar_strings=(1,) * 4, thumb_strings=0)), 3, 4
    ),
    "a narrow hand": Neck(THREE_STRINGS, Hand(limits=Limits(fingers=(1, 4), span_frets=0, thumb_strings=0)), 1, 2),
    "unheard moves": Neck(
        THREE_STRINGS, Hand(limits=Limits(fingers=(1, 2), thumb_strings=0, bar_strings=(2, 1, 1, 1))), 1, 2, True
    ),
}
LARGER = Neck(FOUR_STRINGS, Hand(limits=Limits(fingers=(1, 2, 4), thumb_strings=0, bar_strings=(4, 1, 1, 1))), 1, 3)


def by_neighbours(neck: Neck) -> nx.DiGraph:
    """The graph as `music.neighbours` tells it, grown from the open strings.

    A shape is a node; an edge weighs one move and its thousandths of a point.
    """
    todo = [Shape(neck.fretboard.strings)]
    out = nx.DiGraph()
    out.add_nodes_from(todo)
    while todo:
        shape = todo.pop()
        for neighbour in neighbours(shape, neck.fretboard, neck.hand, neck.high, neck.unheard):
            if any(press.fret < neck.low for press in neighbour.shape.presses):
                continue
            if neighbour.shape not in out:
                todo.append(neighbour.shape)
            out.add_edge(shape, neighbour.shape, weight=MOVE + round(1000 * neighbour.cost))
    return out


def by_neck(neck: Neck) -> nx.DiGraph:
    """The same from the open strings, all struck, as the neck tells it; a grip is a node."""
    start: Grip = (0, 0, 0, 0, 0, 0)
    out, todo = nx.DiGraph(), [start]
    out.add_node(start)
    while todo:
        grip = todo.pop()
        for after, points in neck.moves(grip):
            if after not in out:
                todo.append(after)
            out.add_edge(grip, after, weight=MOVE + points)
    return out
