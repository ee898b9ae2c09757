"""A line made ready does what the line itself does, for every hand and every line."""

from __future__ import annotations

from fingerpost.course.ground import Ground, ground_of
from fingerpost.course.meant.ready_line import ready
from fingerpost.course.perform import Held, perform
from fingerpost.course.settings import Settings
from fingerpost.course.slip import Slip
from fingerpost.course.sound import SILENT_BY_NATURE
from fingerpost.diagnostics import Span
from fingerpost.music.shape_text import read_shape
from fingerpost.source.grammar import read_move
from fingerpost.source.page import read_page
from fingerpost.source.syntax import MoveLine, Token
from hypothesis import given
from hypothesis import strategies as st

from .any_page import LINES

SHAPES = st.sampled_from(
    ["x32010/-32-1-", "x02210/--231-", "320003/21---3", "133211/134211", "000000", "xx0232/---132"]
)
OPTIONS = st.sampled_from([{}, {"fingers_per_step": 3}, {"hand_shifts": True}, {"frets": 5}])


def _ground(options: dict[str, object]) -> Ground:
    page = read_page("p.md", "```moves\nid: a\nstart: open\nsteps:\n- hold\n```\n")
    return ground_of(page.syntax.blocks[0], Settings.from_mapping(options)[0]).ground


def _slowly(held: Held, line: MoveLine, ground: Ground) -> Held | None:
    """The hand after a line by the way that also tells what is wrong; None where it can't be, or sounds otherwise."""
    try:
        done = perform(held, line, ground)
    except Slip:
        return None
    if done.findings:
        return None
    changes = held.shape.frets != done.held.shape.frets
    by_nature = all(isinstance(action, SILENT_BY_NATURE) for action in line.actions)
    heard = changes if line.silent is None else not changes
    return done.held if heard or held.resting or done.held.resting or (by_nature and not line.silent) else None


@given(LINES, SHAPES, st.booleans(), OPTIONS)
def test_both_ways_come_to_the_same(text: str, shape: str, resting: bool, options: dict[str, object]) -> None:
    line = read_move(Token(text[2:], Span("p.md", 1, 3, 1, 3 + len(text)))).value
    if line is None:
        return
    ground, start = _ground(options), read_shape(shape, 6)
    held = Held(read_shape("000000", 6), start) if resting else Held(start)
    assert ready(line, ground).after(held, ground, {}) == _slowly(held, line, ground)
