"""How to read the pictures: every mark explained beside a picture that the drawing code itself makes."""

from __future__ import annotations

from dataclasses import replace

from fingerpost.music.fretboard import Fretboard
from fingerpost.music.shape import Finger, Press, Shape
from fingerpost.music.transition import transition
from fingerpost.render.figure import figure_svg, picture
from fingerpost.render.layout import Facing
from fingerpost.render.look import Look
from fingerpost.render.parts import heading, items, tag
from fingerpost.render.plain import escaped

STRINGS = 6
OPEN_NECK = Fretboard()


def _press(finger: int, string: int, fret: int, high: int | None = None) -> Press:
    return Press(Finger(finger), fret, string, high or string)


def _hand(*presses: Press, unstruck: tuple[int, ...] = (), damped: tuple[tuple[int, Finger], ...] = ()) -> Shape:
    return Shape(STRINGS, presses, frozenset(unstruck), damped)


_LOW, _RING = _press(2, 6, 3), _press(3, 1, 3)
_BAR = _press(1, 6, 1, 1)
_C = (_press(3, 5, 3), _press(2, 4, 2), _press(1, 2, 1))

EXAMPLES: dict[str, tuple[Shape | None, Shape, Fretboard]] = {
    "stays": (None, _hand(_LOW, _RING), OPEN_NECK),
    "arrives": (_hand(_LOW), _hand(_LOW, _RING), OPEN_NECK),
    "lift": (_hand(_LOW, _press(1, 5, 2), _RING), _hand(_LOW, _RING), OPEN_NECK),
    "cross": (_hand(_LOW, _RING), _hand(_press(2, 5, 3), _RING), OPEN_NECK),
    "slide": (_hand(*_C), _hand(*_C[:2], _press(1, 2, 3)), OPEN_NECK),
    "far": (_hand(_press(1, 2, 1)), _hand(_press(1, 2, 10)), OPEN_NECK),
    "bar": (_hand(_press(3, 4, 3)), _hand(_BAR, _press(3, 4, 3)), OPEN_NECK),
    "hinge": (_hand(_BAR, _press(3, 4, 3)), _hand(_press(1, 2, 1, 1), _press(3, 4, 3)), OPEN_NECK),
    "exchange": (_hand(_press(2, 4, 2)), _hand(_press(3, 4, 2)), OPEN_NECK),
    "behind": (None, _hand(_press(1, 4, 2), _press(3, 4, 4)), OPEN_NECK),
    "open": (None, _hand(*_C, unstruck=(6,)), OPEN_NECK),
    "damped": (None, _hand(_LOW, _RING, damped=((5, Finger.MIDDLE),)), OPEN_NECK),
    "position": (None, _hand(_press(1, 5, 7, 1), _press(3, 4, 9), _press(4, 3, 9)), OPEN_NECK),
    "capo": (None, _hand(_LOW, _RING), Fretboard(capo=3)),
}
"""For each mark the shape before (None: no change is shown), the shape, and the neck."""


_FACINGS = {
    "upright": Facing(),
    "player": Facing(player_view=True),
    "left": Facing(left_handed=True),
}


def legend(look: Look) -> str:
    """The page's content."""
    said = look.words
    texts = ["reading.lead", "reading.fingers"]
    marks = items((_mark(name, look) for name in EXAMPLES), "fp-legend-item")
    return "".join(
        [
            *(tag("p", escaped(said.say(key)), "fp-lead" if key == texts[0] else "") for key in texts),
            heading(look.heading, escaped(said.say("reading.marks")), "fp-title"),
            tag("ul", marks, "fp-legend"),
            _views(look),
            *_section("reading.table", look),
            tag("p", escaped(said.say("reading.capo_text"))),
            *_section("reading.words", look),
        ]
    )


def _section(key: str, look: Look) -> list[str]:
    title = heading(look.heading, escaped(look.words.say(key)), "fp-title")
    return [title, tag("p", escaped(look.words.say(f"{key}_text")))]


def _mark(name: str, look: Look) -> str:
    before, shape, neck = EXAMPLES[name]
    change = transition(before, shape, neck) if before else None
    title, text = look.words.several(f"reading.mark.{name}")
    drawn = figure_svg(picture(shape, neck, None, look, change), f"fp-legend-{name}", small=True)
    words = tag("b", escaped(title)) + tag("p", escaped(text))
    return tag("figure", drawn, "fp-figure") + tag("div", words)


def _views(look: Look) -> str:
    """The same shape upright, as the player sees it, and mirrored; each drawn so, whatever the course's own view."""
    said = look.words
    shown = []
    for key, facing in _FACINGS.items():
        own = replace(look, facing=facing)
        # Their way of standing is the point here, so no switch of the reader's may turn them.
        ident = f"fp-legend-{key}"
        shape = _hand(*_C, unstruck=(6,))
        drawn = figure_svg(picture(shape, OPEN_NECK, None, own), ident, small=True, turnable=False)
        words = tag("b", escaped(said.say(f"reading.{key}_example"))) + tag("p", escaped(said.say(f"reading.{key}")))
        shown.append(tag("figure", drawn, "fp-figure") + tag("div", words))
    title = heading(look.heading, escaped(said.say("reading.views")), "fp-title")
    return title + tag("ul", items(shown, "fp-legend-item"), "fp-legend")
