"""Draws a step: the neck, what the hand holds, what has just changed. Pure geometry; nothing here knows SVG."""

from __future__ import annotations

from functools import lru_cache

from fingerpost.music.fretboard import Fretboard
from fingerpost.music.shape import Press, Shape
from fingerpost.music.transition import FingerMove, MoveKind, Transition
from fingerpost.render import marks
from fingerpost.render.arrows import arrow
from fingerpost.render.layout import BREAK, CAPO, HEAD, ROW, UPRIGHT, Facing, Layout
from fingerpost.render.picture import Box, Label, Lines, Mark, Picture, Point, Role
from fingerpost.render.text_rows import TextRow, row_marks
from fingerpost.render.window import window

FRET_NUMBER_SIZE = 21.0
LEANING = frozenset({MoveKind.MUTE, MoveKind.UNMUTE})
STANDING = LEANING | {MoveKind.HINGE}
THICKEST, THINNEST = 3.0, 1.2


def draw(
    shape: Shape,
    fretboard: Fretboard,
    transition: Transition | None = None,
    facing: Facing = UPRIGHT,
    capo_name: str = "",
    rows: tuple[TextRow, ...] = (),
) -> Picture:
    """The picture of a shape; with the transition that led to it, also of what stays, arrives and was.

    capo_name: what is written on the capo. rows: words below the strings, for a picture that no table goes with.
    The words of the picture's text alternative are left to `alternative`.
    """
    moves = transition.moves if transition else ()
    presses = [*shape.presses, *(move.before for move in moves if move.before)]
    frets = window((press.fret for press in presses), fretboard.highest_fret)
    layout = Layout(shape.strings, frets, facing, fretboard.capo, capo_name, len(rows))
    return _picture(layout, (*_upon(layout, shape, moves, transition), *row_marks(layout, rows)))


def draw_bare(fretboard: Fretboard, facing: Facing = UPRIGHT, capo_name: str = "") -> Picture:
    """The neck alone, with no hand on it and nothing struck."""
    return _picture(Layout(fretboard.strings, window(()), facing, fretboard.capo, capo_name), ())


def _picture(layout: Layout, upon: tuple[Mark, ...]) -> Picture:
    width, height = layout.size
    facing = layout.facing
    return Picture(width, height, neck(layout), upon, "", "", facing.player_view, facing.left_handed, layout.strings)


@lru_cache(maxsize=512)
def neck(layout: Layout) -> tuple[Mark, ...]:
    """Strings, frets, the nut or the capo, and the numbers of the frets."""
    return (*_frets(layout), *_strings(layout), *_nut(layout), *_numbers(layout))


def _stretches(layout: Layout) -> list[tuple[float, float]]:
    """Where each stretch of frets begins and ends along the neck."""
    return [(layout.fret(first) - ROW / 2, layout.fret(last) + ROW / 2) for first, last in layout.window.parts]


def _over(layout: Layout, along: float) -> tuple[float, float, float, float]:
    """A stroke over all the strings."""
    return (*layout.at(layout.string(layout.strings), along), *layout.at(layout.string(1), along))


def _frets(layout: Layout) -> list[Mark]:
    lines = []
    for (start, _), (first, last) in zip(_stretches(layout), layout.window.parts, strict=True):
        skip = 1 if first == 1 else 0
        lines += [_over(layout, start + row * ROW) for row in range(skip, last - first + 2)]
    return [Lines(Role.FRET, tuple(lines))]


def _strings(layout: Layout) -> list[Mark]:
    out: list[Mark] = []
    stretches = _stretches(layout)
    for string in range(layout.strings, 0, -1):
        across = layout.string(string)
        share = (string - 1) / (layout.strings - 1)
        lines = tuple((*layout.at(across, start), *layout.at(across, end)) for start, end in stretches)
        out.append(Lines(Role.STRING, lines, round(THINNEST + (THICKEST - THINNEST) * share, 2)))
    breaks = [(layout.string(string), end) for _, end in stretches[:-1] for string in range(1, layout.strings + 1)]
    if breaks:
        out.append(
            Lines(Role.BREAK, tuple((*layout.at(x, end + 3), *layout.at(x, end + BREAK - 3)) for x, end in breaks))
        )
    return out


def _nut(layout: Layout) -> list[Mark]:
    if not layout.window.at_nut:
        return []
    if not layout.capo:
        return [Lines(Role.NUT, (_over(layout, layout.head - 2.5),))]
    (x1, y1), (x2, y2) = (
        layout.at(layout.string(layout.strings) - 14, HEAD),
        layout.at(layout.string(1) + 14, HEAD + CAPO - 2),
    )
    x, y, width, height = min(x1, x2), min(y1, y2), abs(x2 - x1), abs(y2 - y1)
    name = Label(Role.CAPO_NAME, x + width / 2, y + height / 2, layout.capo_name, 20, layout.facing.player_view)
    return [Box(Role.CAPO, x, y, width, height, 8), name]


def _numbers(layout: Layout) -> list[Mark]:
    return [
        Label(
            Role.FRET_NUMBER,
            *layout.at(layout.string(layout.strings) - 37, layout.fret(fret)),
            str(fret),
            FRET_NUMBER_SIZE,
        )
        for fret in layout.window.frets
    ]


def _upon(layout: Layout, shape: Shape, moves: tuple[FingerMove, ...], transition: Transition | None) -> list[Mark]:
    """The marks on the neck, back to front: what was, what the hand holds, paths, and the signs before the nut."""
    arrived = {move.after for move in moves if move.after and move.kind not in STANDING}
    out: list[Mark] = []
    for left in _left(moves):
        out += marks.was(layout, left, _occupied(shape, left))
    for press in sorted(shape.presses, key=lambda press: -len(press.strings)):
        out += _held(layout, shape, press, press in arrived)
    spots = tuple(_spots(layout, shape))
    for move in moves:
        out += _path(layout, move, spots)
    return [*out, *_signs(layout, shape, transition)]


def _left(moves: tuple[FingerMove, ...]) -> list[Press]:
    """The places that fingers have left, that of an exchanged finger included."""
    gone = [move.after if move.kind is MoveKind.EXCHANGE else move.before for move in moves if move.kind not in LEANING]
    return [press for press in gone if press]


def _occupied(shape: Shape, press: Press) -> bool:
    return any(other.fret == press.fret and other.covers(string) for other in shape.presses for string in press.strings)


def _held(layout: Layout, shape: Shape, press: Press, new: bool) -> tuple[Mark, ...]:
    hidden = all((shape.sounding_press(string) or press).fret > press.fret for string in press.strings)
    if hidden:
        return marks.behind(layout, press, new)
    return marks.arrives(layout, press) if new else marks.stays(layout, press)


def _spots(layout: Layout, shape: Shape) -> list[Point]:
    """Where fingers and the signs of strings stand, for arrows to keep clear of."""
    fingers = [layout.place(string, press.fret) for press in shape.presses for string in press.strings]
    return [*fingers, *(layout.above(string) for string in range(1, shape.strings + 1))]


def _path(layout: Layout, move: FingerMove, spots: tuple[Point, ...]) -> tuple[Mark, ...]:
    if move.before is None or move.after is None or move.kind in STANDING:
        return ()
    start, end = marks.middle(layout, move.before), marks.middle(layout, move.after)
    if start == end or _within(move.before, move.after):
        return ()
    own = {layout.place(string, move.after.fret) for string in move.after.strings}
    others = tuple(spot for spot in spots if spot not in own)
    return arrow(start, end, marks.RING + 1, marks.SQUARE + 4, others, layout.size)


def _within(before: Press, after: Press) -> bool:
    """Whether a bar has grown about the place where its finger was."""
    return before.fret == after.fret and after.covers(before.low) and after.covers(before.high)


def _signs(layout: Layout, shape: Shape, transition: Transition | None) -> list[Mark]:
    touching = dict(shape.damped)
    changed = transition.strings_changed if transition else ()
    out: list[Mark] = []
    for string in range(shape.strings, 0, -1):
        if string in touching:
            out += marks.damped(layout, string)
            press = shape.press_of(touching[string])
            out += marks.touch(layout, press, string) if press else ()
        elif string in shape.unstruck:
            out.append(marks.unstruck(layout, string))
        elif shape.fret(string) == 0:
            out.append(marks.open_string(layout, string))
        else:
            continue
        if string in changed:
            out.append(marks.newly(layout, string))
    return out
